import * as z from "zod";
import { brand, type Power, showNumber } from "../core/quantity/index.js";
import { defineCalculator } from "../core/rule/index.js";
import { necBasis } from "./basis.js";
import { connectedDryers, countOf, dryerFactor, dryerFactor2026 } from "./demand.js";
import { feederCurrent, feederPhases, mostBetween, ratedGroups, THREE_PHASE_SHARE } from "./feeder.js";
import { feederNeutral } from "./limits-feeder.js";
import { systemInput } from "./system.js";
import { dryerFloor_VA } from "./tables/demand.js";

export const dryerDemandInput = z.strictObject({
  dryers: ratedGroups(30).describe("Electric dryers of dwellings on the feeder, by rating"),
  phases: feederPhases,
  between: mostBetween,
  factorBy: z
    .enum(["doubled", "actual"])
    .optional()
    .describe(
      "On three phases: read the factor with twice the number between two phases, or with all; doubled if left out",
    ),
  system: systemInput.optional(),
});

/**
 * Demand of household dryers on a feeder or service.
 *
 * A calculator; its page is `docs/rules/electrical/dryer-demand.md`.
 */
export const dryerDemand = defineCalculator({
  id: "electrical/dryer-demand",
  title: "Demand of household dryers on a feeder or service",
  since: "0.1.0",
  input: dryerDemandInput,
  outputs: {
    connected: { kind: "apparentPower", what: "Connected load, none below 5000 VA" },
    factor: { kind: "ratio", what: "Demand factor" },
    demand: { kind: "apparentPower", what: "Demand" },
    neutral: { kind: "apparentPower", what: "Demand on the neutral" },
    current: { kind: "current", what: "Line current" },
  },
  basis: [],
  limits: [feederNeutral],
  messages: {
    missing: {
      dryersUnknown: "The dryers on the feeder were not listed.",
      betweenUnknown: "On three phases the largest number between any two of them decides, and was not given.",
    },
    impossible: {
      noCode: "This way of reckoning belongs to the National Electrical Code, which is not adopted here.",
      noRow: "The 2026 table was seen for up to 5 dryers and for 43 and more, not for {count:count}; look it up.",
      betweenTooLarge: "There cannot be {between:count} between two phases where there are {count:count} in all.",
    },
  },
  cautions: ["mains", "deferral"],
  examples: [
    {
      title: "Alder Row: eight 5.4 kW dryers on one feeder",
      input: { dryers: [{ rating: "5.4 kW", count: 8 }], system: "120/240 V" },
      gives: "computed",
    },
    { title: "One compact dryer", input: { dryers: [{ rating: "4 kW", count: 1 }] }, gives: "computed" },
    {
      title: "Twenty dryers on three phases: 6, 6 and 8",
      input: {
        dryers: [{ rating: "5 kW", count: 20 }],
        phases: "three-phase, four wires",
        between: 8,
        system: "208Y/120 V",
      },
      gives: "computed",
    },
    {
      title: "Four dryers under the edition of 2026",
      input: { dryers: [{ rating: "5.4 kW", count: 4 }] },
      at: { jurisdiction: { adopted: { nec: 2026 } } },
      gives: "computed",
    },
    {
      title: "Eight of them under the edition of 2026",
      input: { dryers: [{ rating: "5.4 kW", count: 8 }] },
      at: { jurisdiction: { adopted: { nec: 2026 } } },
      gives: "noRow",
    },
    { title: "Nothing listed", input: {}, gives: "dryersUnknown" },
    {
      title: "Three phases, nothing said of how they are joined",
      input: { dryers: [{ rating: "5 kW", count: 6 }], phases: "three-phase, four wires" },
      gives: "betweenUnknown",
    },
    {
      title: "More between two phases than there are",
      input: { dryers: [{ rating: "5 kW", count: 3 }], phases: "three-phase, four wires", between: 4 },
      gives: "betweenTooLarge",
    },
    {
      title: "A building under another code",
      input: { dryers: [{ rating: "5 kW", count: 3 }] },
      at: { jurisdiction: { adopted: { iec60364: 2017 } } },
      gives: "noCode",
    },
  ],
  compute(input, { assume, at, formula, impossible, limit, missing, rest }) {
    const { dryers, phases = "single-phase", between, factorBy = "doubled", system } = input;
    const edition = at.adopted.nec;
    if (edition === undefined) return impossible(["noCode"]);
    // a feeder is nothing to measure for one machine, so no path is named
    if (dryers === undefined) return missing(["dryersUnknown"]);
    const threePhase = phases !== "single-phase";
    const total = countOf(dryers);
    if (threePhase && between === undefined) return missing(["betweenUnknown"], ["between"]);
    if (threePhase && between! > total) return impossible(["betweenTooLarge", { between: between!, count: total }]);

    const all = connectedDryers(dryers);
    const counted = threePhase ? 2 * between! : total;
    const connected: Power = threePhase ? brand<"power">((all / total) * counted) : all;
    if (dryers.length === 1) {
      const each = brand<"power">(connected / counted);
      formula("{connected:apparentPower} = {counted:count} * {each:apparentPower}", { connected, counted, each });
    }
    if (dryers.some(({ rating }) => rating < dryerFloor_VA)) {
      assume(
        "A dryer of less than 5000 VA is taken at that; this holds for feeders and services, not for its circuit.",
      );
    }
    if (threePhase && dryers.length > 1) {
      assume("The dryers between any two phases are taken at the average rating of all.");
    }
    const number = threePhase && factorBy === "actual" ? total : counted;
    const found = edition >= 2026 ? dryerFactor2026(number) : dryerFactor(number);
    if (found === undefined) return impossible(["noRow", { count: number }]);
    const section = edition >= 2026 ? "120.54, Table 120.54" : "220.54, Table 220.54";
    rest(
      necBasis(at, section, edition >= 2026 ? "secondary" : "seen", `${number} dryers: ${showNumber(100 * found)} %.`),
    );
    if (threePhase) assume(`The factor is read with ${number} dryers; training pages disagree on which number it is.`);
    const factor = brand<"ratio">(found);
    const one = brand<"power">(connected * factor);
    const demand = brand<"power">(threePhase ? THREE_PHASE_SHARE * one : one);
    if (threePhase) {
      formula("{demand:apparentPower} = {connected:apparentPower} * {factor:ratio} / 2 * 3", {
        demand,
        connected,
        factor,
      });
    } else
      formula("{demand:apparentPower} = {connected:apparentPower} * {factor:ratio}", { demand, connected, factor });
    const share = limit(feederNeutral);
    const neutral = share === undefined ? null : brand<"power">(share.value * demand);
    return {
      connected,
      factor,
      demand,
      neutral,
      current: system === undefined ? null : feederCurrent(demand, system, threePhase),
    };
  },
});
