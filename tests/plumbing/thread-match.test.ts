import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { threadFit, threadMatch } from "../../src/plumbing/index.js";
import { type ThreadId, threadIds } from "../../src/plumbing/tables/threads.js";
import { reference } from "../references.js";

const { rows } = reference("plumbing/thread-match.csv");

describe("plumbing/thread-match", () => {
  test.each(rows)("$male with $female: $fit", ({ male, female, fit }) => {
    expect(threadFit(male as ThreadId, female as ThreadId)).toBe(fit);
  });

  test("says why a look-alike starts and strips, with the step", () => {
    const finding = threadMatch({ male: "G 3/4", female: "3/4-11.5 NH" });
    expect(finding.message).toBe(
      "G 3/4 starts into 3/4-11.5 NH, but the pitches differ: after three turns they are 0.0466 in out of step, and forcing it strips both.",
    );
    expect(finding.workings.map(({ text }) => text)).toEqual([
      "off = turns * abs(first - second): 3 * abs(0.0714 in - 0.087 in) = 0.0466 in",
    ]);
  });

  test("trap: a shared size name is not a shared thread", () => {
    // By name alone, 3/4 hose and 3/4 fire hose would match; so would the two nuts for 5/8 tube.
    expect(threadMatch({ male: "3/4-8 fire hose", female: "3/4-11.5 NH" })).toMatchObject({
      verdict: "fail",
      messageId: "sameName",
    });
    expect(threadMatch({ male: "7/8-14 flare 45°", female: "15/16-16 gas flare" }).messageId).toBe("sameName");
  });

  test("trap: for 3/8 tube three nuts exist, and no two go together", () => {
    const three = ["9/16-24 compression", "5/8-18 flare 45°", "9/16-18 flare 37°"] as const;
    for (const male of three) {
      for (const female of three) {
        expect(threadMatch({ male, female }).verdict).toBe(male === female ? "pass" : "fail");
      }
    }
    // One trade page gives 7/16-20 for a 3/8 compression nut; that is the 1/4 flare thread.
    expect(threadFit("7/16-20 flare 45°", "9/16-24 compression")).toBe("otherSize");
  });

  test("what was not identified is asked for; a misspelt thread is refused", () => {
    expect(threadMatch({ male: "G 3/4" })).toMatchObject({ verdict: "review", missing: [{ path: ["female"] }] });
    expect(threadMatch.try({ male: "3/4 GHT", female: "G 3/4" }).fault?.issues[0]).toMatchObject({
      path: ["male"],
      code: "notAccepted",
    });
    expect(threadMatch({}).verdict).toBe("notApplicable");
  });

  test("law: how two threads fit does not depend on which is the male one", () => {
    const id = fc.constantFrom(...threadIds);
    fc.assert(
      fc.property(id, id, (a, b) => {
        expect(threadFit(a, b)).toBe(threadFit(b, a));
      }),
    );
  });
});
