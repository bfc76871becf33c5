/** Verdicts over the sample surveys, in the form they are recorded in. */
import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { assessMany, type Format } from "../../src/survey/index.js";

const examples = fileURLToPath(new URL("../../examples/", import.meta.url));

/** The file of recorded verdicts. */
export const recordedFile: string = fileURLToPath(new URL("recorded.json", import.meta.url));

/**
 * Per survey and rule that applies: the verdict and the message that decides it; for a refused row, the codes of its
 * faults.
 */
export type Recorded = Record<string, Record<string, string>>;

const samples: readonly { readonly file: string; readonly format: Format }[] = [
  ...readdirSync(`${examples}sites`)
    .sort()
    .map((name) => ({ file: `sites/${name}`, format: "json" as const })),
  { file: "co-op.csv", format: "csv" },
];

/** What the rules say of the samples now. */
export async function verdictsNow(): Promise<Recorded> {
  const recorded: Recorded = {};
  for (const { file, format } of samples) {
    for await (const answer of assessMany([readFileSync(examples + file)], format, { detail: "verdicts" })) {
      const name = format === "json" ? file : `${file} line ${answer.line}`;
      recorded[name] = answer.ok
        ? Object.fromEntries(
            answer.assessment.findings
              .filter(({ verdict }) => verdict !== "notApplicable")
              .map(({ rule, verdict, messageId }): [string, string] => [rule, `${verdict} ${messageId}`])
              .sort(),
          )
        : { refused: answer.refusal.issues.map(({ code }) => code).join(", ") };
    }
  }
  return recorded;
}

/** The recorded verdicts as a file: one survey a line. */
export function recordedText(recorded: Recorded): string {
  const lines = Object.entries(recorded).map(
    ([name, verdicts]) => `${JSON.stringify(name)}: ${JSON.stringify(verdicts)}`,
  );
  return `{\n${lines.join(",\n")}\n}\n`;
}

/** What differs, one line each: `sites/alder-row-01.json venting/duct-length: pass within -> fail tooLong`. */
export function differences(before: Recorded, after: Recorded): string[] {
  return [...new Set([...Object.keys(before), ...Object.keys(after)])].flatMap((name) => {
    const [was, is] = [before[name] ?? {}, after[name] ?? {}];
    return [...new Set([...Object.keys(was), ...Object.keys(is)])].sort().flatMap((rule) => {
      const [old, now] = [was[rule] ?? "nothing", is[rule] ?? "nothing"];
      return old === now ? [] : [`${name} ${rule}: ${old} -> ${now}`];
    });
  });
}
