import * as z from "zod";
import { brand, type Force, type Frequency, type Length, type Pressure, type Ratio } from "../core/quantity/index.js";
import { defineRule, machineFacts, type Outcome, type Proposal, quantity } from "../core/rule/index.js";
import { floorFrequency, STANDARD_GRAVITY, unbalanceForce } from "../physics/vibration.js";
import { equalMoment, floorNotes, resonance } from "./basis.js";
import { massInput } from "./body.js";
import { feetInput, padInput } from "./feet.js";
import { floorLoad } from "./limits.js";
import { weightOf } from "./rock.js";

export const floorInput = z.strictObject({
  kind: machineFacts.kind,
  floor: z
    .enum(["slab on ground", "joists"])
    .optional()
    .describe("What the machine stands on: a slab on the ground, or a floor on joists"),
  room: z
    .enum(["sleeping", "other", "garage"])
    .optional()
    .describe("Which room it is, for the load its floor is designed for; other where left out"),
  mass: massInput,
  contents: quantity("mass", { max: [500, "kg"] })
    .optional()
    .describe("Mass of what it holds at its fullest: water, laundry, food"),
  joists: z
    .strictObject({
      span: quantity("length", { min: [1, "ft"], max: [60, "ft"] })
        .optional()
        .describe("Clear span of the joists under it"),
      spacing: quantity("length", { min: [3, "in"], max: [8, "ft"] })
        .optional()
        .describe("Distance of the joists from middle to middle"),
      count: z.int().min(1).max(20).optional().describe("How many joists carry its feet"),
      sag: quantity("length", { min: [0.01, "mm"], max: [6, "in"] })
        .optional()
        .describe("How far the joists sag at midspan under all that they carry now"),
      girderSag: quantity("length", { max: [6, "in"] })
        .optional()
        .describe("How far the girder that carries the joists sags; nothing where they bear on walls"),
    })
    .optional()
    .describe("The joists under the machine"),
  pad: padInput,
  covering: quantity("pressure", { min: [1, "kPa"], max: [100, "MPa"] })
    .optional()
    .describe("Pressure the floor covering may take, from its maker"),
  spin: z
    .strictObject({
      speed: quantity("frequency", { min: [1, "rpm"], max: [5000, "rpm"] })
        .optional()
        .describe("Speed of the spin, from the sheet"),
      unbalance: quantity("mass", { max: [20, "kg"] })
        .optional()
        .describe("Mass of the laundry that lies off centre, where the sheet gives one"),
      radius: quantity("length", { max: [2, "ft"] })
        .optional()
        .describe("Radius of the drum"),
    })
    .optional()
    .describe("How a washer spins"),
  slope: quantity("slope", { max: [0.2, "m/m"] })
    .optional()
    .describe("Slope of the floor toward a drain, where there is one"),
  runs: z.enum(["front to back", "side to side"]).optional().describe("Which way that slope runs under the machine"),
  feet: feetInput,
  travel: quantity("length", { max: [12, "in"] })
    .optional()
    .describe("How far its feet can be screwed out"),
});

/**
 * Weight at midspan that bends joists as much as the load they are designed for [N].
 *
 * P = w·s·L/2 for each joist that carries it, since P·L/4 = w·s·L²/8.
 *
 * @param load - w, design load of the floor [Pa]
 * @param spacing - s of the joists [m]
 * @param span - L of the joists [m]
 * @param count - joists that carry it together
 * @basis beam statics
 * @example weightForJoists(si(40, "psf"), si(16, "in"), si(12, "ft"), 2) // 2846.8618
 */
export function weightForJoists(load: Pressure, spacing: Length, span: Length, count: number): Force {
  return brand<"force">((load * spacing * span * count) / 2);
}

/**
 * Pressure under one of four feet [Pa]: a quarter of the weight on the round pad.
 *
 * @param weight - of the machine [N]
 * @param pad - diameter of the pad, above 0 [m]
 * @example padPressure(si(300, "lbf"), si(1.5, "in")) // 292622.5879
 */
export function padPressure(weight: Force, pad: Length): Pressure {
  return brand<"pressure">(weight / 4 / ((Math.PI * pad ** 2) / 4));
}

/**
 * How far a rhythm is from a floor's own frequency: the larger of the two over the smaller.
 *
 * @param rhythm - of the spin [Hz]
 * @param own - of the floor [Hz]
 * @example separation(si(1200, "rpm"), si(600, "rpm")) // 2
 */
export function separation(rhythm: Frequency, own: Frequency): Ratio {
  return brand<"ratio">(Math.max(rhythm / own, own / rhythm));
}

/** Where a mass on springs stops answering more than the force itself asks: from r = √2 on; see the basis. */
const WELL_APART = Math.SQRT2;

const remedies = {
  spread: "Set it on a stiff platform that reaches {count:count} joists.",
  calmer: "Spin at {speed:spinSpeed} at most.",
} as const;

/** The floor carries the machine and does not answer its spin. A rule; its page is `docs/rules/placement/floor.md`. */
export const floor = defineRule({
  id: "placement/floor",
  title: "The floor carries the machine and does not answer its spin",
  since: "0.1.0",
  input: floorInput,
  basis: [],
  limits: [floorLoad],
  messages: {
    pass: {
      slab: "A slab on the ground carries it and does not swing.",
      carries: "The joists are designed for {allowed:force} at this spot; the full machine weighs {weight:force}.",
      coveringHolds: "Each pad presses with {pressure:pressure}; the covering takes {allowed:pressure}.",
      apart: "The spin at {speed:spinSpeed} is far from the floor's own {own:spinSpeed}.",
      unbalance:
        "Inside the drum the unbalance pulls with {force:force}; the suspension passes on a part of it, most while running up.",
      feetReach: "The slope makes {drop:inches} of difference between the feet, of {travel:inches} they can travel.",
      noSpin: "It does not spin.",
    },
    fail: {
      overloaded:
        "The full machine weighs {weight:force}, {over:force} more than the {allowed:force} these joists are designed for at this spot.",
      coveringYields: "Each pad presses with {pressure:pressure}, more than the {allowed:pressure} the covering takes.",
      near: "The spin at {speed:spinSpeed} is near the floor's own {own:spinSpeed}: floor and machine will shake.",
      feetShort:
        "The slope makes {drop:inches} of difference between the feet, {lack:inches} more than the {travel:inches} they can travel.",
    },
    review: {
      floorUnknown: "What the machine stands on was not noted: a slab on the ground, or joists.",
      massUnknown: "The mass of the machine is not known.",
      joistsUnknown: "Span and spacing of the joists, or how many carry the machine, were not measured.",
      padUnknown: "The diameter of a foot's pad was not measured.",
      spinUnknown: "The speed of the spin is not known.",
      sagUnknown: "How far the joists sag is not known: measure it with a string, or have it worked out.",
      slopeUnknown: "Which way the slope runs, the distance of the feet that way, or their travel was not measured.",
    },
  },
  remedies,
  cautions: ["lifting", "deferral"],
  examples: [
    {
      title: "A washer on joists",
      input: {
        kind: "washer",
        floor: "joists",
        mass: "200 lb",
        contents: "100 lb",
        joists: { span: "12 ft", spacing: "16 in", count: 2, sag: "0.05 in" },
        spin: { speed: "1400 rpm", unbalance: "0.5 kg", radius: "0.25 m" },
      },
      gives: "carries",
    },
    {
      title: "A stacked pair on one joist of a bedroom",
      input: {
        kind: "stack",
        floor: "joists",
        room: "sleeping",
        mass: "305 lb",
        contents: "90 lb",
        joists: { span: "13 ft", spacing: "16 in", count: 1, sag: "0.1 in" },
        spin: { speed: "750 rpm" },
      },
      gives: "overloaded",
    },
    {
      title: "A spin that meets the floor",
      input: {
        kind: "washer",
        floor: "joists",
        mass: "200 lb",
        joists: { span: "12 ft", spacing: "16 in", count: 2, sag: "0.05 in" },
        spin: { speed: "1000 rpm" },
      },
      gives: "near",
    },
    {
      title: "A dryer on a slab that slopes to the drain",
      input: {
        kind: "dryer",
        floor: "slab on ground",
        mass: "130 lb",
        slope: "1/4 in per ft",
        runs: "front to back",
        feet: { depth: "24 in" },
        travel: "1 in",
        pad: "1 1/2 in",
        covering: "200 psi",
      },
      gives: "slab",
    },
    {
      title: "A slope the feet cannot take up",
      input: {
        kind: "washer",
        floor: "slab on ground",
        mass: "180 lb",
        slope: "1/2 in per ft",
        runs: "side to side",
        feet: { width: "24 in" },
        travel: "7/8 in",
      },
      gives: "feetShort",
    },
    {
      title: "Small pads on soft flooring",
      input: {
        kind: "refrigerator",
        floor: "slab on ground",
        mass: "300 lb",
        pad: "1 in",
        covering: "75 psi",
      },
      gives: "coveringYields",
    },
    {
      title: "A dryer on joists does not spin",
      input: {
        kind: "dryer",
        floor: "joists",
        mass: "130 lb",
        joists: { span: "12 ft", spacing: "16 in", count: 2 },
      },
      gives: "carries",
    },
    { title: "Floor not noted", input: { kind: "washer", mass: "180 lb" }, gives: "floorUnknown" },
    {
      title: "Mass not known",
      input: { kind: "dryer", floor: "joists", joists: { span: "12 ft", spacing: "16 in", count: 2 } },
      gives: "massUnknown",
    },
    {
      title: "Joists not measured",
      input: { kind: "dryer", floor: "joists", mass: "130 lb", joists: { span: "12 ft" } },
      gives: "joistsUnknown",
    },
    {
      title: "Pad not measured",
      input: { kind: "dryer", floor: "slab on ground", mass: "130 lb", covering: "75 psi" },
      gives: "padUnknown",
    },
    {
      title: "Spin not known",
      input: {
        kind: "washer",
        floor: "joists",
        mass: "180 lb",
        joists: { span: "12 ft", spacing: "16 in", count: 2, sag: "0.05 in" },
      },
      gives: "spinUnknown",
    },
    {
      title: "Sag not known",
      input: {
        kind: "washer",
        floor: "joists",
        mass: "180 lb",
        joists: { span: "12 ft", spacing: "16 in", count: 2 },
        spin: { speed: "1200 rpm" },
      },
      gives: "sagUnknown",
    },
    {
      title: "Direction of the slope not noted",
      input: { kind: "dryer", floor: "slab on ground", slope: "1/4 in per ft" },
      gives: "slopeUnknown",
    },
  ],
  check(input, { limit, judge, say, missing, all, formula, rest, assume }) {
    const {
      kind,
      floor: under,
      mass,
      contents,
      joists = {},
      pad,
      covering,
      spin = {},
      slope,
      runs,
      feet,
      travel,
    } = input;
    if (under === undefined) return missing(["floorUnknown"], ["floor"]);
    const weight = mass === undefined ? undefined : weightOf(brand<"mass">(mass + (contents ?? 0)));

    const load = (): Outcome => {
      if (under === "slab on ground") return say("slab");
      if (weight === undefined) return missing(["massUnknown"], ["mass"]);
      const { span, spacing, count } = joists;
      if (span === undefined || spacing === undefined || count === undefined) {
        const paths = (["span", "spacing", "count"] as const).filter((field) => joists[field] === undefined);
        return missing(["joistsUnknown"], ...paths.map((field) => ["joists", field]));
      }
      if (contents === undefined) assume("Water and laundry in the machine were not counted.");
      if (input.room === undefined)
        assume("The room was not named: one that is neither for sleeping nor a garage is assumed.");
      rest(equalMoment);
      const design = brand<"pressure">(limit(floorLoad, "none", { room: input.room ?? "other" })!.value);
      const allowed = weightForJoists(design, spacing, span, count);
      formula("{allowed:force} = {load:floorLoad} * {spacing:inches} * {span:length} * {joists:count} / 2", {
        allowed,
        load: design,
        spacing,
        span,
        joists: count,
      });
      return judge({
        kind: "force",
        measured: weight,
        limit: allowed,
        sense: "atMost",
        pass: ["carries", { weight, allowed }],
        fail: ["overloaded", { weight, allowed, over: brand<"force">(weight - allowed) }],
      });
    };

    const pads = (): Outcome | undefined => {
      if (covering === undefined) return undefined;
      if (pad === undefined) return missing(["padUnknown"], ["pad"]);
      if (weight === undefined) return missing(["massUnknown"], ["mass"]);
      const pressure = padPressure(weight, pad);
      formula("{pressure:pressure} = {weight:force} / 4 / (pi * {pad:inches}^2 / 4)", { pressure, weight, pad });
      return judge({
        kind: "pressure",
        measured: pressure,
        limit: covering,
        sense: "atMost",
        pass: ["coveringHolds", { pressure, allowed: covering }],
        fail: ["coveringYields", { pressure, allowed: covering }],
      });
    };

    const shaking = (): Outcome | undefined => {
      if (under === "slab on ground") return undefined;
      if (kind !== "washer" && kind !== "stack") return say("noSpin");
      const { speed, unbalance, radius } = spin;
      if (speed === undefined) return missing(["spinUnknown"], ["spin", "speed"]);
      if (joists.sag === undefined) return missing(["sagUnknown"], ["joists", "sag"]);
      rest(floorNotes);
      rest(resonance);
      const girder = joists.girderSag ?? brand<"length">(0);
      const own = floorFrequency(joists.sag, girder);
      formula(
        "{own:frequency} = 0.18 * sqrt({gravity:number} * (1 m/s^2) / ({joists:thickness} + {girder:thickness}))",
        {
          own,
          gravity: STANDARD_GRAVITY,
          joists: joists.sag,
          girder,
        },
      );
      const outcome = judge({
        kind: "number",
        measured: separation(speed, own),
        limit: WELL_APART,
        sense: "atLeast",
        pass: ["apart", { speed, own }],
        fail: ["near", { speed, own }],
      });
      if (unbalance === undefined || radius === undefined) return outcome;
      const force = unbalanceForce(unbalance, radius, speed);
      formula("{force:force} = {unbalance:mass} * {radius:inches} * (2 * pi * {speed:frequency})^2", {
        force,
        unbalance,
        radius,
        speed,
      });
      return all(outcome, say("unbalance", { force }));
    };

    const sloping = (): Outcome | undefined => {
      if (slope === undefined) return undefined;
      const apart = runs === undefined ? undefined : runs === "front to back" ? feet?.depth : feet?.width;
      if (apart === undefined || travel === undefined) {
        const side = runs === "side to side" ? "width" : "depth";
        return missing(
          ["slopeUnknown"],
          ...(runs === undefined ? [["runs"]] : []),
          ...(apart === undefined ? [["feet", side]] : []),
          ...(travel === undefined ? [["travel"]] : []),
        );
      }
      const drop = brand<"length">(slope * apart);
      formula("{drop:inches} = {slope:slope} * {feet:inches}", { drop, slope, feet: apart });
      return judge({
        kind: "inches",
        measured: drop,
        limit: travel,
        sense: "atMost",
        pass: ["feetReach", { drop, travel }],
        fail: ["feetShort", { drop, travel, lack: brand<"length">(drop - travel) }],
      });
    };

    return all(load(), pads(), shaking(), sloping());
  },
  mend({ joists = {}, spin = {} }) {
    const proposals: Proposal<typeof remedies>[] = [];
    const { count, sag, girderSag } = joists;
    const calm =
      spin.speed !== undefined && sag !== undefined
        ? brand<"frequency">(floorFrequency(sag, girderSag ?? brand<"length">(0)) / WELL_APART)
        : undefined;
    const slower =
      calm !== undefined && spin.speed !== undefined && calm < spin.speed
        ? [{ path: ["spin", "speed"], value: calm, unit: "rpm" } as const]
        : [];
    if (slower.length > 0) proposals.push({ change: slower, say: ["calmer", { speed: calm! }] });
    for (let more = 1; count !== undefined && more <= 2; more++)
      proposals.push({
        change: [{ path: ["joists", "count"], value: count + more }],
        say: ["spread", { count: count + more }],
      });
    return proposals;
  },
});
