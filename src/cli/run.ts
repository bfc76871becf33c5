/** The command as a function: arguments and surroundings in, exit code out. */
import { Command, CommanderError } from "commander";
import { cleanText } from "../report/index.js";
import { addAssess } from "./assess.js";
import { addBasis } from "./basis.js";
import { addCalc } from "./calc.js";
import { addCompare } from "./compare.js";
import { type ExitCode, exitCodes, exitHelp } from "./exit.js";
import { addForm } from "./form.js";
import { BrokenPipe, Console, type Io, Unwritable } from "./io.js";
import { addList } from "./list.js";
import { addOrder } from "./order.js";
import { type Outcome, UsageError } from "./outcome.js";
import { addParts } from "./parts.js";
import { addRecord } from "./record.js";
import { addReport } from "./report.js";
import { version } from "./version.js";

/**
 * Runs the command once.
 *
 * @param args - the arguments after the program's name
 * @param io - where it reads and writes
 * @returns the exit code; see {@link exitCodes}
 */
export async function run(args: readonly string[], io: Io): Promise<ExitCode> {
  const console = new Console(io);
  const outcome: Outcome = { code: exitCodes.pass };
  const said: { readonly text: string; readonly isError: boolean }[] = [];
  const dress = (command: Command): Command => {
    command
      .exitOverride()
      .configureOutput({
        writeOut: (text) => said.push({ text, isError: false }),
        outputError: (text, write) => write(text.replace(/^error: /, "dryfit: ")),
        writeErr: (text) => said.push({ text: cleanLines(text), isError: true }),
        getOutHelpWidth: () => Math.min(io.stdout.columns ?? 100, 120),
        getErrHelpWidth: () => Math.min(io.stderr.columns ?? 100, 120),
      })
      .showHelpAfterError(`(dryfit --help tells more)`);
    for (const child of command.commands) dress(child);
    return command;
  };
  try {
    const program = new Command("dryfit")
      .description(
        "Will the machine go in here, safely and to code? Checks of appliance installations, each with its basis.",
      )
      .version(version, "-v, --version", "print the version")
      .enablePositionalOptions()
      .addHelpText("after", exitHelp);
    addAssess(program, console, outcome);
    addCalc(program, console, outcome, dress);
    addBasis(program, console, outcome);
    addList(program, console);
    addReport(program, console, outcome);
    addCompare(program, console, outcome);
    addParts(program, console, outcome);
    addOrder(program, console, outcome);
    addRecord(program, console, outcome);
    addForm(program, console);
    await dress(program).parseAsync([...args], { from: "user" });
    await console.flush();
  } catch (error) {
    outcome.code = await endOf(error, outcome.code, said, console);
  }
  return outcome.code;
}

const cleanLines = (text: string): string => text.split("\n").map(cleanText).join("\n");

async function endOf(
  error: unknown,
  soFar: ExitCode,
  said: readonly { readonly text: string; readonly isError: boolean }[],
  console: Console,
): Promise<ExitCode> {
  try {
    if (error instanceof CommanderError) {
      for (const { text, isError } of said) await (isError ? console.err(text) : console.out(text));
      await console.flush();
      return error.exitCode === 0 ? exitCodes.pass : exitCodes.usage;
    }
    if (error instanceof UsageError) {
      await console.err(`dryfit: ${error.message}\n(dryfit --help tells more)\n`);
      return exitCodes.usage;
    }
    if (error instanceof BrokenPipe) return soFar;
    if (error instanceof Unwritable) {
      await console.err(`dryfit: ${cleanText(error.message)}\n`);
      return exitCodes.badInput;
    }
    await console.err(`dryfit: a fault in dryfit itself: ${cleanText(String((error as Error)?.stack ?? error))}\n`);
    return exitCodes.internal;
  } catch (again) {
    if (again instanceof Unwritable) return exitCodes.badInput;
    if (again instanceof BrokenPipe)
      return error instanceof CommanderError && error.exitCode === 0 ? exitCodes.pass : soFar;
    throw again;
  }
}
