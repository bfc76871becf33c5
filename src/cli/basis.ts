/** `dryfit basis`: what a number or a rule rests on. */
import type { Command } from "commander";
import { basisText } from "../report/index.js";
import { lookUpBasis } from "../survey/index.js";
import { exitCodes } from "./exit.js";
import type { Console } from "./io.js";
import { jsonText } from "./json.js";
import type { Outcome } from "./outcome.js";

const help = `
Examples
  dryfit basis "35 ft"               which limits are 35 ft, in which editions
  dryfit basis M1502.4.6.1           what rests on a section
  dryfit basis 504.9 lint            several words: all must be spoken of
  dryfit basis venting/duct-length   everything one rule rests on, with a worked example`;

/** Adds the verb to the command. */
export function addBasis(program: Command, console: Console, outcome: Outcome): void {
  program
    .command("basis")
    .summary("look up what a number or a rule rests on")
    .description("Looks up limits, bases, tables and rules by number, section or word.")
    .argument("<words...>", "a number with its unit, a section, a document, an id, or any word")
    .option("--json", "as JSON")
    .addHelpText("after", help)
    .action(async (words: string[], { json }: { json?: boolean }) => {
      const found = lookUpBasis(words.join(" "));
      const text = basisText(found);
      if (text === "") outcome.code = exitCodes.badInput;
      if (json) {
        const entries = found.entries.map(({ id, kind, title }) => ({ id, kind, title }));
        await console.out(`${jsonText({ ...found, entries })}\n`);
      } else if (text === "") await console.err("dryfit: nothing rests on these words; try fewer of them\n");
      else await console.out(text);
    });
}
