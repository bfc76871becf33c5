/** `dryfit order`: the steps of a job in order, with hold points. */
import { type Command, Option } from "commander";
import { InputFault } from "../core/rule/index.js";
import { orderMarkdown, orderText } from "../report/index.js";
import { orderOfWork, refusalOf, refusalText, type Survey } from "../survey/index.js";
import { type ExitCode, exitCodes } from "./exit.js";
import type { Console } from "./io.js";
import { jsonText } from "./json.js";
import { say, surveyRow } from "./one-survey.js";
import { type SharedOptions, withSharedOptions } from "./options.js";
import type { Outcome } from "./outcome.js";

interface OrderFlags extends SharedOptions {
  readonly format: "text" | "markdown" | "json";
}

const help = `
The code is 0 where nothing stands against a step, 1 where a rule fails and 2 where one needs review.

Example
  dryfit order site.json --format markdown > order.md`;

/** Adds the verb to the command. */
export function addOrder(program: Command, console: Console, outcome: Outcome): void {
  const command = program
    .command("order")
    .summary("print the steps of a job in order")
    .description("Prints the steps of a job in order, with the points where work stops until something is settled.")
    .argument("<file>", "file with one survey")
    .addOption(
      new Option("--format <format>", "how to print it").choices(["text", "markdown", "json"]).default("text"),
    );
  withSharedOptions(command)
    .addHelpText("after", help)
    .action(async (file: string, flags: OrderFlags) => {
      outcome.code = await order(file, flags, console);
    });
}

async function order(file: string, flags: OrderFlags, console: Console): Promise<ExitCode> {
  const { units = "us", decision = "guarded", decimal = "." } = flags;
  const row = await surveyRow(file, console);
  if (!row) return exitCodes.badInput;
  try {
    const made = orderOfWork(row.value as Survey, { units, decision, decimal });
    if (flags.format === "json") await console.out(`${jsonText(made)}\n`);
    else await console.out(flags.format === "markdown" ? orderMarkdown(made) : orderText(made));
    const obstacles = made.steps.flatMap((step) => step.obstacles);
    if (obstacles.some(({ verdict }) => verdict === "fail")) return exitCodes.fail;
    return obstacles.length > 0 ? exitCodes.review : exitCodes.pass;
  } catch (error) {
    if (!(error instanceof InputFault)) throw error;
    await say(file, refusalOf(row, error).issues.map(refusalText), console);
    return exitCodes.badInput;
  }
}
