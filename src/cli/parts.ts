/** `dryfit parts`: the parts and tools of a job. */
import { type Command, Option } from "commander";
import { InputFault } from "../core/rule/index.js";
import { takeOffCsv, takeOffMarkdown, takeOffText } from "../report/index.js";
import { refusalOf, refusalText, type Survey, type TakeOff, takeOff } from "../survey/index.js";
import { type ExitCode, exitCodes } from "./exit.js";
import type { Console } from "./io.js";
import { jsonText } from "./json.js";
import { say, surveyRow } from "./one-survey.js";
import { type SharedOptions, withSharedOptions } from "./options.js";
import type { Outcome } from "./outcome.js";

const writers = {
  text: takeOffText,
  markdown: takeOffMarkdown,
  csv: takeOffCsv,
  json: (made: TakeOff) => `${jsonText(made)}\n`,
} as const;

interface PartsFlags extends SharedOptions {
  readonly format: keyof typeof writers;
}

const help = `
What the survey says is there stays where its rules hold. The code is 2 where a line cannot be told before
something is measured, else 0.

Example
  dryfit parts site.json --format csv > van.csv`;

/** Adds the verb to the command. */
export function addParts(program: Command, console: Console, outcome: Outcome): void {
  const command = program
    .command("parts")
    .summary("list the parts and tools of a job")
    .description("Lists the parts and tools of a job: what to bring, what is there, what cannot be told yet.")
    .argument("<file>", "file with one survey")
    .addOption(new Option("--format <format>", "how to print it").choices(Object.keys(writers)).default("text"));
  withSharedOptions(command)
    .addHelpText("after", help)
    .action(async (file: string, flags: PartsFlags) => {
      outcome.code = await parts(file, flags, console);
    });
}

async function parts(file: string, flags: PartsFlags, console: Console): Promise<ExitCode> {
  const { units = "us", decision = "guarded", decimal = "." } = flags;
  const row = await surveyRow(file, console);
  if (!row) return exitCodes.badInput;
  try {
    const made = takeOff(row.value as Survey, { units, decision, decimal });
    await console.out(writers[flags.format](made));
    return made.lines.some(({ supply }) => supply === "open") ? exitCodes.review : exitCodes.pass;
  } catch (error) {
    if (!(error instanceof InputFault)) throw error;
    await say(file, refusalOf(row, error).issues.map(refusalText), console);
    return exitCodes.badInput;
  }
}
