/** `dryfit record`: the record of a job, and the check of one. */
import { type Command, Option } from "commander";
import { InputFault } from "../core/rule/index.js";
import { recordHtml, recordMarkdown, recordText } from "../report/index.js";
import {
  checkRecord,
  type JobRecord,
  recordOf,
  refusalOf,
  refusalText,
  type Survey,
  tryAssess,
} from "../survey/index.js";
import { codeOf, type ExitCode, exitCodes } from "./exit.js";
import type { Console } from "./io.js";
import { jsonText } from "./json.js";
import { say, surveyRow } from "./one-survey.js";
import { type SharedOptions, withSharedOptions } from "./options.js";
import { type Outcome, UsageError } from "./outcome.js";

const writers = {
  json: (made: JobRecord) => `${jsonText(made)}\n`,
  text: recordText,
  markdown: recordMarkdown,
  html: recordHtml,
} as const;

interface RecordFlags extends SharedOptions {
  readonly asLeft?: string;
  readonly check?: boolean;
  readonly format: keyof typeof writers;
}

const help = `
The record holds what was found and how it was left, every rule with its basis, blank lines to sign, and a
hash. Keep the JSON: --check tells whether it was changed since, and whether it would be made the same today.

Examples
  dryfit record found.json --as-left left.json > job.json
  dryfit record found.json --as-left left.json --format html > job.html
  dryfit record job.json --check`;

/** Adds the verb to the command. */
export function addRecord(program: Command, console: Console, outcome: Outcome): void {
  const command = program
    .command("record")
    .summary("make the record of a job, or check one")
    .description("Makes the record of a job from the survey before the work and the one after it, or checks a record.")
    .argument("<file>", "file with the survey as found; with --check a record")
    .option("--as-left <file>", "file with the survey as left; as found where left out")
    .option("--check", "check the record in the file")
    .addOption(new Option("--format <format>", "how to print it").choices(Object.keys(writers)).default("json"));
  withSharedOptions(command)
    .addHelpText("after", help)
    .action(async (file: string, flags: RecordFlags) => {
      outcome.code = flags.check ? await check(file, flags, console) : await record(file, flags, console);
    });
}

async function record(file: string, flags: RecordFlags, console: Console): Promise<ExitCode> {
  const { units = "us", decision = "guarded", decimal = "." } = flags;
  const found = await surveyRow(file, console);
  const left = flags.asLeft === undefined ? found : await surveyRow(flags.asLeft, console);
  if (!found || !left) return exitCodes.badInput;
  const how = { units, decision, decimal } as const;
  // each on its own first, so that a fault is told of the file it stands in
  for (const [path, row] of [
    [file, found],
    [flags.asLeft ?? file, left],
  ] as const) {
    const tried = tryAssess(row.value, { ...how, detail: "verdicts" });
    if (!tried.ok) {
      await say(path, refusalOf(row, tried.fault).issues.map(refusalText), console);
      return exitCodes.badInput;
    }
  }
  let made: JobRecord;
  try {
    made = recordOf(found.value as Survey, left.value as Survey, how);
  } catch (error) {
    if (!(error instanceof InputFault)) throw error;
    await say(flags.asLeft ?? file, refusalOf(left, error).issues.map(refusalText), console);
    return exitCodes.badInput;
  }
  await console.out(writers[flags.format](made));
  return codeOf(made.verdict.asLeft);
}

async function check(file: string, { asLeft }: RecordFlags, console: Console): Promise<ExitCode> {
  if (asLeft !== undefined) throw new UsageError("--check takes a record alone, without --as-left");
  const row = await surveyRow(file, console);
  if (!row) return exitCodes.badInput;
  try {
    const { intact, reproduced, differs } = checkRecord(row.value);
    await console.out(
      `${intact ? "The content fits its hash." : "The content was changed since the hash was made."}\n${
        reproduced ? "Made again today it says the same." : `Made again today it differs in: ${differs.join(", ")}.`
      }\n`,
    );
    return intact && reproduced ? exitCodes.pass : exitCodes.fail;
  } catch (error) {
    if (!(error instanceof InputFault)) throw error;
    await say(file, refusalOf(row, error).issues.map(refusalText), console);
    return exitCodes.badInput;
  }
}
