/** `dryfit form`: an empty survey. */
import { type Command, Option } from "commander";
import { type FormFormat, formFormats, surveyForm } from "../survey/index.js";
import type { Console } from "./io.js";

const help = `
The JSON form has help over each field as a comment, and what may be left out is commented out; take the
"// " away from what you measured. assess reads it as it is, comments and all.

Example
  dryfit form --format json > site.json`;

/** Adds the verb to the command. */
export function addForm(program: Command, console: Console): void {
  program
    .command("form")
    .summary("print an empty survey")
    .description("Prints an empty survey: every field with a line of help and an example.")
    .addOption(new Option("--format <format>", "how to print it").choices([...formFormats]).default("text"))
    .addHelpText("after", help)
    .action(({ format }: { format: FormFormat }) => console.out(surveyForm(format)));
}
