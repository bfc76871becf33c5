import * as z from "zod";
import { brand, type Length, si } from "../core/quantity/index.js";
import { defineRule, type Proposal, quantity, type Read } from "../core/rule/index.js";
import { makerElbowCount, ventilatorSheet } from "./basis.js";
import { developedLength, elbowInput, reckon, tableAngle } from "./developed.js";
import { dryerFacts, noDuctExamples, noDuctMessages, withoutDuct } from "./dryer.js";
import { type CodeLength, codeLength, plainLength } from "./lengths.js";
import { ductBaseLength, elbowAllowance, elbowsIncluded, ventilatorTaken } from "./limits.js";
import { type ElbowRadius, elbowRadii } from "./tables/elbows.js";

const chartRow = z.strictObject({
  elbows: z.int().min(0).max(20).describe("Number of 90° elbows the row is for"),
  straight: quantity("length", { max: [500, "ft"] }).describe("Longest straight rigid duct printed for them"),
});

export const ductLengthInput = z.strictObject({
  ...dryerFacts,
  straight: quantity("length", { max: [500, "ft"] })
    .optional()
    .describe("All straight duct added up along its centreline, from the transition duct to the outlet hood"),
  elbows: z.array(elbowInput).max(20).optional().describe("Elbows of the run by kind; an empty list where it has none"),
  chart: z
    .array(chartRow)
    .min(1)
    .max(20)
    .optional()
    .describe("The dryer maker's exhaust chart for rigid duct and the hood fitted, row by row as printed"),
  ventilator: z
    .strictObject({
      listed: z.boolean().optional().describe("Whether it is listed to UL 705 for dryer exhaust ducts"),
      longest: quantity("length", { max: [500, "ft"] })
        .optional()
        .describe("Longest equivalent length its own instructions allow"),
    })
    .optional()
    .describe("A power ventilator in the dryer's duct; leave out where there is none"),
});

/**
 * How many more elbows of one kind fit into the length that is left, a whole number.
 *
 * @param left - length left [m]; none fit where it is negative
 * @param each - deduction for one [m], above 0
 * @example furtherElbows(codeLength(si(7, "ft")), codeLength(si(1.75, "ft"))) // 4
 */
export function furtherElbows(left: CodeLength, each: CodeLength): number {
  return left <= 0 ? 0 : Math.floor((left / each) * (1 + 1e-9));
}

type Input = Read<z.output<typeof ductLengthInput>>;
type Elbows = NonNullable<Input["elbows"]>;

/** 90° elbows as a maker's chart counts them: two up to 45° make one. */
const chartElbows = (elbows: Elbows): number => {
  const count = (row: 45 | 90) =>
    elbows.reduce((sum, { angle, count }) => sum + (tableAngle(angle) === row ? count : 0), 0);
  return count(90) + Math.ceil(count(45) / 2);
};

/** Puts elbows of the given radius in place of all. */
function withRadius(elbows: Elbows, radius: ElbowRadius): Elbows {
  return elbows.map((elbow) => ({ ...elbow, radius }));
}

const remedies = {
  longRadius: "Use {radius:text} elbows in place of the others.",
  fewerElbows: "Take out one 90° elbow.",
  shorten: "Shorten the straight duct to {straight:length}.",
} as const;

/** The dryer's exhaust duct is no longer than allowed. A rule; its page is `docs/rules/venting/duct-length.md`. */
export const ductLength = defineRule({
  id: "venting/duct-length",
  title: "The dryer's exhaust duct is no longer than allowed",
  since: "0.1.0",
  input: ductLengthInput,
  basis: [],
  limits: [ductBaseLength, elbowAllowance, elbowsIncluded, ventilatorTaken],
  messages: {
    pass: {
      within: "The duct's developed length of {developed:length} is within the {allowed:length} allowed.",
      withinChart:
        "The {straight:length} of straight duct with {elbows:count} elbows is within the {allowed:length} of the dryer maker's chart.",
      withinVentilator:
        "The duct's developed length of {developed:length} is within the {allowed:length} that the power ventilator's instructions allow.",
      room: "Left over: {left:length}, enough for one of these: {fits:text}.",
    },
    fail: {
      tooLong:
        "The duct's developed length of {developed:length} is {over:length} more than the {allowed:length} allowed.",
      overChart:
        "The {straight:length} of straight duct with {elbows:count} elbows is {over:length} more than the {allowed:length} of the dryer maker's chart.",
      beyondChart: "The dryer maker's chart ends at {last:count} elbows; this run has {elbows:count}.",
      overVentilator:
        "The duct's developed length of {developed:length} is {over:length} more than the {allowed:length} that the power ventilator's instructions allow.",
      notListed:
        "The fan in the duct is not listed as a dryer exhaust duct power ventilator, so it adds nothing to the length and must come out.",
    },
    review: {
      straightUnknown: "The straight duct was not measured.",
      elbowsUnknown: "The elbows of the run were not listed.",
      ventilatorUnknown: "The listing of the power ventilator and the length its instructions allow are needed.",
      noLimit:
        "No text adopted here gives a longest duct for this dryer; ask the local authority or use the maker's sheet.",
    },
    notApplicable: noDuctMessages,
  },
  remedies,
  cautions: ["fire", "deferral"],
  examples: [
    {
      title: "A run of 18 ft with two ordinary elbows",
      input: { fuel: "electric", straight: "18 ft", elbows: [{ radius: "4 in mitred", angle: "90°", count: 2 }] },
      gives: "within",
    },
    {
      title: "A gas dryer with 28 ft and three elbows",
      input: { fuel: "naturalGas", straight: "28 ft", elbows: [{ radius: "4 in mitred", angle: "90°", count: 3 }] },
      gives: "tooLong",
    },
    {
      title: "Too long by the table, within the maker's chart",
      input: {
        fuel: "electric",
        straight: "42 ft",
        elbows: [{ radius: "4 in mitred", angle: "90°", count: 2 }],
        chart: [
          { elbows: 0, straight: "64 ft" },
          { elbows: 1, straight: "54 ft" },
          { elbows: 2, straight: "44 ft" },
          { elbows: 3, straight: "35 ft" },
        ],
      },
      gives: "withinChart",
    },
    {
      title: "Within the table, too long by the maker's chart",
      input: {
        fuel: "electric",
        straight: "24 ft",
        elbows: [{ radius: "4 in mitred", angle: "90°", count: 2 }],
        chart: [{ elbows: 2, straight: "20 ft" }],
      },
      gives: "overChart",
    },
    {
      title: "More elbows than the maker's chart has",
      input: {
        fuel: "electric",
        straight: "9 ft",
        elbows: [{ radius: "4 in mitred", angle: "90°", count: 5 }],
        chart: [{ elbows: 4, straight: "20 ft" }],
      },
      gives: "beyondChart",
    },
    {
      title: "A listed power ventilator for a long run",
      input: { fuel: "electric", straight: "60 ft", elbows: [], ventilator: { listed: true, longest: "120 ft" } },
      gives: "withinVentilator",
    },
    {
      title: "A run too long even for the power ventilator",
      input: { fuel: "electric", straight: "140 ft", elbows: [], ventilator: { listed: true, longest: "120 ft" } },
      gives: "overVentilator",
    },
    {
      title: "An unlisted fan in the duct",
      input: { fuel: "electric", straight: "20 ft", elbows: [], ventilator: { listed: false } },
      gives: "notListed",
    },
    {
      title: "A power ventilator without its sheet",
      input: { fuel: "electric", straight: "60 ft", elbows: [], ventilator: { listed: true } },
      gives: "ventilatorUnknown",
    },
    { title: "Straight duct not measured", input: { fuel: "electric", elbows: [] }, gives: "straightUnknown" },
    { title: "Elbows not listed", input: { fuel: "electric", straight: "12 ft" }, gives: "elbowsUnknown" },
    {
      title: "A fuel-gas text from before the table",
      input: { fuel: "propane", straight: "12 ft", elbows: [] },
      at: { jurisdiction: { adopted: { ifgc: 2006, imc: 2006 }, building: "multifamily" } },
      gives: "noLimit",
    },
    ...noDuctExamples,
  ],
  check({ kind, fuel, exhaust, straight, elbows, chart, ventilator }, ask) {
    const { limit, rest, formula, judge, missing, say, all } = ask;
    const exempt = withoutDuct(kind, exhaust);
    if (exempt) return say(...exempt);
    if (straight === undefined) return missing(["straightUnknown"], ["straight"]);
    if (elbows === undefined) return missing(["elbowsUnknown"], ["elbows"]);
    if (ventilator?.listed === false) return say("notListed");

    const base = limit(ductBaseLength, fuel);
    const takesVentilator = ventilator !== undefined && limit(ventilatorTaken, fuel)?.value === 1;
    if (ventilator && !takesVentilator) {
      ask.assume(
        "The adopted text has no rule for power ventilators: the run is judged as if there were none; ask the authority.",
      );
    }

    // The maker's chart sets the length where the code defers to it; a local length stays beside it.
    let charted = all();
    if (chart && !takesVentilator) {
      const counted = chartElbows(elbows);
      rest(makerElbowCount);
      const rows = chart.toSorted((a, b) => a.elbows - b.elbows);
      const row = rows.find((one) => one.elbows >= counted);
      if (!row) return say("beyondChart", { last: rows.at(-1)!.elbows, elbows: counted });
      const allowed = row.straight;
      const over = brand<"length">(straight - allowed);
      charted = judge({
        kind: "length",
        measured: straight,
        limit: allowed,
        sense: "atMost",
        pass: ["withinChart", { straight, elbows: counted, allowed }],
        fail: ["overChart", { straight, elbows: counted, allowed, over }],
      });
      if (base?.origin !== "local") return charted;
    }
    if (!base && !takesVentilator) return say("noLimit");
    if (base?.origin === "maker" && base.setAside.some(({ candidate }) => candidate.text === "umc")) {
      ask.assume(
        "The uniform code takes the maker's length only where the authority approves it: approval is assumed.",
      );
    }

    const reckoned = reckon(elbows, fuel, ask);
    if (!reckoned) return say("noLimit");
    const { deductions, unused: free } = reckoned;
    const fittings = plainLength(developedLength(brand<"length">(0), deductions));
    const developed = plainLength(developedLength(straight, deductions));
    formula("{developed:length} = {straight:length} + {fittings:length}", { developed, straight, fittings });

    if (ventilator && takesVentilator) {
      const allowed = ventilator.longest;
      const paths = [ventilator.listed === undefined ? "listed" : "", allowed === undefined ? "longest" : ""];
      if (ventilator.listed === undefined || allowed === undefined) {
        const unknown = paths.filter((name) => name !== "").map((name) => ["ventilator", name]);
        return missing(["ventilatorUnknown"], ...unknown);
      }
      rest(ventilatorSheet);
      return judge({
        kind: "length",
        measured: developed,
        limit: allowed,
        sense: "atMost",
        pass: ["withinVentilator", { developed, allowed }],
        fail: ["overVentilator", { developed, allowed, over: brand<"length">(developed - allowed) }],
      });
    }

    const allowed = brand<"length">(base!.value);
    const judged = judge({
      kind: "length",
      measured: developed,
      limit: base!,
      pass: ["within", { developed, allowed }],
      fail: ["tooLong", { developed, allowed, over: brand<"length">(developed - allowed) }],
    });
    const left = brand<"length">(allowed - developed);
    const fits = left > 0 ? elbowsThatFit(left, free) : [];
    return all(judged, charted, fits.length > 0 ? say("room", { left, fits: fits.join(", or ") }) : undefined);

    function elbowsThatFit(spare: Length, unused: number): string[] {
      const fitting: string[] = [];
      for (const radius of elbowRadii) {
        for (const angle of [90, 45] as const) {
          const each = limit(elbowAllowance, fuel, { radius, angle });
          if (!each || each.value <= 0) continue;
          const more =
            furtherElbows(codeLength(spare), codeLength(brand<"length">(each.value))) + (angle === 90 ? unused : 0);
          if (more > 0) fitting.push(`${more} of ${radius} ${angle}°`);
        }
      }
      return fitting;
    }
  },
  mend({ fuel, straight, elbows = [], chart }, at) {
    const proposals: Proposal<typeof remedies>[] = [];
    for (const radius of elbowRadii.slice(1)) {
      const change = withRadius(elbows, radius).map((elbow, i) => ({
        path: ["elbows", i, "radius"],
        value: elbow.radius,
      }));
      if (change.length > 0) proposals.push({ change, say: ["longRadius", { radius }] });
    }
    const right = elbows.findIndex(({ angle, count }) => tableAngle(angle) === 90 && count > 1);
    if (right >= 0) {
      proposals.push({
        change: [{ path: ["elbows", right, "count"], value: elbows[right]!.count - 1 }],
        say: ["fewerElbows"],
      });
    }
    const shorter = straight === undefined ? undefined : shorterStraight();
    if (shorter !== undefined) {
      proposals.push({
        change: [{ path: ["straight"], value: shorter, unit: at.units === "us" ? "ft" : "m" }],
        say: ["shorten", { straight: shorter }],
      });
    }
    return proposals;

    function shorterStraight(): Length | undefined {
      const row = chart?.filter((one) => one.elbows >= chartElbows(elbows)).sort((a, b) => a.elbows - b.elbows)[0];
      if (row) return row.straight;
      const rule = ductLength.run({ fuel, straight: brand<"length">(0), elbows }, at, []);
      const compared = rule.governing.compared;
      const room = compared ? compared.limit - compared.measured : 0;
      // Down to the whole inch, as a duct is cut.
      const cut = Math.floor(room / si(1, "in") + 1e-6) * si(1, "in");
      return cut > 0 ? brand<"length">(cut) : undefined;
    }
  },
});
