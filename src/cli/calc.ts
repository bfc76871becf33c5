/** `dryfit calc`: one rule or calculator, from flags or a file. */
import { Command, Option } from "commander";
import type * as z from "zod";
import { type CatalogueEntry, InputFault, inputOf, isOptional, issueText } from "../core/rule/index.js";
import { calculationText, cleanText, findingText } from "../report/index.js";
import { acceptedBy, catalogue, entryWithId, textReader } from "../survey/index.js";
import { codeOf, type ExitCode, exitCodes, exitHelp } from "./exit.js";
import { jsonOf, shownName, Unreadable } from "./files.js";
import type { Console } from "./io.js";
import { jsonText } from "./json.js";
import { type SharedOptions, withSharedOptions } from "./options.js";
import { type Outcome, UsageError } from "./outcome.js";
import { layoutFor } from "./paint.js";

const help = `
The fields of an entry are its flags; "dryfit calc ID --help" lists them. Records and lists of records are
written as JSON, lists of plain values with semicolons. A file gives the whole input as JSON; flags then
replace its fields.

Examples
  dryfit calc venting/duct-length --fuel electric --straight "18 ft" --elbows none
  dryfit calc venting/duct-length --fuel electric --straight "18 ft" \\
      --elbows '[{"radius":"4 in mitred","angle":"90°","count":2}]'
  dryfit calc venting/duct-length input.json --at town.json --json`;

/** Adds the verb to the command. */
export function addCalc(
  program: Command,
  console: Console,
  outcome: Outcome,
  dress: (command: Command) => Command,
): void {
  program
    .command("calc")
    .summary("run one rule or calculator")
    .description("Runs one rule or calculator from flags or from a JSON file.")
    .usage("ID [FILE] [options]")
    .argument("<id>", "id of the rule or calculator, as list prints it")
    .argument("[args...]", "a JSON file (- is standard input) and the fields of the entry as flags")
    .passThroughOptions()
    .allowUnknownOption()
    .addHelpText("after", help)
    .action(async (id: string, args: string[]) => {
      const entry = entryWithId(id);
      if (!entry) throw new UsageError(unknownId(id));
      await dress(entryCommand(entry, console, outcome)).parseAsync(args, { from: "user" });
    });
}

function unknownId(id: string): string {
  const stem = id.split("/").at(-1)!;
  const near = catalogue().filter((entry) => stem !== "" && entry.id.includes(stem));
  const offer = near.length > 0 ? near.map((entry) => entry.id).join(", ") : "dryfit list prints them all";
  return `there is no rule or calculator "${cleanText(id).slice(0, 60)}"; ${offer}`;
}

interface CalcFlags extends SharedOptions {
  readonly at?: string;
  readonly json?: boolean;
}

type Shape = Readonly<Record<string, z.core.$ZodType>>;
const shapeOf = (entry: CatalogueEntry): Shape => (inputOf(entry) as z.ZodObject).shape as Shape;

/** Names that options of every entry have. */
const taken: ReadonlySet<string> = new Set(["at", "json", "units", "decision", "decimal", "color", "help"]);

/** The flag of a field: its name in small letters; one that an option has already is marked as an input. */
export function flagOf(field: string): string {
  const name = field.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`);
  return `--${taken.has(name) ? `input-${name}` : name}`;
}

/** The command of one entry: a flag a field. */
function entryCommand(entry: CatalogueEntry, console: Console, outcome: Outcome): Command {
  const given: Record<string, unknown> = {};
  const command = new Command(`dryfit calc ${entry.id}`)
    .description(`${entry.title}.`)
    .argument("[file]", "the input as JSON; - is standard input");
  for (const [field, schema] of Object.entries(shapeOf(entry))) {
    const { accepts } = acceptedBy(schema);
    const what = `${schemaHelp(entry, field)} (${accepts})`.trim();
    const reader = textReader(schema, null);
    const option = new Option(`${flagOf(field)} <value>`, isOptional(schema) ? what : `${what}; needed`);
    command.addOption(
      option.argParser((text: string) => {
        given[field] = reader(text);
        return text;
      }),
    );
  }
  return withSharedOptions(command)
    .option("--at <file>", "JSON file with the jurisdiction, local amendments and the maker's figures")
    .option("--json", "the whole finding or calculation as JSON")
    .addHelpText("after", exampleHelp(entry) + exitHelp)
    .action(async (file: string | undefined, flags: CalcFlags) => {
      outcome.code = await calc(entry, file, given, flags, console);
    });
}

/** A value as a shell takes it. */
function shellWord(value: unknown): string {
  const text = typeof value === "string" ? value : JSON.stringify(value);
  return /^[\w.,/-]+$/.test(text) ? text : `'${text.replaceAll("'", "'\\''")}'`;
}

/** The first example of the entry as a command to copy. */
function exampleHelp(entry: CatalogueEntry): string {
  const example = entry.examples.find(({ at }) => at === undefined);
  if (!example) return "";
  const flags = Object.entries(example.input as Record<string, unknown>).map(
    ([field, value]) => `${flagOf(field)} ${shellWord(value)}`,
  );
  return `\nExample: ${example.title}\n  dryfit calc ${entry.id} ${flags.join(" ")}\n`;
}

function schemaHelp(entry: CatalogueEntry, field: string): string {
  const { properties = {} } = entry.jsonSchema() as { properties?: Record<string, { description?: string }> };
  return properties[field]?.description ?? "";
}

const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === "object" && value !== null && !Array.isArray(value);

async function readRecord(path: string, console: Console): Promise<Record<string, unknown>> {
  const value = await jsonOf(console.io, path);
  if (!isRecord(value)) throw new Unreadable("it must hold one JSON object");
  return value;
}

async function calc(
  entry: CatalogueEntry,
  file: string | undefined,
  given: Readonly<Record<string, unknown>>,
  flags: CalcFlags,
  console: Console,
): Promise<ExitCode> {
  let reading = file;
  try {
    const base = file === undefined ? {} : await readRecord(file, console);
    reading = flags.at;
    const place = flags.at === undefined ? {} : await readRecord(flags.at, console);
    const { units, decision, decimal } = flags;
    return await print(entry, { ...base, ...given }, { units, decision, decimal, ...place }, flags, console);
  } catch (error) {
    if (error instanceof InputFault) {
      for (const issue of error.issues) await console.err(`dryfit: ${cleanText(issueText(issue))}\n`);
    } else if (error instanceof Unreadable) {
      await console.err(`dryfit: ${shownName(reading ?? "")}: ${error.message}\n`);
    } else throw error;
    return exitCodes.badInput;
  }
}

const statusCodes = { computed: exitCodes.pass, impossible: exitCodes.fail, missing: exitCodes.review } as const;

async function print(
  entry: CatalogueEntry,
  input: Record<string, unknown>,
  at: Record<string, unknown>,
  { json, color }: CalcFlags,
  console: Console,
): Promise<ExitCode> {
  const layout = layoutFor(console.io, color);
  if (entry.kind === "rule") {
    const finding = entry(input, at);
    await console.out(json ? `${jsonText(finding)}\n` : findingText(finding, layout));
    return codeOf(finding.verdict);
  }
  const calculation = entry(input, at);
  await console.out(json ? `${jsonText(calculation)}\n` : calculationText(calculation, layout));
  return statusCodes[calculation.status];
}
