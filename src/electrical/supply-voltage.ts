import * as z from "zod";
import { brand, type Voltage } from "../core/quantity/index.js";
import { defineRule, type Outcome, quantity } from "../core/rule/index.js";
import { plateBasis } from "./basis.js";
import { dropMost, machineVoltageLeast, machineVoltageMost } from "./limits.js";
import { plateInput } from "./plate.js";
import { belongsBetween, nominalVoltage, systemInput } from "./system.js";
import {
  iecSupplyBasis,
  iecSupplyRange,
  serviceRangeBasis,
  utilizationRangeBasis,
  voltageRanges,
} from "./tables/voltage-ranges.js";

const reading = quantity("voltage", { max: [700, "V"] }).optional();

export const supplyVoltageInput = z.strictObject({
  plate: plateInput.optional().describe("What the machine's plate says of its electrics"),
  system: systemInput.optional(),
  noLoad: reading.describe(
    "Voltage at the receptacle with this machine off, between the two lines, or line and neutral for a 120 V or 230 V machine",
  ),
  loaded: reading.describe("The same with the machine at full heat"),
  legs: z
    .strictObject({
      one: reading.describe("Voltage from one line to neutral with the machine running"),
      two: reading.describe("Voltage from the other line to neutral at the same time"),
    })
    .optional()
    .describe("Both lines against the neutral, for a machine that uses it; unequal legs tell of a loose neutral"),
});

/** Least and most voltages of a nominal voltage [V]. */
interface Bounds {
  readonly serviceLeast: number;
  readonly serviceMost: number;
  readonly runningLeast: number;
}

/** The usual and the short-time bounds of a nominal voltage, or `undefined` where the tables have none. */
function boundsOf(nominal: Voltage): { readonly usual: Bounds; readonly shortTime: Bounds } | undefined {
  const row = (range: "A" | "B"): Bounds | undefined => {
    const found = voltageRanges.find((one) => one.nominal_V === nominal && one.range === range);
    return (
      found && {
        serviceLeast: found.serviceLeast_V,
        serviceMost: found.serviceMost_V,
        runningLeast: found.utilizationLeast_V,
      }
    );
  };
  const usual = row("A");
  const shortTime = row("B");
  return usual && shortTime && { usual, shortTime };
}

const fails = (outcome: Outcome): boolean => outcome.some(({ verdict }) => verdict === "fail");
const passes = (outcome: Outcome): boolean => outcome.every(({ verdict }) => verdict === "pass");

/**
 * The voltage at the machine is what supply and machine are made for.
 *
 * A rule; its page is `docs/rules/electrical/supply-voltage.md`.
 */
export const supplyVoltage = defineRule({
  id: "electrical/supply-voltage",
  title: "The voltage at the machine is what supply and machine are made for",
  since: "0.1.0",
  input: supplyVoltageInput,
  basis: [],
  limits: [machineVoltageLeast, machineVoltageMost, dropMost],
  messages: {
    pass: {
      idleWithin: "The {volts:voltage} with the machine off is within {least:voltage} to {most:voltage}.",
      runningWithin: "The {volts:voltage} with the machine running is not below {least:voltage}.",
      dropWithin: "The voltage falls by {drop:voltage} when the machine runs, {share:ratio} of {nominal:voltage}.",
      legWithin: "A leg of {volts:voltage} to neutral is within {least:voltage} to {most:voltage}.",
      machineSuits: "The {volts:voltage} suits a machine made for {rated:voltage}.",
    },
    fail: {
      idleLow: "The {volts:voltage} with the machine off is below the {least:voltage} a supply must never fall under.",
      idleHigh: "The {volts:voltage} with the machine off is above the {most:voltage} a supply must never exceed.",
      runningLow: "The {volts:voltage} with the machine running is below the {least:voltage} it can live with.",
      dropTooLarge:
        "The voltage falls by {drop:voltage} when the machine runs, {share:ratio} of {nominal:voltage}; it should be at most {most:ratio}. Look for a loose joint or a run too thin for its length.",
      legLow:
        "A leg of {volts:voltage} to neutral is below {least:voltage}. Switch the machine off and look for a loose neutral.",
      legHigh:
        "A leg of {volts:voltage} to neutral is above {most:voltage}. Switch everything off: a neutral that is loose puts too much on this leg.",
      machineLow:
        "The {volts:voltage} is too low for a machine made for {rated:voltage}: it wants at least {least:voltage}.",
      machineHigh:
        "The {volts:voltage} is too high for a machine made for {rated:voltage}: it takes at most {most:voltage}.",
    },
    review: {
      idleShortTime:
        "The {volts:voltage} with the machine off is outside {least:voltage} to {most:voltage}, which a supply may leave only for short times. Read it again at another hour; if it stays there, call the utility.",
      runningShortTime:
        "The {volts:voltage} with the machine running is below {least:voltage}, which is right only for short times. Read it again at another hour.",
      systemUnknown: "The supply system of the building is not known.",
      idleUnknown: "The voltage with the machine off was not measured.",
      runningUnknown: "The voltage with the machine running was not measured, so joints and wire are untried.",
      plateUnknown: "The voltage on the machine's plate was not noted.",
      crossed: "The voltage rises when the machine runs; check which reading is which, and the neutral.",
    },
  },
  cautions: ["mains", "deferral"],
  examples: [
    {
      title: "A healthy 240 V laundry circuit",
      input: { plate: { voltage: "240 V" }, system: "120/240 V", noLoad: "243 V", loaded: "238 V" },
      gives: "idleWithin",
    },
    {
      title: "The same, looked at while it runs",
      input: { plate: { voltage: "240 V" }, system: "120/240 V", noLoad: "243 V", loaded: "238 V" },
      gives: "runningWithin",
    },
    {
      title: "The same, the drop",
      input: { plate: { voltage: "240 V" }, system: "120/240 V", noLoad: "243 V", loaded: "238 V" },
      gives: "dropWithin",
    },
    {
      title: "The same, against the plate",
      input: { plate: { voltage: "240 V" }, system: "120/240 V", noLoad: "243 V", loaded: "238 V" },
      gives: "machineSuits",
    },
    {
      title: "Juniper Terrace, a 208 V building: a 240 V dryer falls short",
      input: { plate: { voltage: "240 V" }, system: "208Y/120 V", noLoad: "209 V", loaded: "205 V" },
      gives: "machineLow",
    },
    {
      title: "A small machine for 208 V on a 240 V supply",
      input: { plate: { voltage: "208 V" }, system: "120/240 V", noLoad: "241 V", loaded: "239 V" },
      gives: "machineHigh",
    },
    {
      title: "Number 7 Alder Row: two readings find a bad joint",
      input: { plate: { voltage: "240 V" }, system: "120/240 V", noLoad: "242 V", loaded: "221 V" },
      gives: "dropTooLarge",
    },
    {
      title: "Both legs read against the neutral",
      input: {
        plate: { voltage: "240 V" },
        system: "120/240 V",
        noLoad: "242 V",
        loaded: "238 V",
        legs: { one: "118 V", two: "120 V" },
      },
      gives: "legWithin",
    },
    {
      title: "A loose neutral, seen from the low side",
      input: {
        plate: { voltage: "240 V" },
        system: "120/240 V",
        noLoad: "242 V",
        loaded: "238 V",
        legs: { one: "104 V", two: "134 V" },
      },
      gives: "legLow",
    },
    {
      title: "The same, from the high side",
      input: {
        plate: { voltage: "240 V" },
        system: "120/240 V",
        noLoad: "242 V",
        loaded: "238 V",
        legs: { two: "134 V" },
      },
      gives: "legHigh",
    },
    {
      title: "A supply that sags on a hot evening",
      input: { plate: { voltage: "240 V" }, system: "120/240 V", noLoad: "225 V", loaded: "221 V" },
      gives: "idleShortTime",
    },
    {
      title: "A long feeder, low but not hopeless",
      input: { plate: { voltage: "230 V" }, system: "120/240 V", noLoad: "222 V", loaded: "212 V" },
      gives: "runningShortTime",
    },
    {
      title: "A supply far too low",
      input: { plate: { voltage: "240 V" }, system: "120/240 V", noLoad: "216 V", loaded: "214 V" },
      gives: "idleLow",
    },
    {
      title: "A supply far too high",
      input: { plate: { voltage: "240 V" }, system: "120/240 V", noLoad: "258 V", loaded: "256 V" },
      gives: "idleHigh",
    },
    {
      title: "A line that collapses under load",
      input: { plate: { voltage: "120 V" }, system: "120/240 V", noLoad: "119 V", loaded: "101 V" },
      gives: "runningLow",
    },
    {
      title: "Readings the wrong way round",
      input: { plate: { voltage: "240 V" }, system: "120/240 V", noLoad: "236 V", loaded: "241 V" },
      gives: "crossed",
    },
    { title: "System not known", input: { plate: { voltage: "240 V" }, noLoad: "240 V" }, gives: "systemUnknown" },
    { title: "Nothing measured", input: { plate: { voltage: "240 V" }, system: "120/240 V" }, gives: "idleUnknown" },
    {
      title: "Machine not yet run",
      input: { plate: { voltage: "240 V" }, system: "120/240 V", noLoad: "240 V" },
      gives: "runningUnknown",
    },
    { title: "Plate not read", input: { system: "120/240 V", noLoad: "240 V" }, gives: "plateUnknown" },
    {
      title: "A house on 230 V",
      input: { plate: { voltage: "230 V" }, system: "230/400 V", noLoad: "234 V", loaded: "229 V" },
      at: { jurisdiction: { adopted: { iec60364: 2017 } } },
      gives: "idleWithin",
    },
  ],
  check({ plate, system, noLoad, loaded, legs = {} }, ask) {
    const { all, formula, judge, limit, missing, rest, say } = ask;
    const rated = plate?.voltage;
    if (rated === undefined) return missing(["plateUnknown"], ["plate", "voltage"]);
    if (system === undefined) return missing(["systemUnknown"], ["system"]);
    if (noLoad === undefined) return missing(["idleUnknown"], ["noLoad"]);
    const nominal = nominalVoltage(system, belongsBetween(system, rated));

    const idle = (): Outcome => {
      const between = (least: number, most: number): Outcome => {
        const bounds = { volts: noLoad, least: brand<"voltage">(least), most: brand<"voltage">(most) };
        const low = judge({
          kind: "voltage",
          measured: noLoad,
          limit: least,
          sense: "atLeast",
          pass: ["idleWithin", bounds],
          fail: ["idleLow", bounds],
        });
        const high = judge({
          kind: "voltage",
          measured: noLoad,
          limit: most,
          sense: "atMost",
          pass: ["idleWithin", bounds],
          fail: ["idleHigh", bounds],
        });
        return passes(low) ? high : low;
      };
      const known = boundsOf(nominal);
      if (!known) {
        rest(iecSupplyBasis);
        return between(iecSupplyRange.least * nominal, iecSupplyRange.most * nominal);
      }
      rest(serviceRangeBasis);
      const { usual, shortTime } = known;
      const inUsual = between(usual.serviceLeast, usual.serviceMost);
      const inShortTime = between(shortTime.serviceLeast, shortTime.serviceMost);
      if (!fails(inUsual)) return inUsual;
      if (!passes(inShortTime)) return inShortTime;
      const least = brand<"voltage">(usual.serviceLeast);
      return say("idleShortTime", { volts: noLoad, least, most: brand<"voltage">(usual.serviceMost) });
    };

    const running = (volts: Voltage): Outcome | undefined => {
      const known = boundsOf(nominal);
      if (!known) return undefined;
      rest(utilizationRangeBasis);
      const notBelow = (least: number): Outcome =>
        judge({
          kind: "voltage",
          measured: volts,
          limit: least,
          sense: "atLeast",
          pass: ["runningWithin", { volts, least: brand<"voltage">(least) }],
          fail: ["runningLow", { volts, least: brand<"voltage">(least) }],
        });
      const inUsual = notBelow(known.usual.runningLeast);
      const inShortTime = notBelow(known.shortTime.runningLeast);
      if (!fails(inUsual)) return inUsual;
      if (!passes(inShortTime)) return inShortTime;
      return say("runningShortTime", { volts, least: brand<"voltage">(known.usual.runningLeast) });
    };

    const dropping = (volts: Voltage): Outcome | undefined => {
      const most = limit(dropMost);
      if (!most) return undefined;
      const drop = brand<"voltage">(noLoad - volts);
      const share = brand<"ratio">(drop / nominal);
      formula("{share:ratio} = ({noLoad:voltage} - {loaded:voltage}) / {nominal:voltage}", {
        share,
        noLoad,
        loaded: volts,
        nominal,
      });
      const judged = judge({
        kind: "ratio",
        measured: share,
        limit: most,
        pass: ["dropWithin", { drop, share, nominal }],
        fail: ["dropTooLarge", { drop, share, nominal, most: brand<"ratio">(most.value) }],
      });
      return drop < 0 ? say("crossed") : judged;
    };

    const suits = (volts: Voltage): Outcome => {
      rest(plateBasis);
      const least = brand<"voltage">(limit(machineVoltageLeast)!.value * rated);
      const most = brand<"voltage">(limit(machineVoltageMost)!.value * rated);
      const low = judge({
        kind: "voltage",
        measured: volts,
        limit: least,
        sense: "atLeast",
        pass: ["machineSuits", { volts, rated }],
        fail: ["machineLow", { volts, rated, least }],
      });
      const high = judge({
        kind: "voltage",
        measured: volts,
        limit: most,
        sense: "atMost",
        pass: ["machineSuits", { volts, rated }],
        fail: ["machineHigh", { volts, rated, most }],
      });
      return passes(low) ? high : low;
    };

    const leg = (volts: Voltage | undefined): Outcome | undefined => {
      if (volts === undefined) return undefined;
      const known = boundsOf(nominalVoltage(system, "neutral"));
      if (!known) return undefined;
      rest(serviceRangeBasis);
      const { serviceLeast, serviceMost } = known.shortTime;
      const slots = { volts, least: brand<"voltage">(serviceLeast), most: brand<"voltage">(serviceMost) };
      const low = judge({
        kind: "voltage",
        measured: volts,
        limit: serviceLeast,
        sense: "atLeast",
        pass: ["legWithin", slots],
        fail: ["legLow", slots],
      });
      const high = judge({
        kind: "voltage",
        measured: volts,
        limit: serviceMost,
        sense: "atMost",
        pass: ["legWithin", slots],
        fail: ["legHigh", slots],
      });
      return passes(low) ? high : low;
    };

    return all(
      idle(),
      loaded === undefined ? missing(["runningUnknown"], ["loaded"]) : running(loaded),
      loaded === undefined ? undefined : dropping(loaded),
      suits(loaded ?? noLoad),
      leg(legs.one),
      leg(legs.two),
    );
  },
});
