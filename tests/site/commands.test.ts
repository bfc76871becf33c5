/** The program, the commands and the drawings that a workbench shows are those of its form. */
import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { commandText, exportOf, programText } from "../../docs/build/site/commands.js";
import { picturesOf, surveyOf } from "../../docs/build/site/pictures.js";
import { catalogue, entryWithId } from "../../src/survey/index.js";
import { dryfit } from "../cli/harness.js";

/** What a shell makes of commands: the words and the input of `dryfit`, and the file that was written. */
function throughShell(commands: string): { words: string[]; stdin: string; place: string } {
  const folder = mkdtempSync(join(tmpdir(), "dryfit-shell-"));
  try {
    const body = `dryfit() { for word; do printf '%s\\0' "$word"; done > words; cat > stdin; }\n: > place.json\n${commands}`;
    execFileSync("/bin/sh", ["-e", "-c", body], { cwd: folder });
    const [words, stdin, place] = ["words", "stdin", "place.json"].map((name) =>
      readFileSync(join(folder, name), "utf8"),
    );
    return { words: words!.split("\0").slice(0, -1), stdin: stdin!, place: place! };
  } finally {
    rmSync(folder, { recursive: true });
  }
}

async function ran(id: string, input: object, at: Record<string, unknown> = {}): Promise<unknown> {
  const { words, stdin, place } = throughShell(commandText(id, input, at));
  const { out, err } = await dryfit([...words, "--json"], { stdin, files: { "place.json": place } });
  expect(err).toBe("");
  return JSON.parse(out);
}

describe("the commands", () => {
  test("give what the library gives, with a place, other units and marks that shells read", async () => {
    const examples = catalogue().flatMap((entry) =>
      entry.examples
        .filter(({ at }, i) => i === 0 || at?.units || at?.maker || at?.jurisdiction?.local)
        .map((example) => ({ entry, ...example })),
    );
    const chosen = examples.filter(({ at }, i) => at !== undefined || i % 12 === 0);
    expect(chosen.length).toBeGreaterThan(8);
    for (const { entry, input, at } of chosen) {
      expect(await ran(entry.id, input, at as Record<string, unknown>)).toEqual(entry(input, at));
    }
    const input = { fuel: "electric", straight: '18 ft 3"', elbows: [] };
    const at = {
      units: "si",
      decision: "simple",
      jurisdiction: {
        local: [
          {
            limit: "venting/duct-length.base",
            value: "20 ft",
            citation: { document: 'Alder\'s "Row" $(x) `x` \\n %s' },
          },
        ],
      },
    } as const;
    const length = entryWithId("venting/duct-length")!;
    expect(await ran(length.id, input, at)).toEqual(length(input, at));
    expect(JSON.stringify(length(input, at))).toContain("$(x)");
  });

  test("are one line where nothing surrounds the check", () => {
    expect(commandText("venting/duct-length", { fuel: "electric" }, { units: "si", decimal: "," })).toBe(
      `printf '%s' '{"fuel":"electric"}' | dryfit calc venting/duct-length - --units si --decimal ,`,
    );
  });
});

test("the program calls the export of the entry with the same input, for every example", () => {
  for (const entry of catalogue()) {
    for (const { input, at } of entry.examples) {
      const program = programText(entry.id, input, at);
      const [imports, call] = program.split("\n\n") as [string, string];
      expect(imports).toBe(`import { ${exportOf(entry.id)} } from "dryfit/${entry.id.split("/")[0]}";`);
      const args: unknown = new Function(
        exportOf(entry.id),
        `return ${program.slice(imports.length)}`.replace("return \n\n", "return "),
      )((...given: unknown[]) => given);
      expect(call).toContain(exportOf(entry.id));
      expect(args).toEqual(at === undefined ? [input] : [input, at]);
    }
  }
});

describe("the drawings of one check", () => {
  test("are made of every example that allows one, in all the checks that have one", () => {
    const drawn = catalogue().filter((entry) =>
      entry.examples.some(({ input, at = {} }) => picturesOf(entry, input, entry(input, at), at).length > 0),
    );
    const ids = drawn.map(({ id }) => id);
    for (const id of [
      "placement/clearances",
      "placement/connections-behind",
      "placement/level-feet",
      "electrical/circuit-found",
      "venting/duct-airflow",
      "venting/duct-resistance",
    ]) {
      expect(ids).toContain(id);
    }
    expect(ids).not.toContain("placement/passage");
  });

  test("put each field where a survey has it", () => {
    const length = entryWithId("venting/duct-length")!;
    const survey = surveyOf(length, { fuel: "electric", straight: "18 ft", elbows: [] })!;
    expect(survey).toEqual({ machine: { fuel: "electric" }, venting: { duct: { straight: "18 ft", elbows: [] } } });
  });
});
