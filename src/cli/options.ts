/** Options that several verbs share. */
import { type Command, Option } from "commander";

/** How a check is made and shown, as the flags give it. */
export interface SharedOptions {
  readonly units?: "us" | "si";
  readonly decision?: "guarded" | "simple";
  readonly decimal?: "." | ",";
  readonly color: boolean;
}

/** Adds the options on units, decision rule, decimal mark and colour. */
export function withSharedOptions(command: Command): Command {
  return command
    .addOption(new Option("--units <system>", "units of the texts").choices(["us", "si"]).default("us"))
    .addOption(
      new Option("--decision <rule>", "how a tolerance is weighed: guarded asks for review where it crosses the limit")
        .choices(["guarded", "simple"])
        .default("guarded"),
    )
    .addOption(new Option("--decimal <mark>", "decimal mark of the values given").choices([".", ","]).default("."))
    .option("--no-color", "no colour (also the NO_COLOR variable); into a pipe there is none anyway");
}
