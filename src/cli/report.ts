/** `dryfit report`: one page of HTML that stands alone, for one site or for a batch. */
import { type Command, Option } from "commander";
import type { Verdict } from "../core/rule/index.js";
import { batchHtml, cleanText, siteHtml } from "../report/index.js";
import {
  type Answer,
  answerRow,
  csvRows,
  type Detail,
  type Format,
  formats,
  jsonRows,
  ndjsonRows,
  orderOfWork,
  type Row,
  refusalText,
  type Survey,
  takeOff,
} from "../survey/index.js";
import { formatOf } from "./assess.js";
import { codeOf, type ExitCode, exitCodes, worse } from "./exit.js";
import { bytesOf, shownName, Unreadable } from "./files.js";
import type { Console } from "./io.js";
import { type SharedOptions, withSharedOptions } from "./options.js";
import type { Outcome } from "./outcome.js";

interface ReportFlags extends SharedOptions {
  readonly format?: Format;
  readonly title?: string;
}

const help = `
The page needs no network and no script. A file with one survey gives the report of that site, with its
drawings and workings; several surveys give one report of them all. Refused rows stand in the report of
a batch, and on standard error.

Examples
  dryfit report site.json > site.html
  dryfit report co-op.csv --title "Laundries, west wing" > laundries.html`;

const readers = { json: jsonRows, ndjson: ndjsonRows, csv: csvRows } as const;

/** Adds the verb to the command. */
export function addReport(program: Command, console: Console, outcome: Outcome): void {
  const command = program
    .command("report")
    .summary("make one HTML page of a site or of a batch")
    .description("Makes one HTML page of the surveys in a file, on standard output.")
    .argument("<file>", "file of surveys; - is standard input")
    .addOption(new Option("--format <format>", "how the file is written; else told by extension").choices([...formats]))
    .option("--title <text>", "title of the page of a batch");
  withSharedOptions(command)
    .addHelpText("after", help)
    .action(async (file: string, flags: ReportFlags) => {
      outcome.code = await report(file, flags, console);
    });
}

async function report(path: string, flags: ReportFlags, console: Console): Promise<ExitCode> {
  const { units = "us", decision = "guarded", decimal = "." } = flags;
  const options = { units, decision, decimal } as const;
  const read = readers[formatOf(path, flags.format)];
  const answers: Answer<Detail>[] = [];
  let first: { readonly row: Row; readonly answer: Answer<"full"> } | undefined;
  let worst: Verdict = "notApplicable";
  let refused = 0;
  try {
    for await (const row of read(bytesOf(console.io, path))) {
      // the first is kept in full, since it may be the only one
      const answer = answerRow(row, { ...options, detail: first === undefined ? "full" : "brief" });
      first ??= { row, answer: answer as Answer<"full"> };
      answers.push(answer as Answer<Detail>);
      if (answer.ok) worst = worse(worst, answer.assessment.verdict);
      else {
        refused++;
        for (const issue of answer.refusal.issues)
          await console.err(`${shownName(path)}: ${cleanText(refusalText(issue))}\n`);
      }
    }
  } catch (error) {
    if (!(error instanceof Unreadable)) throw error;
    await console.err(`dryfit: ${shownName(path)}: ${error.message}\n`);
    return exitCodes.badInput;
  }
  if (answers.length === 1 && first?.row.ok && first.answer.ok) {
    const survey = first.row.value as Survey;
    await console.out(
      siteHtml(first.answer.assessment, {
        survey,
        parts: takeOff(survey, options),
        order: orderOfWork(survey, options),
        units,
        decimal,
      }),
    );
  } else await console.out(batchHtml(answers, flags.title === undefined ? {} : { title: flags.title }));
  return refused > 0 ? exitCodes.badInput : codeOf(worst);
}
