/** `dryfit compare`: which verdicts change between two surveys, or between two editions over one survey. */
import { type Command, Option } from "commander";
import { adoptable } from "../core/basis/index.js";
import { InputFault } from "../core/rule/index.js";
import { cleanText, comparisonMarkdown, comparisonText } from "../report/index.js";
import { type Assessment, assessUnknown, compareAssessments, refusalOf, refusalText } from "../survey/index.js";
import { type ExitCode, exitCodes } from "./exit.js";
import type { Console } from "./io.js";
import { jsonText } from "./json.js";
import { say, surveyRow } from "./one-survey.js";
import { type SharedOptions, withSharedOptions } from "./options.js";
import { type Outcome, UsageError } from "./outcome.js";

interface CompareFlags extends SharedOptions {
  readonly adopt?: readonly string[];
  readonly format: "text" | "markdown" | "json";
}

const help = `
Each file holds one survey. With --adopt the first file is compared with itself under other editions;
the flag may be repeated. The code is 0 where no verdict changes and 1 where one does.

Examples
  dryfit compare before.json after.json
  dryfit compare site.json --adopt irc=2006 --adopt nec=2023`;

/** Adds the verb to the command. */
export function addCompare(program: Command, console: Console, outcome: Outcome): void {
  const command = program
    .command("compare")
    .summary("show which verdicts change between two surveys or editions")
    .description(
      "Sets two surveys, or one survey under two editions, beside each other: what changes, by how much, why.",
    )
    .argument("<before>", "file with one survey")
    .argument("[after]", "file with the later survey; the first one again where left out")
    .addOption(
      new Option("--adopt <text=edition>", "edition in force for the second, such as irc=2006").argParser(
        (value: string, known: readonly string[] = []) => [...known, value],
      ),
    )
    .addOption(
      new Option("--format <format>", "how to print it").choices(["text", "markdown", "json"]).default("text"),
    );
  withSharedOptions(command)
    .addHelpText("after", help)
    .action(async (before: string, after: string | undefined, flags: CompareFlags) => {
      outcome.code = await compare(before, after, flags, console);
    });
}

type Plain = Record<string, unknown>;
const objectOr = (value: unknown): Plain => (typeof value === "object" && value !== null ? (value as Plain) : {});

/** The editions that the flags name; which of them exist is the schema's to say. */
function adoptedOf(flags: readonly string[]): Plain {
  const texts = Object.keys(adoptable);
  return Object.fromEntries(
    flags.map((flag) => {
      const [, text, edition] = /^([A-Za-z]+)=(\d{4})$/.exec(flag) ?? [];
      if (text !== undefined && texts.includes(text)) return [text, Number(edition)];
      throw new UsageError(
        `--adopt ${cleanText(flag)}: write a text and the year of its edition, such as irc=2021; the texts are ${texts.join(", ")}`,
      );
    }),
  );
}

function underEditions(survey: unknown, adopted: Plain): unknown {
  if (Object.keys(adopted).length === 0) return survey;
  const whole = objectOr(survey);
  const jurisdiction = objectOr(whole["jurisdiction"]);
  return { ...whole, jurisdiction: { ...jurisdiction, adopted: { ...objectOr(jurisdiction["adopted"]), ...adopted } } };
}

async function compare(
  before: string,
  after: string | undefined,
  flags: CompareFlags,
  console: Console,
): Promise<ExitCode> {
  const adopted = adoptedOf(flags.adopt ?? []);
  if (after === undefined && flags.adopt === undefined)
    throw new UsageError("name a second survey, or another edition with --adopt");
  const { units = "us", decision = "guarded", decimal = "." } = flags;
  const first = await surveyRow(before, console);
  const second = after === undefined ? first : await surveyRow(after, console);
  if (!first || !second) return exitCodes.badInput;
  const assessed: Assessment<"full">[] = [];
  for (const [path, row, editions] of [
    [before, first, {}],
    [after ?? before, second, adopted],
  ] as const) {
    try {
      assessed.push(assessUnknown(underEditions(row.value, editions), { units, decision, decimal }));
    } catch (error) {
      if (!(error instanceof InputFault)) throw error;
      await say(path, refusalOf(row, error).issues.map(refusalText), console);
      return exitCodes.badInput;
    }
  }
  const comparison = compareAssessments(assessed[0]!, assessed[1]!, { units });
  if (flags.format === "json") await console.out(`${jsonText(comparison)}\n`);
  else await console.out(flags.format === "markdown" ? comparisonMarkdown(comparison) : comparisonText(comparison));
  return comparison.changes.some(({ flips }) => flips) ? exitCodes.fail : exitCodes.pass;
}
