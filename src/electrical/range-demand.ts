import * as z from "zod";
import { brand, inUnit } from "../core/quantity/index.js";
import { defineCalculator } from "../core/rule/index.js";
import { necBasis } from "./basis.js";
import { cookingDemand, countOf, type RatedGroup, raisedAverage } from "./demand.js";
import { feederCurrent, feederPhases, mostBetween, ratedGroups, THREE_PHASE_SHARE } from "./feeder.js";
import { feederNeutral } from "./limits-feeder.js";
import { systemInput } from "./system.js";
import { cookingBounds } from "./tables/demand.js";

export const rangeDemandInput = z.strictObject({
  ranges: ratedGroups(30).describe("Ranges, wall ovens and cooktops on the feeder, by rating"),
  phases: feederPhases,
  between: mostBetween,
  system: systemInput.optional(),
});

/**
 * Demand of household cooking appliances on a feeder or service.
 *
 * A calculator; its page is `docs/rules/electrical/range-demand.md`.
 */
export const rangeDemand = defineCalculator({
  id: "electrical/range-demand",
  title: "Demand of household cooking appliances on a feeder or service",
  since: "0.1.0",
  input: rangeDemandInput,
  outputs: {
    count: { kind: "count", what: "Number the table is read with" },
    average: { kind: "power", what: "Average rating, none below 12 kW" },
    byC: { kind: "power", what: "By column C" },
    byColumns: { kind: "power", what: "By columns A and B, larger ones by C" },
    demand: { kind: "power", what: "Demand" },
    neutral: { kind: "power", what: "Demand on the neutral" },
    current: { kind: "current", what: "Line current" },
  },
  basis: [],
  limits: [feederNeutral],
  messages: {
    missing: {
      rangesUnknown: "The ranges, ovens and cooktops on the feeder were not listed.",
      betweenUnknown: "On three phases the largest number between any two of them decides, and was not given.",
    },
    impossible: {
      noCode: "This way of reckoning belongs to the National Electrical Code, which is not adopted here.",
      tooSmall: "An appliance of {rating:power} is too small for the table, which starts above {least:power}.",
      tooLarge: "An appliance of {rating:power} is too large for the table, which ends at {most:power}.",
      betweenTooLarge: "There cannot be {between:count} between two phases where there are {count:count} in all.",
    },
  },
  cautions: ["mains", "deferral"],
  examples: [
    {
      title: "Alder Row: six 12 kW ranges on the feeder of one stair",
      input: { ranges: [{ rating: "12 kW", count: 6 }], system: "120/240 V" },
      gives: "computed",
    },
    { title: "One 14 kW range", input: { ranges: [{ rating: "14 kW", count: 1 }] }, gives: "computed" },
    {
      title: "A 3 kW oven and a 6 kW cooktop",
      input: {
        ranges: [
          { rating: "3 kW", count: 1 },
          { rating: "6 kW", count: 1 },
        ],
      },
      gives: "computed",
    },
    {
      title: "Twelve ranges on three phases, four between each two",
      input: {
        ranges: [{ rating: "11 kW", count: 12 }],
        phases: "three-phase, four wires",
        between: 4,
        system: "208Y/120 V",
      },
      gives: "computed",
    },
    { title: "Nothing listed", input: {}, gives: "rangesUnknown" },
    {
      title: "Three phases, nothing said of how they are joined",
      input: { ranges: [{ rating: "12 kW", count: 6 }], phases: "three-phase, four wires" },
      gives: "betweenUnknown",
    },
    { title: "A hot plate", input: { ranges: [{ rating: "1.5 kW", count: 1 }] }, gives: "tooSmall" },
    { title: "A hotel range", input: { ranges: [{ rating: "28 kW", count: 1 }] }, gives: "tooLarge" },
    {
      title: "More between two phases than there are",
      input: { ranges: [{ rating: "12 kW", count: 3 }], phases: "three-phase, four wires", between: 4 },
      gives: "betweenTooLarge",
    },
    {
      title: "A building under another code",
      input: { ranges: [{ rating: "12 kW", count: 3 }] },
      at: { jurisdiction: { adopted: { iec60364: 2017 } } },
      gives: "noCode",
    },
  ],
  compute(
    { ranges, phases = "single-phase", between, system },
    { assume, at, formula, impossible, limit, missing, rest },
  ) {
    if (at.adopted.nec === undefined) return impossible(["noCode"]);
    // a feeder is nothing to measure for one machine, so no path is named
    if (ranges === undefined) return missing(["rangesUnknown"]);
    const least = brand<"power">(cookingBounds.above_kW * 1000);
    const most = brand<"power">(cookingBounds.most_kW * 1000);
    for (const { rating } of ranges) {
      if (rating <= least) return impossible(["tooSmall", { rating, least }]);
      if (rating > most * (1 + 1e-9)) return impossible(["tooLarge", { rating, most }]);
    }
    const threePhase = phases !== "single-phase";
    const total = countOf(ranges);
    if (threePhase && between === undefined) return missing(["betweenUnknown"], ["between"]);
    if (threePhase && between! > total) return impossible(["betweenTooLarge", { between: between!, count: total }]);
    const edition = at.adopted.nec;
    rest(
      necBasis(
        at,
        edition >= 2026 ? "120.55, Table 120.55" : "220.55, Table 220.55",
        edition >= 2026 ? "memory" : "seen",
        edition >= 2026 ? "Taken as unchanged from 220.55; not seen in this edition." : "Household cooking appliances.",
      ),
    );

    const groups: readonly RatedGroup[] = threePhase ? doubled(ranges, between!) : ranges;
    const average = raisedAverage(groups);
    const { byC, beforeRaise, excess, byColumns, demand: one } = cookingDemand(groups);
    const raise = brand<"ratio">(cookingBounds.raise_percent / 100);
    formula("{byC:power} = {beforeRaise:power} * (1 + {raise:ratio} * {excess:count})", {
      byC,
      beforeRaise,
      raise,
      excess,
    });
    if (byColumns < byC) {
      assume("Columns A and B are each read with the number of appliances in that column, not with the number of all.");
    }
    const demand = brand<"power">(threePhase ? THREE_PHASE_SHARE * one : one);
    if (threePhase) formula("{demand:power} = {one:power} / 2 * 3", { demand, one });
    const share = limit(feederNeutral);
    const neutral = share === undefined ? null : brand<"power">(share.value * demand);
    if (neutral !== null) {
      formula("{neutral:power} = {share:ratio} * {demand:power}", {
        neutral,
        share: brand<"ratio">(share!.value),
        demand,
      });
    }
    return {
      count: countOf(groups),
      average,
      byC,
      byColumns,
      demand,
      neutral,
      current: system === undefined ? null : feederCurrent(demand, system, threePhase),
    };
  },
});

/** Twice the largest number between two phases, of the average rating where they are unequal. */
function doubled(ranges: readonly RatedGroup[], between: number): RatedGroup[] {
  const [first, ...others] = ranges;
  if (others.every(({ rating }) => inUnit(rating, "kW") === inUnit(first!.rating, "kW"))) {
    return [{ rating: first!.rating, count: 2 * between }];
  }
  return [{ rating: raisedAverage(ranges), count: 2 * between }];
}
