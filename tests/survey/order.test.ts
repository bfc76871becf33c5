/** The order of work: what must come first does, work stops where something is open, and there is no circle. */
import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { fuels } from "../../src/core/basis/index.js";
import { machineKinds } from "../../src/core/rule/index.js";
import { orderMarkdown, orderText } from "../../src/report/index.js";
import { assessSite, catalogue, orderOfWork, type Survey, type WorkOrder } from "../../src/survey/index.js";
import { declared } from "../../src/survey/order/steps.js";
import { dryfit } from "../cli/harness.js";

const folder = new URL("../../examples/sites/", import.meta.url);
const samples = readdirSync(folder)
  .sort()
  .map((name) => JSON.parse(readFileSync(new URL(name, folder), "utf8")) as Survey);

const made: Survey[] = machineKinds.flatMap((kind) =>
  fuels.flatMap((fuel) =>
    (["vented", "ventless"] as const).flatMap((exhaust) =>
      [true, false].flatMap((steam) =>
        [true, false].map(
          (hardWired): Survey => ({
            site: { id: "A" },
            machine: { kind, fuel, exhaust, steam },
            electrical: { hardWired },
          }),
        ),
      ),
    ),
  ),
);

const orderFor = (machine: Survey["machine"], more: Partial<Survey> = {}): WorkOrder =>
  orderOfWork({ site: { id: "A" }, machine, ...more });
const ids = ({ steps }: WorkOrder): string[] => steps.map(({ id }) => id);

/** Whether one step comes before another, however far. */
function leads({ steps }: WorkOrder, first: string, then: string): boolean {
  const step = steps.find(({ id }) => id === then)!;
  return step.after.some((id) => id === first || leads({ steps } as WorkOrder, first, id));
}

describe("the declared steps", () => {
  test("name only steps declared before them, so that there is no circle", () => {
    declared.forEach((step, place) => {
      for (const one of step.after) expect(declared.indexOf(one)).toBeGreaterThanOrEqual(0);
      for (const one of step.after) expect(declared.indexOf(one)).toBeLessThan(place);
    });
  });

  test("have an id of their own each, and rest on rules that exist", () => {
    expect(new Set(declared.map(({ id }) => id)).size).toBe(declared.length);
    const known = new Set(catalogue().map(({ id }) => id));
    for (const { rules } of declared) for (const rule of rules) expect(known).toContain(rule);
  });
});

describe("for every kind of machine, fuel, exhaust and supply", () => {
  test.each(machineKinds)("%s: each step stands after all it must follow, a stage later at least", (kind) => {
    for (const survey of [...made, ...samples].filter(({ machine }) => machine.kind === kind)) {
      const { steps } = orderOfWork(survey);
      const place = new Map(steps.map(({ id, stage }, i) => [id, { i, stage }]));
      expect(place.size).toBe(steps.length);
      for (const step of steps) {
        if (step.id !== "read") expect(step.after.length).toBeGreaterThan(0);
        for (const id of step.after) {
          expect(place.get(id)!.i).toBeLessThan(place.get(step.id)!.i);
          expect(place.get(id)!.stage).toBeLessThan(step.stage);
        }
      }
      expect(steps[0]?.id).toBe("read");
      expect(steps.at(-1)?.id).toBe("hand-over");
    }
  });

  test("the same survey gives the same bytes", () => {
    for (const survey of samples.slice(0, 8))
      expect(JSON.stringify(orderOfWork(structuredClone(survey)))).toBe(JSON.stringify(orderOfWork(survey)));
  });

  test("no step is named before another that it follows anyway", () => {
    for (const survey of samples) {
      const order = orderOfWork(survey);
      for (const { after } of order.steps)
        for (const one of after) for (const other of after) expect(leads(order, one, other)).toBe(false);
    }
  });
});

// common practice, no source
describe("what must precede what", () => {
  const gas = orderFor({ kind: "dryer", fuel: "naturalGas", exhaust: "vented" });
  const stack = orderFor({ kind: "stack", fuel: "electric", exhaust: "vented" });

  test.each([
    ["feet", "slide"],
    ["dead-power", "cord"],
    ["gas-off", "connector"],
    ["connector", "leak"],
    ["leak", "slide"],
    ["leak", "duct"],
    ["duct", "slide"],
    ["slide", "level"],
    ["level", "power-on"],
    ["slide", "power-on"],
    ["power-on", "run"],
    ["run", "air"],
    ["alarm", "run"],
    ["old-shut", "bring"],
    ["slide", "leak-again"],
    ["level", "leak-again"],
    ["leak-again", "power-on"],
  ])("a gas dryer: %s before %s", (first, then) => expect(leads(gas, first, then)).toBe(true));

  test.each([
    ["water-off", "hoses"],
    ["hoses", "water-on"],
    ["water-on", "slide"],
    ["drain", "slide"],
    ["feet", "stack-up"],
    ["stack-up", "slide"],
  ])("a stacked pair: %s before %s", (first, then) => expect(leads(stack, first, then)).toBe(true));

  test("gas is tested before the last push and again after it, each at a hold", () => {
    for (const kind of ["dryer", "stack", "range", "oven", "cooktop"] as const) {
      const order = orderFor({ kind, fuel: "propane" });
      const holds = order.steps.filter(({ id }) => id.startsWith("leak")).map(({ hold }) => hold?.kind);
      expect(holds).toEqual(["measurement", "measurement"]);
      expect(leads(order, "leak", "slide")).toBe(true);
      expect(leads(order, "slide", "leak-again")).toBe(true);
    }
  });

  test.each([
    ["dishwasher", ["slide", "level", "fasten", "power-on"]],
    ["oven", ["slide", "fasten", "power-on"]],
    ["cooktop", ["slide", "fasten", "power-on"]],
    ["hood", ["hang", "duct", "power-on"]],
  ] as const)("%s: it is fixed where it is built in, before the power", (kind, along) => {
    const order = orderFor({ kind, fuel: "electric" });
    along.slice(1).forEach((then, i) => {
      expect(leads(order, along[i]!, then)).toBe(true);
    });
    expect(ids(order).includes("slide")).toBe(kind !== "hood");
  });

  test("a dryer without a duct has its condensate led away before it stands in its place", () => {
    for (const kind of ["dryer", "stack"] as const) {
      const order = orderFor({ kind, fuel: "electric", exhaust: "ventless" });
      expect(leads(order, "condensate", "slide")).toBe(true);
      expect(ids(orderFor({ kind, fuel: "electric", exhaust: "vented" }))).not.toContain("condensate");
    }
    expect(ids(orderFor({ kind: "washer", fuel: "none", exhaust: "ventless" }))).not.toContain("condensate");
  });

  test("a range's bracket is fixed before it is slid in", () => {
    expect(leads(orderFor({ kind: "range", fuel: "propane" }), "bracket", "slide")).toBe(true);
  });

  test("a machine has the steps of what it has, and no others", () => {
    expect(ids(gas)).not.toContain("hoses");
    expect(ids(orderFor({ kind: "dryer", fuel: "electric", steam: true }))).toContain("hoses");
    const ventless = ids(orderFor({ kind: "dryer", fuel: "electric", exhaust: "ventless" }));
    for (const id of ["duct", "clean-duct", "connector", "leak"]) expect(ventless).not.toContain(id);
    const wired = ids(orderFor({ kind: "oven", fuel: "electric" }, { electrical: { hardWired: true } }));
    expect(wired).toContain("wire");
    for (const id of ["cord", "feet", "level"]) expect(wired).not.toContain(id);
    expect(ids(orderFor({ kind: "dishwasher", fuel: "none" }))).toContain("drain");
  });

  test("where nobody said whether by cord or by fixed wiring, that is asked", () => {
    const unsaid = ids(orderFor({ kind: "dishwasher", fuel: "none" }));
    expect(unsaid).toContain("join-power");
    for (const id of ["cord", "wire"]) expect(unsaid).not.toContain(id);
    expect(ids(orderFor({ kind: "dishwasher", fuel: "none" }, { electrical: { hardWired: false } }))).toContain("cord");
  });

  test("a range's foot is looked for in its bracket before the power", () => {
    expect(leads(orderFor({ kind: "range", fuel: "electric" }), "in-bracket", "power-on")).toBe(true);
  });

  test("work on gas and on terminals stops at a hold", () => {
    for (const id of ["dead-power", "leak", "slide", "run"])
      expect(gas.steps.find((step) => step.id === id)?.hold).not.toBeNull();
  });
});

describe("what stands against a step", () => {
  test("is every rule that fails or needs review, and nothing else", () => {
    for (const survey of samples) {
      const open = assessSite(survey).findings.filter(({ verdict }) => verdict === "fail" || verdict === "review");
      const told = orderOfWork(survey).steps.flatMap(({ obstacles }) => obstacles.map(({ rule }) => rule));
      expect([survey.site.id, [...new Set(told)].sort()]).toEqual([
        survey.site.id,
        open.map(({ rule }) => rule).sort(),
      ]);
    }
  });

  const long = orderFor({ kind: "dryer", fuel: "electric" }, { venting: { duct: { straight: "60 ft", elbows: [] } } });
  const clean = long.steps.find(({ id }) => id === "clean-duct")!;

  test("a rule that fails is told with its message", () => {
    expect(clean.obstacles).toContainEqual({
      rule: "venting/duct-length",
      verdict: "fail",
      message: expect.stringContaining("60 ft") as string,
    });
  });

  test("a rule that waits for a measurement is told too, and one that passes or does not apply is not", () => {
    expect(clean.obstacles.map(({ verdict }) => verdict)).toContain("review");
    for (const { obstacles } of long.steps)
      for (const { verdict } of obstacles) expect(["fail", "review"]).toContain(verdict);
  });

  test("on paper it stands below its step, with the hold points", () => {
    const text = orderText(long);
    expect(text).toMatch(/Clean the duct \(after \d+\)\n.*\n {5}FAIL venting\/duct-length: .*60 ft/);
    expect(text).toContain("     HOLD (measurement) ");
    expect(orderMarkdown(long)).toContain("1. [ ] Read the sheet");
  });

  test("a site's name is text", () => {
    const named = { ...long, site: "<script>x</script>|\u001b[2J" };
    expect(orderMarkdown(named).split("\n")[0]).not.toMatch(/(?<!\\)</);
    // biome-ignore lint/suspicious/noControlCharactersInRegex: this is what is looked for
    expect(orderText(named)).not.toMatch(/\u001b/);
  });
});

describe("dryfit order", () => {
  const survey = JSON.stringify({ site: { id: "A" }, machine: { kind: "dryer", fuel: "electric" } });

  test.each([["text"], ["markdown"], ["json"]])("as %s ends with review where something waits", async (format) => {
    const ran = await dryfit(["order", "a.json", "--format", format], { files: { "a.json": survey } });
    expect([ran.code, ran.err]).toEqual([2, ""]);
    expect(ran.out).toContain("Read the sheet");
  });

  test.each([
    ["none.json", "", 3],
    ["a.json", "{", 3],
    ["a.json", '{"site":{"id":"A"}}', 3],
  ] as const)("of %s holding %j ends with %i", async (name, text, code) => {
    const ran = await dryfit(["order", name], { files: name === "a.json" ? { "a.json": text } : {} });
    expect([ran.code, ran.out]).toEqual([code, ""]);
  });
});
