import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { differences, type Recorded, recordedFile, verdictsNow } from "./recorded.js";

test("no verdict over the sample surveys has changed", async () => {
  const recorded = JSON.parse(readFileSync(recordedFile, "utf8")) as Recorded;
  const changes = differences(recorded, await verdictsNow());
  expect(
    changes,
    [
      `${changes.length} verdicts differ from the recorded ones:`,
      ...changes.slice(0, 50),
      "A changed verdict is a change for those who rely on it. If it is meant, list it in docs/changes.md (rule,",
      "edition, from which date, which inputs, why) and record anew: npx tsx tests/verdicts/record.ts",
    ].join("\n"),
  ).toEqual([]);
});

test("a difference is told by survey and rule", () => {
  const before = { a: { x: "pass within", y: "pass ok" }, b: { refused: "noUnit" } };
  const after = { a: { x: "fail tooLong", y: "pass ok" }, c: { x: "pass within" } };
  expect(differences(before, after)).toEqual([
    "a x: pass within -> fail tooLong",
    "b refused: noUnit -> nothing",
    "c x: nothing -> pass within",
  ]);
});
