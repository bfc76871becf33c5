/**
 * Every example of every entry gives the message it names, and what a remedy proposes passes: what the contract tests ask,
 * but worked out anew each time, since they keep the results of one run for all their tests and would not see a fault that
 * wakes later. Not a test file of its own; `npm run mutants` runs it beside the tests of a trade.
 */
import { expect, test } from "vitest";
import type { Calculation, Finding } from "../../src/core/rule/index.js";
import { entries, isFinding } from "../contract/catalogue.js";
import { put } from "../contract/plain.js";

const said = (result: Finding | Calculation): string[] =>
  isFinding(result)
    ? [result.messageId, ...result.parts.map(({ messageId }) => messageId)]
    : [result.messageId ?? "computed"];

const examples = entries.flatMap((entry) =>
  entry.examples.map(({ title, input, at, gives }) => ({ id: entry.id, title, entry, input, at, gives })),
);

test.each(examples)("$id: $title", ({ entry, input, at, gives }) => {
  const tried = entry.try(input, at);
  if (!tried.ok) throw tried.fault;
  const result = "finding" in tried ? tried.finding! : (tried as { calculation: Calculation }).calculation;
  expect(said(result)).toContain(gives);
  if (!isFinding(result)) return;
  for (const { message, changes } of result.remedies) {
    const mended = structuredClone(input) as Record<string, unknown>;
    for (const { path, value } of changes) put(mended, path, value);
    const after = entry.try(mended, at);
    expect([message, after.ok && "finding" in after && after.finding!.verdict]).toEqual([message, "pass"]);
  }
});
