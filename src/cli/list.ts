/** `dryfit list`: the rules and calculators. */
import type { Command } from "commander";
import { type CatalogueEntry, tradeOf } from "../core/rule/index.js";
import { catalogue } from "../survey/index.js";
import type { Console } from "./io.js";
import { jsonText } from "./json.js";

/** Adds the verb to the command. */
export function addList(program: Command, console: Console): void {
  program
    .command("list")
    .summary("list rules and calculators")
    .description("Lists the rules and calculators by trade. Each id works with calc and basis.")
    .option("--json", "as JSON, with the schema of each input and the limits that can be amended")
    .action(({ json }: { json?: boolean }) => console.out(json ? `${jsonText(catalogue().map(facts))}\n` : table()));
}

const facts = (entry: CatalogueEntry) => ({
  id: entry.id,
  kind: entry.kind,
  trade: tradeOf(entry),
  title: entry.title,
  since: entry.since,
  limits: entry.limits.map(({ id, title }: { id: string; title: string }) => ({ id, title })),
  input: entry.jsonSchema(),
});

function table(): string {
  const entries = catalogue();
  const wide = Math.max(...entries.map(({ id }) => id.length));
  const lines: string[] = [];
  let trade = "";
  for (const entry of entries) {
    if (tradeOf(entry) !== trade) {
      if (trade !== "") lines.push("");
      trade = tradeOf(entry);
      lines.push(trade);
    }
    lines.push(`  ${entry.id.padEnd(wide)}  ${entry.kind.padEnd("calculator".length)}  ${entry.title}`);
  }
  return `${lines.join("\n")}\n`;
}
