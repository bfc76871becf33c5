/** The take-off: what to bring, what stays, what cannot be told yet, each with what it comes from. */
import { readdirSync, readFileSync } from "node:fs";
import { parse } from "csv-parse/sync";
import { describe, expect, test } from "vitest";
import { fuels } from "../../src/core/basis/index.js";
import { machineKinds } from "../../src/core/rule/index.js";
import { csvCell, takeOffCsv, takeOffMarkdown, takeOffText } from "../../src/report/index.js";
import { assessSite, catalogue, type Survey, type TakeOff, type TakeOffLine, takeOff } from "../../src/survey/index.js";
import { surveyFields } from "../../src/survey/walk.js";
import { dryfit } from "../cli/harness.js";

const folder = new URL("../../examples/sites/", import.meta.url);
const samples = readdirSync(folder)
  .sort()
  .map((name) => JSON.parse(readFileSync(new URL(name, folder), "utf8")) as Survey);
const sample = (name: string): Survey => JSON.parse(readFileSync(new URL(`${name}.json`, folder), "utf8")) as Survey;

const described: Survey[] = machineKinds.flatMap((kind) =>
  fuels.flatMap((fuel) =>
    (["vented", "ventless", undefined] as const).flatMap((exhaust) =>
      [true, false].map(
        (steam): Survey => ({
          site: { id: `${kind} ${fuel}` },
          machine: { kind, fuel, steam, ...(exhaust === undefined ? {} : { exhaust }) },
        }),
      ),
    ),
  ),
);

const lineOf = ({ lines }: TakeOff, what: string): TakeOffLine | undefined =>
  lines.find((line) => line.what.startsWith(what));
const brief = (taken: TakeOff, what: string) => {
  const line = lineOf(taken, what);
  return line && [line.supply, line.count, line.size];
};
const dryer = (duct: object, more: object = {}): Survey =>
  ({
    site: { id: "A" },
    machine: { kind: "dryer", fuel: "electric", exhaust: "vented", steam: false },
    venting: { duct, ...more },
  }) as Survey;

describe("every line", () => {
  test("has a whole count of one or more, or tells what it waits for", () => {
    for (const survey of [...samples, ...described]) {
      for (const line of takeOff(survey).lines) {
        if (line.count === null)
          expect([line.what, line.supply === "open" || line.what.startsWith("screws")]).toEqual([line.what, true]);
        else expect([line.what, Number.isInteger(line.count) && line.count > 0]).toEqual([line.what, true]);
        if (line.open !== null) expect(line.supply).toBe("open");
        expect(line.why).toMatch(/\.$/);
      }
    }
  });

  test("comes from rules and calculators that exist and from fields of the survey", () => {
    const ids = new Set(catalogue().map(({ id }) => id));
    const fields = surveyFields().map(({ path }) => path.join("."));
    const isField = (path: string): boolean => {
      const plain = path.replace(/\.\d+(?=\.|$)/g, ".0");
      return fields.some(
        (field) =>
          `${field}.`.startsWith(`${plain}.`) ||
          `${plain}.`.startsWith(`${field}.`) ||
          field.startsWith(`${plain.replace(/\.0$/, "")}`),
      );
    };
    for (const survey of [...samples, ...described]) {
      const { findings, values } = assessSite(survey);
      const ran = new Set([...findings.map(({ rule }) => rule), ...values.map(({ calculator }) => calculator)]);
      for (const { from, open } of takeOff(survey).lines) {
        for (const one of from)
          expect([one, one.includes("/") ? ids.has(one) && ran.has(one) : isField(one)]).toEqual([one, true]);
        if (open !== null) expect([open, isField(open)]).toEqual([open, true]);
      }
    }
  });

  test("is the same for the same survey, byte for byte", () => {
    for (const survey of samples)
      expect(JSON.stringify(takeOff(structuredClone(survey)))).toBe(JSON.stringify(takeOff(survey)));
  });
});

describe("a dryer's duct", () => {
  test("that is there and holds, stays", () => {
    const taken = takeOff(sample("alder-row-01"));
    expect(brief(taken, "rigid duct")).toEqual(["there", 1, "4 in, 18 ft straight"]);
    expect(brief(taken, "elbow")).toEqual(["there", 2, "4 in mitred, 90°"]);
    expect(brief(taken, "power cord")).toEqual(["there", 1, "14-30, 10 AWG, 5 ft"]);
    expect(brief(taken, "exhaust hood")).toEqual(["there", 1, "4 in"]);
    // common practice: one clamp at each end of the transition duct
    expect(brief(taken, "clamp")).toEqual(["bring", 2, "4 in"]);
  });

  test("whose supports are too far apart gets supports: 18 ft at 4 ft apart takes five", () => {
    const taken = takeOff(sample("alder-row-05"));
    expect(brief(taken, "duct support")).toEqual(["bring", 5, null]);
    expect(lineOf(taken, "rigid duct")?.supply).toBe("there");
  });

  test("whose screws reach too far and whose joints are open gets short ones and tape", () => {
    // IRC 2021 M1502.4.2 lets fasteners reach 1/8 in into the duct
    const taken = takeOff(dryer({ straight: "10 ft", elbows: [], fastenerReach: "1/2 in", sealed: false }));
    expect(brief(taken, "screws")).toEqual(["bring", null, "1/8 in at most"]);
    expect(brief(taken, "foil tape")).toEqual(["bring", 1, null]);
    expect(lineOf(taken, "rigid duct")?.supply).toBe("there");
  });

  test("of the wrong stuff is replaced", () => {
    const taken = takeOff(dryer({ straight: "10 ft", elbows: [], smooth: false }));
    expect(lineOf(taken, "rigid duct")?.supply).toBe("bring");
    expect(lineOf(taken, "rigid duct")?.why).toContain("smooth");
  });

  test("that is too long is undecided, with a way out that would pass", () => {
    const taken = takeOff(dryer({ straight: "40 ft", elbows: [] }));
    expect(lineOf(taken, "rigid duct")?.supply).toBe("open");
    expect(lineOf(taken, "rigid duct")?.why).toContain("Shorten");
  });

  test("that is to be built is taken from the cut list", () => {
    // legs of 12 ft and 6 ft from 5 ft sections lapping 1 1/2 in: three pieces and two, and no offcut is long enough to spare one
    const survey = dryer(
      { straight: "18 ft", elbows: [{ radius: "4 in mitred", angle: "90°", count: 1 }] },
      { planning: { legs: ["12 ft", "6 ft"], stock: "5 ft" } },
    );
    const taken = takeOff(survey);
    const cut = assessSite(survey).values.find(({ calculator }) => calculator === "venting/cut-list")!.values;
    const sections = (cut["sections"] as { si: number }).si;
    expect(sections).toBeGreaterThanOrEqual(4); // 18 ft and laps from 5 ft sections
    expect(brief(taken, "section of rigid duct")).toEqual(["bring", sections, "4 in duct, 5 ft long"]);
    expect(brief(taken, "elbow")).toEqual(["bring", 1, "4 in mitred, 90°"]);
    expect(lineOf(taken, "foil tape")?.from).toEqual(["venting/cut-list"]);
  });

  test("that was not measured is open, and none is asked of a ventless machine", () => {
    const bare = takeOff({ site: { id: "A" }, machine: { kind: "dryer", fuel: "electric", exhaust: "vented" } });
    expect(lineOf(bare, "rigid duct")?.open).toBe("venting.duct.straight");
    expect(lineOf(bare, "elbow")?.open).toBe("venting.duct.elbows");
    const ventless = takeOff({ site: { id: "A" }, machine: { kind: "dryer", fuel: "electric", exhaust: "ventless" } });
    expect(ventless.lines.filter(({ trade }) => trade === "venting")).toEqual([]);
  });
});

describe("water", () => {
  // common practice: two washers a hose; a steam dryer takes a Y, a short hose of 2 ft and one of 5 ft
  test("a steam dryer has a Y, a short hose and a long one", () => {
    const taken = takeOff({
      site: { id: "A" },
      machine: { kind: "dryer", fuel: "electric", exhaust: "ventless", steam: true },
    });
    expect(brief(taken, "Y for")).toEqual(["bring", 1, null]);
    expect(brief(taken, "short water hose")).toEqual(["bring", 1, "2 ft"]);
    expect(brief(taken, "water hose")).toEqual(["bring", 1, "5 ft"]);
    expect(brief(taken, "hose washer")).toEqual(["bring", 4, null]);
  });

  test("a hose that is too short is replaced by one that is long enough, not by its like", () => {
    expect(brief(takeOff(sample("alder-row-17")), "water hose")).toEqual(["bring", 1, "at least 5 ft 2 in"]);
  });

  test.each([
    ["cold", 1, 2],
    ["hot", 1, 2],
    ["both", 2, 4],
  ] as const)("a washer on %s water has %i hoses and %i washers", (supply, hoses, washers) => {
    const taken = takeOff({ site: { id: "A" }, machine: { kind: "washer", fuel: "none", supply } });
    expect([lineOf(taken, "water hose")?.count, lineOf(taken, "hose washer")?.count]).toEqual([hoses, washers]);
  });

  test("a washer of which nobody said the water is open there", () => {
    expect(lineOf(takeOff({ site: { id: "A" }, machine: { kind: "washer", fuel: "none" } }), "water hose")?.open).toBe(
      "machine.supply",
    );
  });

  test("what a rule misses is brought: a pan, an arrester", () => {
    expect(lineOf(takeOff(sample("fern-court-5")), "drain pan")?.from).toEqual(["plumbing/drain-pan"]);
    expect(lineOf(takeOff(sample("alder-row-23")), "water-hammer arrester")?.from).toEqual(["plumbing/surge"]);
  });
});

describe("gas, power and footing", () => {
  test("gas brings a connector, sealant, leak solution and a manometer; without gas there is none", () => {
    const gas = takeOff({ site: { id: "A" }, machine: { kind: "range", fuel: "propane" } });
    for (const what of ["gas connector", "sealant", "leak-test", "manometer", "anti-tip"])
      expect([what, lineOf(gas, what) !== undefined]).toEqual([what, true]);
    const electric = takeOff({ site: { id: "A" }, machine: { kind: "range", fuel: "electric" } });
    for (const what of ["gas connector", "sealant", "leak-test", "manometer"])
      expect(lineOf(electric, what)).toBeUndefined();
  });

  test("no trap is there, so one is brought", () => {
    expect(lineOf(takeOff(sample("larch-hill-1")), "tee, nipple")?.supply).toBe("bring");
  });

  test("a cord that will not do is not brought again by its own size", () => {
    expect(brief(takeOff(sample("alder-row-15")), "power cord")).toEqual(["bring", 1, null]);
  });

  test("a hard-wired machine has no cord, and a torque driver", () => {
    const taken = takeOff({
      site: { id: "A" },
      machine: { kind: "range", fuel: "electric" },
      electrical: { hardWired: true },
    });
    expect(lineOf(taken, "power cord")).toBeUndefined();
    expect(lineOf(taken, "torque driver")?.kind).toBe("tool");
  });

  test("shims are counted by thickness", () => {
    const shims = takeOff(sample("alder-row-21")).lines.filter(({ what }) => what === "shim");
    expect(shims.map(({ size, count }) => [size, count])).toEqual([
      ["1/16 in", 2],
      ["1/8 in", 1],
      ["1/4 in", 1],
    ]);
  });

  test("a stacked pair has its kit", () => {
    expect(
      lineOf(takeOff({ site: { id: "A" }, machine: { kind: "stack", fuel: "electric" } }), "stacking kit")?.count,
    ).toBe(1);
  });

  test("sizes are in the reader's units", () => {
    expect(lineOf(takeOff(sample("alder-row-01"), { units: "si" }), "rigid duct")?.size).toMatch(/m straight$/);
  });
});

describe("on paper", () => {
  const taken = takeOff(sample("alder-row-05"));

  test("the text has what to bring first", () => {
    const lines = takeOffText(taken).split("\n");
    expect(lines.slice(0, 3)).toEqual(["Parts and tools: Alder Row 5", "", "Bring"]);
    expect(lines).toContain("    5 x duct support");
    expect(lines.indexOf("There already")).toBeGreaterThan(lines.indexOf("Bring"));
  });

  test("CSV is read back by another reader, cell by cell", () => {
    const rows = parse(takeOffCsv(taken), { columns: true }) as Record<string, string>[];
    expect(rows.map(({ what }) => what)).toEqual(taken.lines.map(({ what }) => what));
    expect(rows.map(({ count }) => count)).toEqual(
      taken.lines.map(({ count }) => (count === null ? "" : String(count))),
    );
  });

  test("no cell is a formula", () => {
    for (const start of ["=1+1", "+1", "-1", "@x", "\t=1", "\r=1"]) {
      expect(csvCell(start).replace(/^"/, "")).toMatch(/^'/);
      expect(takeOffCsv({ ...taken, site: start }).split("\r\n")[1]).toMatch(/^"?'/);
    }
    expect(csvCell('a "b", c')).toBe('"a ""b"", c"');
  });

  test("a site's name is text in Markdown", () => {
    expect(takeOffMarkdown({ ...taken, site: "<script>x</script>" }).split("\n")[0]).not.toMatch(/(?<!\\)</);
    expect(takeOffMarkdown(taken)).toContain("- [ ] 5 x duct support");
  });
});

describe("dryfit parts", () => {
  const files = { "a.json": JSON.stringify(sample("alder-row-01")) };

  test.each(["text", "markdown", "csv", "json"])("as %s", async (format) => {
    const ran = await dryfit(["parts", "a.json", "--format", format], { files });
    expect([ran.code, ran.err]).toEqual([0, ""]);
    expect(ran.out).toContain("clamp for the transition duct");
  });

  test.each([
    ['{"site":{"id":"A"},"machine":{"kind":"dryer","fuel":"electric"}}', 2],
    ["{", 3],
    ['{"site":{"id":"A"}}', 3],
  ])("of %s ends with %i", async (text, code) => {
    expect((await dryfit(["parts", "a.json"], { files: { "a.json": text } })).code).toBe(code);
  });
});
