import * as z from "zod";
import { burns } from "../core/basis/index.js";
import {
  type Angle,
  type Area,
  brand,
  type Force,
  type Length,
  type Pressure,
  type Ratio,
  si,
  type Torque,
} from "../core/quantity/index.js";
import { defineCalculator, machineFacts, quantity } from "../core/rule/index.js";
import { flareTorque, habitOf, hoseThread, rubberStiffness, screwTorque, sealSqueeze, taperThreads } from "./basis.js";
import { brassShare, flareTorqueRows, type Joint, joints, taperMakeUp, turnHabits } from "./tables/joint-turns.js";
import { type ThreadFamily, type ThreadId, threadIds, threadOf } from "./tables/threads.js";
import { blockFactorRows, couplingFriction, staticSqueeze, usualWasher } from "./tables/washer.js";
import { supplyFact, takesWater } from "./water.js";

export const fittingTurnsInput = z.strictObject({
  kind: machineFacts.kind.optional(),
  fuel: machineFacts.fuel.optional(),
  steam: machineFacts.steam,
  supply: supplyFact,
  joint: z
    .enum(joints)
    .optional()
    .describe("What makes the joint tight: a flat washer, a ferrule, a flare, the thread itself, or a push-fit grip"),
  thread: z
    .enum(threadIds)
    .optional()
    .describe("The thread, by gauge or by its name on the part; 3/4-11.5 NH for a hose coupling where left out"),
  metal: z.enum(["brass", "steel"]).optional().describe("Metal of a flare nut and its port; brass where either one is"),
  washerThickness: quantity("length", { min: [1.5, "mm"], max: [8, "mm"] })
    .optional()
    .describe("Thickness of the washer lying free, by caliper; about 1/8 in when new"),
  washerOuter: quantity("length", { min: [20, "mm"], max: [40, "mm"] })
    .optional()
    .describe("Outside diameter of the washer; 1 in where left out"),
  washerInner: quantity("length", { min: [5, "mm"], max: [19, "mm"] })
    .optional()
    .describe("Hole of the washer; 5/8 in where left out"),
  hardness: z.number().min(40).max(75).optional().describe("Shore A hardness of the washer; 70 where left out"),
  handTurn: quantity("angle", { min: [-0.5, "turn"], max: [0.5, "turn"] })
    .optional()
    .describe(
      "Turn from the first touch of the washer to hand-tight, marked with a pen; negative where a stiff thread stops the hand before the washer is touched",
    ),
});

/**
 * Axial travel of a single-start thread [m]: one pitch for every turn.
 *
 * travel = pitch · turns / 2π.
 *
 * @param pitch - pitch of the thread [m]
 * @param turns - angle turned [rad]
 * @example axialTravel(si(25.4 / 11.5, "mm"), si(0.25, "turn")) // 0.00055217
 */
export function axialTravel(pitch: Length, turns: Angle): Length {
  return brand<"length">((pitch * turns) / (2 * Math.PI));
}

/**
 * Squeeze of a washer as a share of its free thickness [-]; 0 where it is not touched.
 *
 * squeeze = travel past first touch / thickness.
 *
 * @param travel - travel past first touch, less than none where the nut has not arrived [m]
 * @param thickness - free thickness, above 0 [m]
 * @example washerSqueeze(si(0.5522, "mm"), si(3.2, "mm")) // 0.17256
 */
export function washerSqueeze(travel: Length, thickness: Length): Ratio {
  return brand<"ratio">(Math.max(0, travel) / thickness);
}

/**
 * Young's modulus of rubber from its Shore A hardness by Gent's relation [Pa].
 *
 * E = 0.0981·(56 + 7.62336·S) / (0.137505·(254 − 2.54·S)) MPa; S from 20 to 80. Real rubbers scatter by a factor of two.
 *
 * @param shoreA - S, hardness
 * @basis A. N. Gent, Rubber Chemistry and Technology 31 (1958), 896 (constants seen in public code)
 * @example gentModulus(70) // 5520507
 */
export function gentModulus(shoreA: number): Pressure {
  return si((0.0981 * (56 + 7.62336 * shoreA)) / (0.137505 * (254 - 2.54 * shoreA)), "MPa");
}

/**
 * Young's modulus of rubber from its Shore A hardness by the logarithmic rule [Pa], nearly twice {@link gentModulus}.
 *
 * log₁₀(E/MPa) = 0.0235·S − 0.6403.
 *
 * @param shoreA - S, hardness, 20 to 80
 * @basis published trade rule, secondary
 * @example logModulus(70) // 10108809
 */
export function logModulus(shoreA: number): Pressure {
  return si(10 ** (0.0235 * shoreA - 0.6403), "MPa");
}

/** Block factor k at a hardness: straight lines between the printed rows. */
function blockFactor(shoreA: number): number {
  const at = blockFactorRows.findIndex(([row]) => row >= shoreA);
  const [upper, k] = blockFactorRows[at]!;
  if (upper === shoreA) return k;
  const [lower, k0] = blockFactorRows[at - 1]!;
  return k0 + ((k - k0) * (shoreA - lower)) / (upper - lower);
}

/** Least and greatest force that a squeezed washer pushes back with. */
export interface WasherForce {
  /** Softer rule, faces free to slide, small strain [N]. */
  readonly low: Force;
  /** Harder rule, faces held, large strain [N]. */
  readonly high: Force;
}

/**
 * Force of a squeezed flat washer [N], as a range: the published rules for its stiffness differ by a factor of two and
 * nobody knows whether its faces slide.
 *
 * Low: E·A·s with Gent's E. High: A·E_c/3·(1/L² − L), L = 1 − s, E_c = E·(1 + 2·k·S_f²) with the logarithmic E,
 * S_f = (D − d)/(4·t).
 *
 * @param squeeze - s, 0 to below 1
 * @param outer - D [m]
 * @param inner - d, less than D [m]
 * @param thickness - t [m]
 * @param shoreA - hardness, 40 to 75
 * @example washerForce(0.2, si(25.4, "mm"), si(15.9, "mm"), si(3.2, "mm"), 70).low // 340.23
 */
export function washerForce(
  squeeze: Ratio,
  outer: Length,
  inner: Length,
  thickness: Length,
  shoreA: number,
): WasherForce {
  const area = (Math.PI / 4) * (outer ** 2 - inner ** 2);
  const shape = (outer - inner) / (4 * thickness);
  const held = logModulus(shoreA) * (1 + 2 * blockFactor(shoreA) * shape ** 2);
  const left = 1 - squeeze;
  return {
    low: brand<"force">(gentModulus(shoreA) * area * squeeze),
    high: brand<"force">(((area * held) / 3) * (1 / left ** 2 - left)),
  };
}

/**
 * Share of force times thread diameter that a thread's own friction and slope take, a number without a unit: the first
 * part of the nut factor K.
 *
 * K = d₂/(2·d) · (tan λ + f·sec α)/(1 − f·tan λ·sec α), α half the flank angle, tan λ = pitch/(π·d₂).
 *
 * @param major - d, outside diameter [m]
 * @param pitchDiameter - d₂ [m]
 * @param pitch - of the thread [m]
 * @param friction - f, 0 to 0.5
 * @param flank - angle between the flanks [rad]
 * @basis Shigley's Mechanical Engineering Design, power screws
 * @example threadFactor(si(1.0625, "in"), si(1.006, "in"), si(1 / 11.5, "in"), 0.1, si(60, "deg")) // 0.067906
 */
export function threadFactor(
  major: Length,
  pitchDiameter: Length,
  pitch: Length,
  friction: number,
  flank: Angle,
): number {
  const slope = pitch / (Math.PI * pitchDiameter);
  const steep = friction / Math.cos(flank / 2);
  return ((pitchDiameter / (2 * major)) * (slope + steep)) / (1 - slope * steep);
}

/** Basic thread height over pitch by flank angle [°]: 60° threads of ASME B1.20.7 and B1.1, 55° threads of ISO 228-1. */
const heightPerPitch = { 60: 0.649519, 55: 0.640327 } as const;

const fits: Readonly<Record<Joint, readonly ThreadFamily[]>> = {
  hoseWasher: ["hose", "parallelPipe55", "fireHose"],
  brassFerrule: ["compression"],
  twoFerrule: [],
  flare45: ["flare45", "gasFlare"],
  flare37: ["flare37"],
  taperThread: ["taperPipe60", "taperPipe55"],
  pushFit: [],
};

const advice = {
  within: "Habit and handbook agree on this washer: anywhere in the range of turns seals it and does not crush it.",
  over: "The habit's upper end crushes this washer past the handbook's 30 %. Stop inside the window of turns: what decides is how thick the washer is and how far hand-tight has squeezed it already. If it drips there, change the washer, do not turn further.",
  short:
    "The habit stops short of the handbook's squeeze on this washer. Use the window of turns: what decides is how thick the washer is and whether hand-tight touches it at all.",
  wide: "On this washer the habit starts short of the handbook's squeeze and ends past it. Stop inside the window of turns: what decides is how thick the washer is and how far hand-tight has squeezed it already.",
  solid:
    "The habit's upper end would travel further than this washer is thick. Stop inside the window of turns, or fit a thicker washer.",
  brassFerrule:
    "Hold the body with a second wrench. If it weeps, an eighth of a turn more; a ferrule turned too far pinches the tube and weeps for good.",
  twoFerrule: "Mark the nut at finger-tight and turn it to the mark plus a quarter; the maker's gauge decides.",
  flare:
    "Tighten by torque where the nut's maker gives one; no tape or dope on the cone. A flare that weeps is made anew, not forced.",
  taperThread:
    "Count turns, not force. A brass female thread splits past three turns; never turn a taped thread back to line it up.",
  pushFit: "No turn at all: cut square, clear the edge, push to the mark, pull back.",
} as const;

const outputs = {
  perTurn: { kind: "thickness", what: "travel for one turn" },
  habitLow: { kind: "turns", what: "the trade's habit past hand-tight, from" },
  habitHigh: { kind: "turns", what: "the trade's habit past hand-tight, to" },
  travelLow: { kind: "thickness", what: "travel at the habit's lower end" },
  travelHigh: { kind: "thickness", what: "travel at the habit's upper end" },
  squeezeLow: { kind: "ratio", what: "squeeze of the washer at the habit's lower end" },
  squeezeHigh: { kind: "ratio", what: "squeeze of the washer at the habit's upper end" },
  windowLow: { kind: "turns", what: "handbook's window past hand-tight, from (0 where hand-tight is in it)" },
  windowHigh: { kind: "turns", what: "handbook's window past hand-tight, to" },
  growth: { kind: "thickness", what: "how much wider a female pipe thread is forced at the habit's upper end" },
  torqueLow: { kind: "torque", what: "roughly the torque, every doubt taken low" },
  torqueHigh: { kind: "torque", what: "roughly the torque, every doubt taken high" },
  decides: { kind: "text", what: "what decides" },
} as const;

const none = {
  perTurn: null,
  travelLow: null,
  travelHigh: null,
  squeezeLow: null,
  squeezeHigh: null,
  windowLow: null,
  windowHigh: null,
  growth: null,
  torqueLow: null,
  torqueHigh: null,
} as const;

/** Which advice suits a washer, from what the habit does to it. */
function washerAdvice(low: Ratio, high: Ratio): string {
  if (high >= 1) return advice.solid;
  if (high > staticSqueeze.most) return low < staticSqueeze.least ? advice.wide : advice.over;
  return low < staticSqueeze.least ? advice.short : advice.within;
}

/** How far past hand-tight a joint is turned. A calculator; its page is `docs/rules/plumbing/fitting-turns.md`. */
export const fittingTurns = defineCalculator({
  id: "plumbing/fitting-turns",
  title: "How far past hand-tight a joint is turned",
  since: "0.1.0",
  input: fittingTurnsInput,
  outputs,
  basis: [],
  limits: [],
  messages: {
    missing: {
      jointUnknown:
        "Say what makes the joint tight: a flat washer, a ferrule, a flare, the thread, or a push-fit grip.",
      threadUnknown: "Say which thread it is; the travel of a turn follows from its pitch.",
      washerUnknown: "Measure the washer's thickness; what a turn does to it follows from that.",
    },
    impossible: {
      noJoint: "This machine takes neither water nor gas; it has no joint to turn.",
      otherThread: "A {thread:text} thread does not make this kind of joint.",
      handOver:
        "Hand-tight alone squeezes this washer by {squeeze:ratio}, past the {most:ratio} of the handbook: fit a thicker or a new washer.",
    },
  },
  cautions: ["water", "scald", "deferral"],
  examples: [
    {
      title: "A hose coupling with a new 1/8 in washer",
      input: { joint: "hoseWasher", washerThickness: "1/8 in" },
      gives: "computed",
    },
    {
      title: "A thick washer that hand-tight has just touched",
      input: { joint: "hoseWasher", washerThickness: "5 mm ± 0.2 mm", handTurn: "0 turns" },
      gives: "computed",
    },
    {
      title: "A worn washer",
      input: { joint: "hoseWasher", washerThickness: "2 mm", handTurn: "1/8 turn" },
      gives: "computed",
    },
    {
      title: "A stiff thread that stops the hand before the washer is touched",
      input: { joint: "hoseWasher", washerThickness: "5 mm", handTurn: "-0.25 turn" },
      gives: "computed",
    },
    {
      title: "A brass gas flare on 1/2 in tube",
      input: { joint: "flare45", thread: "3/4-16 flare 45°", metal: "brass" },
      gives: "computed",
    },
    {
      title: "A taped 1/2 in pipe thread",
      input: { joint: "taperThread", thread: "1/2-14 NPT" },
      gives: "computed",
    },
    {
      title: "A 3/8 in compression nut",
      input: { joint: "brassFerrule", thread: "9/16-24 compression" },
      gives: "computed",
    },
    { title: "A two-ferrule fitting", input: { joint: "twoFerrule" }, gives: "computed" },
    { title: "A push-fit elbow", input: { joint: "pushFit" }, gives: "computed" },
    { title: "An electric range", input: { kind: "range", fuel: "electric" }, gives: "noJoint" },
    { title: "Kind of joint not known", input: {}, gives: "jointUnknown" },
    { title: "A flare whose thread is not known", input: { joint: "flare45" }, gives: "threadUnknown" },
    { title: "A washer not measured", input: { joint: "hoseWasher" }, gives: "washerUnknown" },
    {
      title: "A tapered thread in a washer coupling",
      input: { joint: "hoseWasher", thread: "3/4-14 NPT", washerThickness: "1/8 in" },
      gives: "otherThread",
    },
    {
      title: "A thin washer crushed by hand",
      input: { joint: "hoseWasher", washerThickness: "2 mm", handTurn: "3/8 turn" },
      gives: "handOver",
    },
  ],
  compute(input, { missing, impossible, rest, assume, formula }) {
    const { joint, kind, fuel, steam, supply } = input;
    if (joint === undefined && kind !== undefined && fuel !== undefined && !burns(fuel)) {
      if (takesWater({ kind, steam, supply }) === false) return impossible(["noJoint"]);
    }
    if (joint === undefined) return missing(["jointUnknown"], ["joint"]);
    rest(habitOf(joint));
    const habitLow = si(turnHabits[joint].low, "turn");
    const habitHigh = si(turnHabits[joint].high, "turn");
    const habit = { habitLow, habitHigh };
    if (joint === "pushFit" || joint === "twoFerrule") return { ...none, ...habit, decides: advice[joint] };

    const threadId: ThreadId | undefined = input.thread ?? (joint === "hoseWasher" ? "3/4-11.5 NH" : undefined);
    if (threadId === undefined) return missing(["threadUnknown"], ["thread"]);
    const thread = threadOf(threadId);
    if (!fits[joint].includes(thread.family)) return impossible(["otherThread", { thread: threadId }]);
    if (input.thread === undefined) assume("The coupling is taken to have the 3/4-11.5 NH hose thread.");
    const perTurn = brand<"length">(si(1, "in") / thread.threadsPerInch);
    const travelLow = axialTravel(perTurn, habitLow);
    const travelHigh = axialTravel(perTurn, habitHigh);
    formula("{perTurn:thickness} = (1 inch) / {threads:number}", { perTurn, threads: thread.threadsPerInch });
    for (const [turns, travel] of [
      [habitLow, travelLow],
      [habitHigh, travelHigh],
    ] as const) {
      formula("{travel:thickness} = {perTurn:thickness} * {turns:turns} / (1 cycle)", { travel, perTurn, turns });
    }
    const common = { ...none, ...habit, perTurn, travelLow, travelHigh };

    if (joint === "brassFerrule") return { ...common, decides: advice.brassFerrule };

    if (joint === "taperThread") {
      rest(taperThreads);
      const growth = brand<"length">(travelHigh / 16);
      formula("{growth:thickness} = {travel:thickness} / 16", { growth, travel: travelHigh });
      return {
        ...common,
        windowLow: si(taperMakeUp.least, "turn"),
        windowHigh: si(taperMakeUp.most, "turn"),
        growth,
        decides: advice.taperThread,
      };
    }

    if (joint === "flare45" || joint === "flare37") {
      const row = thread.family === "gasFlare" ? undefined : flareTorqueRows.find(({ tube }) => tube === thread.size);
      if (row === undefined) return { ...common, decides: advice.flare };
      rest(flareTorque);
      const metal = input.metal ?? "brass";
      if (input.metal === undefined)
        assume("The flare nut is taken to be brass, which takes half the torque of steel.");
      const share = metal === "brass" ? brassShare : 1;
      const manual = joint === "flare45" ? row.manual45 : row.manual37;
      const chart = joint === "flare45" ? manual : row.chart37;
      return {
        ...common,
        torqueLow: si(share * Math.min(chart, manual - row.spread), "ftlbf"),
        torqueHigh: si(share * Math.max(chart, manual + row.spread), "ftlbf"),
        decides: advice.flare,
      };
    }

    const thickness = input.washerThickness;
    if (thickness === undefined) return missing(["washerUnknown"], ["washerThickness"]);
    rest(hoseThread);
    rest(sealSqueeze);
    rest(rubberStiffness);
    rest(screwTorque);
    if (input.handTurn === undefined) {
      assume("Hand-tight is taken to be where the washer is first touched; mark the coupling there to know better.");
    }
    if (input.washerOuter === undefined || input.washerInner === undefined || input.hardness === undefined) {
      assume("What was not measured of the washer is taken as usual: 1 in outside, 5/8 in hole, 70 Shore A.");
    }
    const hand = input.handTurn ?? brand<"angle">(0);
    const outer = input.washerOuter ?? si(usualWasher.outer_in, "in");
    const inner = input.washerInner ?? si(usualWasher.inner_in, "in");
    const shoreA = input.hardness ?? usualWasher.shoreA;
    const squeezeAt = (turns: Angle): Ratio =>
      washerSqueeze(axialTravel(perTurn, brand<"angle">(hand + turns)), thickness);
    const turnsFor = (squeeze: number): Angle => brand<"angle">(((squeeze * thickness) / perTurn) * 2 * Math.PI - hand);

    const most = brand<"ratio">(staticSqueeze.most);
    const windowHigh = turnsFor(most);
    if (windowHigh <= 0) {
      return impossible(["handOver", { squeeze: squeezeAt(brand<"angle">(0)), most }]);
    }
    const windowLow = brand<"angle">(Math.max(0, turnsFor(staticSqueeze.least)));
    const squeezeLow = squeezeAt(habitLow);
    const squeezeHigh = squeezeAt(habitHigh);
    for (const [turns, squeeze] of [
      [habitLow, squeezeLow],
      [habitHigh, squeezeHigh],
    ] as const) {
      if (hand + turns < 0) continue;
      formula(
        "{squeeze:ratio} = {perTurn:thickness} * ({hand:turns} + {turns:turns}) / (1 cycle) / {thickness:thickness}",
        { squeeze, perTurn, hand, turns, thickness },
      );
    }
    formula("{window:turns} = {most:ratio} * {thickness:thickness} / {perTurn:thickness} * (1 cycle) - {hand:turns}", {
      window: windowHigh,
      most,
      thickness,
      perTurn,
      hand,
    });

    const major = si(thread.major_mm, "mm");
    const pitchDiameter = brand<"length">(major - heightPerPitch[thread.flank_deg] * perTurn);
    const flank = si(thread.flank_deg, "deg");
    const mean = brand<"length">((outer + inner) / 2);
    const torque = (force: Force, friction: number): Torque => {
      const factor = threadFactor(major, pitchDiameter, perTurn, friction, flank);
      const made = brand<"torque">(force * (factor * major + (friction * mean) / 2));
      formula(
        "{torque:torque} = {force:force} * ({factor:number} * {major:thickness} + {friction:number} * {mean:thickness} / 2)",
        { torque: made, force, factor, major, friction, mean },
      );
      return made;
    };
    const soft = gentModulus(shoreA);
    formula(
      "{soft:pressure} = 0.0981 * (56 + 7.62336 * {hardness:number}) / (0.137505 * (254 - 2.54 * {hardness:number})) * (1 MPa)",
      {
        soft,
        hardness: shoreA,
      },
    );
    const area: Area = brand<"area">((Math.PI / 4) * (outer ** 2 - inner ** 2));
    const force = washerForce(brand<"ratio">(staticSqueeze.least), outer, inner, thickness, shoreA).low;
    formula("{force:force} = {soft:pressure} * {area:area} * {least:ratio}", {
      force,
      soft,
      area,
      least: brand<"ratio">(staticSqueeze.least),
    });
    return {
      ...common,
      squeezeLow,
      squeezeHigh: squeezeHigh < 1 ? squeezeHigh : null,
      windowLow,
      windowHigh,
      torqueLow: torque(force, couplingFriction.low),
      torqueHigh: torque(washerForce(most, outer, inner, thickness, shoreA).high, couplingFriction.high),
      decides: washerAdvice(squeezeLow, squeezeHigh),
    };
  },
});
