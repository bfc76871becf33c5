import { runInNewContext } from "node:vm";
import ts from "typescript";
import { describe, expect, test } from "vitest";
import { mutate } from "./mutate.js";

const source = `
  type Side = -1 | 1;
  function fee(age: number, member: boolean | undefined): number {
    let sum = 0;
    for (const price of [4, 6]) sum += price;
    for (let i = 0; i < 2; i++) {
      if (i > 5) break;
      sum = sum * 2 - 1;
    }
    log.push(sum);
    if (age < 18 && !(member ?? false)) return Math.min(sum, 30);
    return age >= 65 ? -sum : sum;
  }
`;

/** What the source does with one fault on, over ages about its limits; and the faults reached. */
function act(active: number) {
  const { code } = mutate("fee.ts", source, 1);
  const reached = new Set<number>();
  const log: number[] = [];
  const $on = (id: number) => {
    reached.add(id);
    return id === active;
  };
  const script = ts.transpile(code, { target: ts.ScriptTarget.ES2022 });
  const fee = runInNewContext(`${script}; fee`, { globalThis: { $faults: { $on, $turn: () => {} } }, log, Math });
  const answers = [17, 18, 64, 65].flatMap((age) => [true, false, undefined].map((member) => fee(age, member)));
  return { answers: JSON.stringify([answers, log]), reached };
}

describe("mutate", () => {
  const { mutants } = mutate("fee.ts", source, 1);

  test("leaves the meaning alone while no fault is on, and reaches every fault", () => {
    const { answers, reached } = act(0);
    // By hand: 10, doubled less one is 19, again 37; under 18 and no member at most 30; from 65 below nought.
    const [prices] = JSON.parse(answers);
    expect(prices).toEqual([37, 30, 30, 37, 37, 37, 37, 37, 37, -37, -37, -37]);
    // The one break is never met.
    expect([...reached].sort((a, b) => a - b)).toEqual(mutants.map(({ id }) => id));
  });

  test("each fault changes what the source does, but the one that nothing can tell", () => {
    const asIs = act(0).answers;
    const same = mutants.filter(({ id }) => act(id).answers === asIs);
    // i stays under 2, so whether it passes 5 is asked in vain.
    expect(same.map(({ from, to }) => [from, to])).toEqual([
      ["i > 5", "false"],
      ["i > 5", "i >= 5"],
      ["member ?? false", "member"],
    ]);
  });

  test("names place, kind and both texts", () => {
    expect(mutants.filter(({ line }) => line === 11)).toEqual([
      {
        id: expect.any(Number),
        file: "fee.ts",
        line: 11,
        kind: "condition",
        from: "age < 18 && !(member ?? false)",
        to: "true",
      },
      {
        id: expect.any(Number),
        file: "fee.ts",
        line: 11,
        kind: "condition",
        from: "age < 18 && !(member ?? false)",
        to: "false",
      },
      {
        id: expect.any(Number),
        file: "fee.ts",
        line: 11,
        kind: "boolean",
        from: "age < 18 && !(member ?? false)",
        to: "age < 18 || !(member ?? false)",
      },
      { id: expect.any(Number), file: "fee.ts", line: 11, kind: "boundary", from: "age < 18", to: "age <= 18" },
      { id: expect.any(Number), file: "fee.ts", line: 11, kind: "comparison", from: "age < 18", to: "age >= 18" },
      {
        id: expect.any(Number),
        file: "fee.ts",
        line: 11,
        kind: "boolean",
        from: "!(member ?? false)",
        to: "!!(member ?? false)",
      },
      { id: expect.any(Number), file: "fee.ts", line: 11, kind: "boolean", from: "member ?? false", to: "member" },
      { id: expect.any(Number), file: "fee.ts", line: 11, kind: "boolean", from: "member ?? false", to: "false" },
      { id: expect.any(Number), file: "fee.ts", line: 11, kind: "boolean", from: "false", to: "true" },
      {
        id: expect.any(Number),
        file: "fee.ts",
        line: 11,
        kind: "call",
        from: "Math.min(sum, 30)",
        to: "Math.max(sum, 30)",
      },
    ]);
  });

  test("never touches types, texts or imports", () => {
    const none = `import { a } from "./a.js";\ntype B = { readonly c: -1 | true };\nexport const d = "x" + a;\n`;
    expect(mutate("d.ts", none, 1).mutants).toEqual([]);
  });

  test("makes pass and fail of a comparison change places", () => {
    const rule = `const rule = { check(x, { judge }) { return judge({ measured: x, pass: ["in"], fail: ["out"] }); } };`;
    const { code, mutants } = mutate("rule.ts", rule, 1);
    expect(mutants).toMatchObject([{ kind: "comparison", to: "pass and fail change places" }]);
    const run = (active: number) =>
      runInNewContext(`${code}; rule.check(3, { judge: (one) => one })`, {
        globalThis: { $faults: { $on: (id: number) => id === active, $turn: () => {} } },
      });
    expect({ ...run(0) }).toEqual({ measured: 3, pass: ["in"], fail: ["out"] });
    expect({ ...run(1) }).toEqual({ measured: 3, pass: ["out"], fail: ["in"] });
    expect(mutate("rule.ts", rule, 1, () => true, ["check"]).mutants).toEqual([]);
    const named = "const rule = { mend: offers }; function offers(a) { return a < 1; } function other(a) { return a; }";
    expect(mutate("rule.ts", named, 1).mutants).toHaveLength(2);
    expect(mutate("rule.ts", named, 1, () => true, ["mend"]).mutants).toEqual([]);
  });

  test("a sample takes the faults it is told to", () => {
    let count = 0;
    const half = mutate("fee.ts", source, 1, () => count++ % 2 === 0);
    expect(half.mutants).toHaveLength(Math.ceil(mutants.length / 2));
    expect(half.mutants.map(({ id }) => id)).toEqual(half.mutants.map((_, i) => i + 1));
  });
});
