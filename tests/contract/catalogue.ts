/** The catalogue as the contract tests see it: the trades' modules, their entries, and every example run once. */
import { existsSync, readdirSync } from "node:fs";
import { fileURLToPath } from "node:url";
import {
  type AtInput,
  type Calculation,
  type CatalogueEntry,
  entriesOf,
  type Finding,
  limitsOf,
  type SurveyPart,
} from "../../src/core/rule/index.js";
import type { Table } from "../../src/core/table/index.js";

export const root = fileURLToPath(new URL("../../", import.meta.url));
export const trades = ["electrical", "venting", "plumbing", "placement"] as const;

type Module = Readonly<Record<string, unknown>>;
const load = (path: string): Promise<Module> => import(new URL(`../../src/${path}`, import.meta.url).href);

/** The public modules of the trades. */
export const modules = new Map<string, Module>();
for (const trade of trades) {
  if (existsSync(`${root}src/${trade}/index.ts`)) modules.set(trade, await load(`${trade}/index.ts`));
}

export const entries: readonly CatalogueEntry[] = entriesOf(...modules.values());
export const limits = limitsOf(entries);

/** The trades' parts of the survey, by trade. */
export const parts = new Map<string, SurveyPart>(
  [...modules].flatMap(([trade, module]): [string, SurveyPart][] => {
    const part = module[`${trade}Part`];
    return part === undefined ? [] : [[trade, part as SurveyPart]];
  }),
);

/** Every file of a folder of `src`, as a path from `src`. */
export function filesUnder(folder: string): string[] {
  return readdirSync(`${root}src/${folder}`, { recursive: true, encoding: "utf8" })
    .filter((name) => name.endsWith(".ts"))
    .map((name) => `${folder}/${name}`)
    .sort();
}

/** The module of one source file. */
export const sourceModule = load;

const isTable = (value: unknown): value is Table =>
  typeof value === "object" && value !== null && "rows" in value && "between" in value && "id" in value;

/** Every table that a trade's files export, by id. */
export async function allTables(): Promise<Map<string, Table>> {
  const tables = new Map<string, Table>();
  for (const trade of modules.keys()) {
    for (const file of filesUnder(trade)) {
      for (const value of Object.values(await load(file))) {
        for (const table of Array.isArray(value) ? value.filter(isTable) : isTable(value) ? [value] : []) {
          const known = tables.get(table.id);
          if (known && known !== table) throw new Error(`two tables are called ${table.id}`);
          tables.set(table.id, table);
        }
      }
    }
  }
  return tables;
}

/** One example with what came of it. */
export interface Ran {
  readonly entry: CatalogueEntry;
  readonly id: string;
  readonly title: string;
  readonly input: unknown;
  readonly at: AtInput | undefined;
  readonly gives: string;
  readonly result: Finding | Calculation;
}

export const isFinding = (result: Finding | Calculation): result is Finding => "rule" in result;

const ran = new Map<CatalogueEntry, Ran[]>();

/** Every example of an entry with its result. A fault is an error here: an example must be usable. */
export function examplesOf(entry: CatalogueEntry): readonly Ran[] {
  let known = ran.get(entry);
  if (!known) {
    known = entry.examples.map(({ title, input, at, gives }) => {
      const tried = entry.try(input, at);
      if (!tried.ok) throw new Error(`${entry.id}, example "${title}": ${tried.fault.message}`);
      const result = "finding" in tried ? tried.finding! : (tried as { calculation: Calculation }).calculation;
      return { entry, id: entry.id, title, input, at, gives, result };
    });
    ran.set(entry, known);
  }
  return known;
}

/** The stem of an entry in camel case: the name it is exported under. */
export const exportName = (id: string): string =>
  id.split("/")[1]!.replace(/-([a-z0-9])/g, (_, letter: string) => letter.toUpperCase());
