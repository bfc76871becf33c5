/** What every entry of the catalogue keeps. A failing line names the entry and what it lacks. */
import { existsSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import * as z from "zod";
import { faultsOfLimit } from "../../src/core/basis/index.js";
import {
  type Calculation,
  type CatalogueEntry,
  type Finding,
  inputOf,
  isOptional,
  machineFacts,
  schemaAt,
} from "../../src/core/rule/index.js";
import { reference } from "../references.js";
import {
  allTables,
  entries,
  examplesOf,
  exportName,
  filesUnder,
  isFinding,
  limits,
  modules,
  parts,
  root,
  sourceModule,
  trades,
} from "./catalogue.js";
import { lossesIn, put } from "./plain.js";

const tables = await allTables();
const tradeFiles = [...modules.keys()].flatMap(filesUnder);
const source = (file: string): string => readFileSync(`${root}src/${file}`, "utf8");

/** Messages of an entry by id, with their text. */
function messagesOf({ messages }: CatalogueEntry): Map<string, string> {
  return new Map(
    Object.values(messages as Record<string, Record<string, string>>).flatMap((byId) => Object.entries(byId)),
  );
}

/** Every message that a result speaks: the governing one first. */
const messageIds = (result: Finding | Calculation): string[] =>
  isFinding(result)
    ? [...new Set([result.messageId, ...result.parts.map(({ messageId }) => messageId)])]
    : [result.messageId ?? "computed"];

/** What makes a text no sentence. */
function faultsOfSentence(text: string, stop: "full stop" | "no full stop"): string[] {
  const faults: string[] = [];
  if (!/^(?:[A-Z0-9{]|°)/.test(text)) faults.push(`"${text}" starts small`);
  if (/ {2}|^\s|\s$/.test(text)) faults.push(`"${text}" has stray spaces`);
  if (stop === "full stop" ? !/[.?!]$/.test(text) : /[.;:,]$/.test(text))
    faults.push(`"${text}" should end with ${stop}`);
  return faults;
}

test("the four trades are there", () => {
  expect([...modules.keys()]).toEqual([...trades]);
  expect([...parts.keys()]).toEqual([...trades]);
});

test("ids are unique and say where the file is", () => {
  const ids = entries.map(({ id }) => id);
  expect(new Set(ids).size).toBe(ids.length);
  for (const id of ids) expect(id).toMatch(/^(electrical|venting|plumbing|placement)\/[a-z0-9]+(-[a-z0-9]+)*$/);
});

describe.each(entries.map((entry) => [entry.id, entry] as const))("%s", (id, entry) => {
  const [trade = "", stem = ""] = id.split("/");

  test("has its four files", () => {
    const files = [`src/${id}.ts`, `tests/${id}.test.ts`, `tests/references/${id}.csv`, `docs/rules/${id}.md`];
    expect(files.filter((file) => !existsSync(root + file))).toEqual([]);
    const { source: from, confirmed, tolerance } = reference(`${id}.csv`);
    expect(from.length).toBeGreaterThan(10);
    expect(confirmed.length).toBeGreaterThan(3);
    expect(tolerance).toBeGreaterThanOrEqual(0);
    // after the number the reason
    expect(readFileSync(`${root}tests/references/${id}.csv`, "utf8")).toMatch(/^# tolerance: [\d.e+-]+.*[a-z]{3}/m);
  });

  test("is exported under its stem, by its file and by its trade", async () => {
    const name = exportName(id);
    expect((await sourceModule(`${id}.ts`))[name]).toBe(entry);
    expect(modules.get(trade)![name]).toBe(entry);
    expect(stem).toBe(entry.id.slice(trade.length + 1));
  });

  test("its examples give what they say, and together reach every message", () => {
    const ran = examplesOf(entry);
    const wrong = ran.filter(({ result, gives }) => !messageIds(result).includes(gives));
    expect(wrong.map(({ title, gives, result }) => `"${title}" gives ${messageIds(result)}, not ${gives}`)).toEqual([]);
    const reached = new Set(ran.flatMap(({ result }) => messageIds(result)));
    expect([...messagesOf(entry).keys()].filter((message) => !reached.has(message))).toEqual([]);
    // the first example is the worked one of the page
    const first = ran[0]!.result;
    expect(isFinding(first) ? first.verdict : first.status).toMatch(/^(pass|computed)$/);
    if (entry.kind === "calculator") expect(ran.map(({ gives }) => gives)).toContain("computed");
  });

  test("its results are plain JSON with the same keys", () => {
    const results = examplesOf(entry).map(({ result }) => result);
    for (const result of results) {
      expect(lossesIn(result)).toEqual([]);
      expect(JSON.parse(JSON.stringify(result))).toEqual(result);
      expect(Object.keys(result)).toEqual(Object.keys(results[0]!));
    }
  });

  test("is deterministic and leaves its input alone", () => {
    for (const { input, at, result } of examplesOf(entry)) {
      const copy = structuredClone(input);
      entry.try(input, at);
      expect(input).toEqual(copy);
      const again = entry.try(input, at) as { finding?: unknown; calculation?: unknown };
      expect(JSON.stringify(again.finding ?? again.calculation)).toBe(JSON.stringify(result));
    }
  });

  test("its remedies, applied to what was given, pass", () => {
    for (const { input, at, result } of examplesOf(entry)) {
      if (!isFinding(result)) continue;
      for (const { message, changes } of result.remedies) {
        const mended = structuredClone(input) as Record<string, unknown>;
        for (const { path, value } of changes) put(mended, path, value);
        const tried = entry.try(mended, at) as { finding?: { verdict: string }; fault?: Error };
        expect([message, tried.finding?.verdict ?? tried.fault?.message]).toEqual([message, "pass"]);
        expect(faultsOfSentence(message, "full stop")).toEqual([]);
      }
    }
  });

  test("speaks in sentences and carries its cautions", () => {
    const faults = [
      ...faultsOfSentence(entry.title, "no full stop"),
      ...[...messagesOf(entry).values()].flatMap((text) => faultsOfSentence(text, "full stop")),
      ...entry.examples.flatMap(({ title }) => faultsOfSentence(title, "no full stop")),
      ...(entry.kind === "rule" ? Object.values(entry.remedies) : []).flatMap((text) =>
        faultsOfSentence(text, "full stop"),
      ),
    ];
    expect(faults).toEqual([]);
    expect(entry.cautions.length).toBeGreaterThan(0);
    expect(entry.since).toMatch(/^\d+\.\d+\.\d+$/);
  });

  test("every field says what it is, and what it rests on is named", () => {
    const json = entry.jsonSchema() as {
      properties: Record<string, { description?: string }>;
      additionalProperties?: boolean;
    };
    const silent = Object.entries(json.properties).filter(([, field]) => (field.description ?? "").length < 8);
    expect(silent.map(([name]) => name)).toEqual([]);
    expect(json.additionalProperties).toBe(false);
    const bare = examplesOf(entry).every(({ result }) => result.basis.length === 0);
    expect(bare && entry.limits.length === 0 && entry.basis.length === 0).toBe(false);
  });

  test("asks only for the limits that it lists", () => {
    // a stated value for each listed limit must reach the finding; a limit that is not listed could not be amended
    const listed = new Set(entry.limits.map((limit) => limit.id));
    const used = examplesOf(entry).flatMap(({ result }) => result.setAside.map(({ limit }) => limit));
    expect(used.filter((limit) => !listed.has(limit))).toEqual([]);
  });
});

describe("limits", () => {
  test("their ids are unique and start with their trade", () => {
    const ids = limits.map(({ id }) => id);
    expect(new Set(ids).size).toBe(ids.length);
    for (const entry of entries) {
      for (const limit of entry.limits)
        expect([entry.id, limit.id.split("/")[0]]).toEqual([entry.id, entry.id.split("/")[0]]);
    }
    for (const id of ids) expect(id).toMatch(/^[a-z]+\/[a-z0-9-]+\.[a-z0-9-]+$/);
  });

  test.each(limits.map((limit) => [limit.id, limit] as const))("%s", (_, limit) => {
    expect(faultsOfLimit(limit)).toEqual([]);
    expect(faultsOfSentence(limit.title, "no full stop")).toEqual([]);
    for (const { text, section, confirmed, note } of limit.values) {
      if (text === "practice") expect(confirmed).toBe("practice");
      else expect(section).toMatch(/\d/);
      if (note !== undefined) expect(faultsOfSentence(note, "full stop")).toEqual([]);
    }
  });
});

describe("tables", () => {
  test("are exported once each", () => expect(tables.size).toBe(new Set(tables.values()).size));

  test.each([...tables])("%s", (_, table) => {
    expect(table.rows.length).toBeGreaterThan(0);
    expect(table.rows.flat().every(Number.isFinite)).toBe(true);
    const keys = table.rows.map(([key]) => key);
    expect(keys.every((key, i) => i === 0 || key > keys[i - 1]!)).toBe(true);
    expect(faultsOfSentence(table.title, "no full stop")).toEqual([]);
    expect(table.basis.document).not.toBe("");
  });
});

const allMachineFacts: Record<string, z.ZodType> = Object.assign(
  { ...machineFacts },
  ...[...parts.values()].map(({ machine }) => machine),
);

/** The schema at a path of the survey, and whether every step to it is always there. */
function surveyField(path: string): { schema: z.core.$ZodType; always: boolean } | undefined {
  const [first = "", ...rest] = path.split(".");
  const top: z.ZodType | undefined = first === "machine" ? z.strictObject(allMachineFacts) : parts.get(first)?.site;
  const schema = top && schemaAt(top, rest);
  if (!schema) return undefined;
  const steps = rest.map((_, i) => schemaAt(top, rest.slice(0, i + 1))!);
  return { schema, always: first === "machine" && steps.every((step) => !isOptional(step as z.ZodType)) };
}

/** A schema's demands without its help texts: what may come in where the two are the same. */
const demands = (schema: z.core.$ZodType): string => {
  const {
    $schema: _,
    description: _d,
    ...rest
  } = z.toJSONSchema(schema, { io: "input", unrepresentable: "any" }) as Record<string, unknown>;
  return JSON.stringify(rest, (key, value) => (key === "description" ? undefined : value));
};

describe.each([...parts])("%s's part of the survey", (trade, part) => {
  test("uses every entry of the trade, once", () => {
    const used = part.uses.map(({ entry }) => entry.id).sort();
    const own = entries.filter(({ id }) => id.startsWith(`${trade}/`)).map(({ id }) => id);
    expect(own.filter((id) => !used.includes(id))).toEqual([]);
    expect(used).toEqual([...new Set(used)]);
  });

  test("takes each input from a field that exists and asks for the same", () => {
    const faults: string[] = [];
    for (const { entry, from } of part.uses) {
      const input = inputOf(entry);
      const fields = Object.keys((input as z.ZodObject).shape);
      for (const field of fields) {
        const own = schemaAt(input, [field])!;
        const path = from[field];
        if (path === undefined) {
          if (!isOptional(own as z.ZodType)) faults.push(`${entry.id}: ${field} is needed and comes from nowhere`);
          continue;
        }
        const found = surveyField(path);
        if (!found) faults.push(`${entry.id}: ${field} comes from ${path}, which the survey does not have`);
        else if (demands(found.schema) !== demands(own))
          faults.push(`${entry.id}: ${path} accepts other values than ${field}`);
        else if (!found.always && !isOptional(own as z.ZodType))
          faults.push(`${entry.id}: ${field} is needed but ${path} may be left out`);
      }
      for (const field of Object.keys(from))
        if (!fields.includes(field)) faults.push(`${entry.id} has no input ${field}`);
    }
    expect(faults).toEqual([]);
  });

  test("every field is asked for by some entry, may be left out, and says what and how to measure", () => {
    const asked = [...parts.values()].flatMap(({ uses }) => uses.flatMap(({ from }) => Object.values(from)));
    const faults: string[] = [];
    const walk = (schema: z.core.$ZodType, path: string): void => {
      const bare = unwrap(schema);
      const here = description(schema);
      if (here.length < 8) faults.push(`${path} says nothing`);
      if (!isOptional(schema as z.ZodType)) faults.push(`${path} cannot be left out`);
      if (asked.includes(path)) return;
      const shape = (bare._zod.def as { shape?: Record<string, z.core.$ZodType> }).shape;
      if (shape) for (const [key, inner] of Object.entries(shape)) walk(inner, `${path}.${key}`);
      else faults.push(`${path} is asked for by nothing`);
    };
    for (const [key, schema] of Object.entries(part.site.shape)) walk(schema, `${trade}.${key}`);
    for (const [key, schema] of Object.entries(part.machine)) walk(schema, `machine.${key}`);
    expect(faults).toEqual([]);
  });
});

function unwrap(schema: z.core.$ZodType): z.core.$ZodType {
  const inner = (schema._zod.def as { innerType?: z.core.$ZodType }).innerType;
  return inner ? unwrap(inner) : schema;
}

function description(schema: z.core.$ZodType): string {
  const own = z.globalRegistry.get(schema)?.description;
  const inner = (schema._zod.def as { innerType?: z.core.$ZodType }).innerType;
  return own ?? (inner ? description(inner) : "");
}

describe("source of the trades", () => {
  test("imports nothing that an entry must not carry, and names what it exports", () => {
    const faults = tradeFiles.flatMap((file) => {
      const text = source(file);
      const [trade = ""] = file.split("/");
      const others = trades.filter((other) => other !== trade).map((other) => `\\.\\./${other}/`);
      const forbidden: [RegExp, string][] = [
        [/from "mathjs|import\("mathjs/, "mathjs"],
        [/from "csv-parse/, "csv-parse"],
        [/from "node:/, "Node"],
        [new RegExp(`from "[./]*(?:${others.join("|")})`), "another trade"],
        [/export \* /, "export *"],
        [/import z from "zod"|import \{[^}]*\bz\b[^}]*\} from "zod"/, 'zod other than as "* as z"'],
        [/\b(?:TODO|FIXME|XXX)\b/, "something left to do"],
      ];
      return forbidden.filter(([pattern]) => pattern.test(text)).map(([, what]) => `${file}: ${what}`);
    });
    expect(faults).toEqual([]);
  });

  test("numbers stand in tables with a source", () => {
    const faults = tradeFiles
      .filter((file) => file.includes("/tables/"))
      .filter((file) => !/\/\*\*[\s\S]*\*\//.test(source(file)));
    expect(faults).toEqual([]);
  });
});
