/** `dryfit assess`: surveys from files to verdicts. */
import { extname } from "node:path";
import { type Command, InvalidArgumentError, Option } from "commander";
import { verdicts } from "../core/rule/index.js";
import { deferralText, tallyText } from "../report/index.js";
import { causesOf, type Detail, type Format, formats, type Mapping, type Tally } from "../survey/index.js";
import { codeOf, type ExitCode, exitCodes } from "./exit.js";
import { shownName, Unreadable } from "./files.js";
import type { Console } from "./io.js";
import { jsonText } from "./json.js";
import { readMapping } from "./many/mapping.js";
import { formOfName } from "./many/output.js";
import { runMany } from "./many/run.js";
import type { Form, Settings } from "./many/settings.js";
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
  readonly out?: string;
  readonly refusals?: string;
  readonly mapping?: string;
  readonly workers: number;
  readonly resume?: boolean;
}

/** Characters of output that are gathered into one write. */
const GATHERED = 65_536;
const MOST_WORKERS = 64;

function workersOf(text: string): number {
  const count = /^\d{1,2}$/.test(text) ? Number(text) : 0;
  if (count < 1 || count > MOST_WORKERS) throw new InvalidArgumentError(`It must be from 1 to ${MOST_WORKERS}.`);
  return count;
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
  cat co-op.csv | dryfit assess - --format csv
  dryfit assess big.ndjson --out answers.ndjson.gz --refusals refused.ndjson --workers 4 --resume`;

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
    .option("--markdown", "a Markdown page a site")
    .option("--out <file>", "write the answers to a .ndjson, .json or .csv file, whole or not at all; packed if .gz")
    .option("--refusals <file>", "write refused rows to a file, one JSON value a row, with their places and reasons")
    .option("--mapping <file>", "JSON that gives other column names of CSV ours, or null to pass one over")
    .addOption(
      new Option("--workers <n>", "threads that share out a large NDJSON or CSV file").argParser(workersOf).default(1),
    )
    .option("--resume", "go on where a run to the same --out was stopped");
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

function settingsOf(flags: AssessFlags, mapping: Mapping | null, console: Console): Settings {
  const { detail, units, decision, decimal } = flags;
  const form = flags.out === undefined ? shownForm(flags) : formOfName(flags.out)!;
  const { width, paint } = layoutFor(console.io, flags.color);
  const isForPeople = form === "text";
  return {
    form,
    options: {
      detail,
      ...(units === undefined ? {} : { units }),
      ...(decision === undefined ? {} : { decision }),
      ...(decimal === undefined ? {} : { decimal }),
    },
    mapping,
    hasRefusalsFile: flags.refusals !== undefined,
    width: isForPeople ? (width ?? null) : null,
    isPainted: isForPeople && paint !== undefined,
    gathered: console.io.stdout.isTerminal && flags.out === undefined ? 1 : GATHERED,
  };
}

const shownForm = ({ json, ndjson, markdown }: AssessFlags): Form =>
  json ? "json" : ndjson ? "ndjson" : markdown ? "markdown" : "text";

function checkFlags(files: readonly string[], { markdown, detail, out, json, ndjson }: AssessFlags): void {
  if (files.filter((file) => file === "-").length > 1) throw new UsageError("standard input can be read only once");
  if (markdown && detail === "verdicts") throw new UsageError("--markdown wants --detail brief or full");
  if (out === undefined) return;
  if (formOfName(out) === null)
    throw new UsageError("--out wants a name that ends in .ndjson, .json or .csv, and in .gz after that to be packed");
  if (json || ndjson || markdown) throw new UsageError("with --out the name of the file says how it is written");
}

async function assess(
  files: readonly string[],
  flags: AssessFlags,
  console: Console,
  outcome: Outcome,
): Promise<ExitCode> {
  checkFlags(files, flags);
  const sources = files.map((path) => ({ path, format: formatOf(path, flags.format) }));
  let mapping: Mapping | null = null;
  try {
    if (flags.mapping !== undefined) mapping = await readMapping(console.io, flags.mapping);
  } catch (error) {
    if (!(error instanceof Unreadable)) throw error;
    await console.err(`dryfit: ${error.message}\n`);
    return exitCodes.badInput;
  }
  const settings = settingsOf(flags, mapping, console);
  const { out, refusals } = flags;
  const { tally, unread } = await runMany(
    {
      sources,
      settings,
      workers: flags.workers,
      ...(out === undefined ? {} : { out }),
      ...(refusals === undefined ? {} : { refusals }),
      isResumed: flags.resume === true,
      onCounted: (counted, notRead) => {
        outcome.code = codeFor(counted, notRead);
      },
      epilogue: (counted, notRead) => (settings.form === "json" ? jsonEnd(counted, notRead) : ""),
    },
    console,
  );
  const notRead = unread === 0 ? "" : `; ${unread} ${unread === 1 ? "file" : "files"} not read`;
  const counts = `${tallyText(tally)}${notRead}\n`;
  if (settings.form === "text" || out !== undefined) {
    await console.out(`${counts}${causesText(tally)}${deferralText}\n`);
  } else if (settings.form !== "json") await console.err(counts);
  return codeFor(tally, unread);
}

const jsonEnd = (tally: Tally, filesNotRead: number): string =>
  `],\n"summary":${jsonText({ ...tally, causes: causesOf(tally), filesNotRead })}}\n`;

function codeFor({ refused, byVerdict }: Tally, unread: number): ExitCode {
  if (refused > 0 || unread > 0) return exitCodes.badInput;
  return codeOf(verdicts.find((verdict) => byVerdict[verdict] > 0) ?? "notApplicable");
}
