/** `dryfit assess`: surveys from files to verdicts. */
import { extname } from "node:path";
import { type Command, Option } from "commander";
import type { Verdict } from "../core/rule/index.js";
import { assessmentMarkdown, assessmentText, cleanText, deferralText, tallyText } from "../report/index.js";
import {
  type Answer,
  assessMany,
  causesOf,
  count,
  type Detail,
  type Format,
  formats,
  newTally,
  refusalText,
  type Tally,
} from "../survey/index.js";
import { codeOf, type ExitCode, exitCodes, worse } from "./exit.js";
import { bytesOf, shownName, Unreadable } from "./files.js";
import type { Console } from "./io.js";
import { jsonText } from "./json.js";
import { causesText } from "./many/summary.js";
import { type SharedOptions, withSharedOptions } from "./options.js";
import { type Outcome, UsageError } from "./outcome.js";
import { layoutFor } from "./paint.js";

interface AssessFlags extends SharedOptions {
  readonly format?: Format;
  readonly detail: Detail;
  readonly json?: boolean;
  readonly ndjson?: boolean;
  readonly markdown?: boolean;
}

const extensions: Readonly<Record<string, Format>> = {
  ".json": "json",
  ".ndjson": "ndjson",
  ".jsonl": "ndjson",
  ".csv": "csv",
};

const help = `
A survey is what was found at one site; "dryfit form" prints an empty one. A .json file holds one
survey or a list, .ndjson one a line, .csv one a row under a header such as "venting.duct.straight [ft]".
Each may be packed with gzip.
A row that cannot be used is refused with its line, column and reason on standard error (with --json or
--ndjson in the output); the others are answered, in order.

Examples
  dryfit assess site.json --detail full
  dryfit assess co-op.csv --ndjson > answers.ndjson
  cat co-op.csv | dryfit assess - --format csv`;

/** Adds the verb to the command. */
export function addAssess(program: Command, console: Console, outcome: Outcome): void {
  const command = program
    .command("assess")
    .summary("assess surveys from files")
    .description("Assesses the surveys in files: what fails, what needs review, on which basis.")
    .argument("<files...>", "files of surveys; - is standard input")
    .addOption(
      new Option("--format <format>", "how the files are written; else told by extension").choices([...formats]),
    )
    .addOption(
      new Option("--detail <detail>", "verdicts only, what fails or needs review, or everything with workings")
        .choices(["verdicts", "brief", "full"])
        .default("brief"),
    )
    .addOption(new Option("--json", "one JSON value with all rows and the counts").conflicts(["ndjson", "markdown"]))
    .addOption(new Option("--ndjson", "one JSON value a row; the counts go to standard error").conflicts("markdown"))
    .option("--markdown", "a Markdown page a site");
  withSharedOptions(command)
    .addHelpText("after", help)
    .action(async (files: string[], flags: AssessFlags) => {
      outcome.code = await assess(files, flags, console, outcome);
    });
}

/** How a file is written: as said, or as its extension tells. */
export function formatOf(path: string, given: Format | undefined): Format {
  const known = given ?? extensions[extname(path.replace(/\.gz$/i, "")).toLowerCase()];
  if (known) return known;
  const name = shownName(path);
  throw new UsageError(`cannot tell how ${name} is written; say --format json, --format ndjson or --format csv`);
}

type Writer = (file: string, answer: Answer<Detail>) => Promise<void>;

async function assess(
  files: readonly string[],
  flags: AssessFlags,
  console: Console,
  outcome: Outcome,
): Promise<ExitCode> {
  if (files.filter((file) => file === "-").length > 1) throw new UsageError("standard input can be read only once");
  if (flags.markdown && flags.detail === "verdicts") throw new UsageError("--markdown wants --detail brief or full");
  const sources = files.map((path) => ({ path, format: formatOf(path, flags.format) }));
  const write = writerFor(flags, console);
  const tally = newTally();
  let unread = 0;
  let worst: Verdict = "notApplicable";
  const { detail, units, decision, decimal } = flags;
  const options = {
    detail,
    ...(units === undefined ? {} : { units }),
    ...(decision === undefined ? {} : { decision }),
    ...(decimal === undefined ? {} : { decimal }),
  };
  if (flags.json) await console.out('{"rows":[');
  for (const { path, format } of sources) {
    try {
      for await (const answer of assessMany(bytesOf(console.io, path), format, options)) {
        count(tally, answer);
        if (answer.ok) worst = worse(worst, answer.assessment.verdict);
        outcome.code = codeFor(tally, unread, worst);
        await write(path, answer);
      }
    } catch (error) {
      if (!(error instanceof Unreadable)) throw error;
      unread++;
      outcome.code = codeFor(tally, unread, worst);
      await console.err(`dryfit: ${shownName(path)}: ${error.message}\n`);
    }
  }
  await finish(tally, unread, flags, console);
  return codeFor(tally, unread, worst);
}

const codeFor = ({ refused }: Tally, unread: number, worst: Verdict): ExitCode =>
  refused > 0 || unread > 0 ? exitCodes.badInput : codeOf(worst);

function writerFor(flags: AssessFlags, console: Console): Writer {
  if (flags.json || flags.ndjson) {
    let first = true;
    return async (file, answer) => {
      const start = flags.json && !first ? ",\n" : "";
      first = false;
      await console.out(`${start}${jsonText({ file, ...answer })}${flags.json ? "" : "\n"}`);
    };
  }
  const layout = layoutFor(console.io, flags.color);
  return async (file, answer) => {
    if (answer.ok) {
      const text = flags.markdown
        ? `${assessmentMarkdown(answer.assessment as never)}\n`
        : `${assessmentText(answer.assessment, layout)}${flags.detail === "verdicts" ? "" : "\n"}`;
      await console.out(text);
      return;
    }
    const { issues, text } = answer.refusal;
    const lines = issues.map((issue) => `${shownName(file)}: ${cleanText(refusalText(issue))}\n`);
    await console.err(`${lines.join("")}${text === "" ? "" : `  refused: ${cleanText(text)}\n`}`);
  };
}

async function finish(tally: Tally, unread: number, flags: AssessFlags, console: Console): Promise<void> {
  const files = unread === 0 ? "" : `; ${unread} ${unread === 1 ? "file" : "files"} not read`;
  const counts = `${tallyText(tally)}${files}\n`;
  if (flags.json) {
    const summary = { ...tally, causes: causesOf(tally), filesNotRead: unread };
    await console.out(`],\n"summary":${jsonText(summary)}}\n`);
  } else if (flags.ndjson || flags.markdown) await console.err(counts);
  else await console.out(`${counts}${causesText(tally)}${deferralText}\n`);
}
