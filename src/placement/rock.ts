import * as z from "zod";
import { brand, type Force, type Length, type Mass } from "../core/quantity/index.js";
import { defineCalculator, quantity } from "../core/rule/index.js";
import { feetReactions } from "../physics/feet-load.js";
import { carriedHeights, type FootNumber, type FourFeet, restStates, rockAngle, twist } from "../physics/level.js";
import { point } from "../physics/plane.js";
import { STANDARD_GRAVITY } from "../physics/vibration.js";
import { geometry } from "./basis.js";
import { corners, massInput } from "./body.js";
import { eachFoot, extendedInput, feetInput, fourOf, freeFootInput, fromFour, fullyIn } from "./feet.js";
import { pitchOf } from "./level-feet.js";
import { threadNames } from "./tables/threads.js";

const offset = () => quantity("length", { min: [-4, "ft"], max: [4, "ft"] });

export const rockInput = z.strictObject({
  feet: feetInput,
  drops: fourOf((corner) =>
    quantity("length", { max: [20, "ft"] }).describe(
      `From one level line, a laser or a taut string, down to the floor where the ${corner} foot stands`,
    ),
  )
    .optional()
    .describe("The floor under the feet, where it was measured"),
  extended: extendedInput,
  rocks: freeFootInput,
  mass: massInput,
  centre: z
    .strictObject({
      right: offset().describe("How far its centre of mass is right of the middle of the feet; minus for left"),
      back: offset().describe("How far its centre of mass is behind the middle of the feet; minus for front"),
    })
    .optional()
    .describe("Where the weight acts; the middle where left out"),
  stiffness: quantity("stiffness", { min: [100, "N/m"], max: [1e9, "N/m"] })
    .optional()
    .describe(
      "Force that squeezes one foot with its patch of floor by a unit of length: a rubber pad gives, steel hardly",
    ),
  thread: z.enum(threadNames).optional().describe("Thread of the feet, from the sheet or a thread gauge"),
  lead: quantity("length", { min: [0.2, "mm"], max: [10, "mm"] })
    .optional()
    .describe("How far a foot moves in one turn, where its thread is not in the list"),
});

/** Stiffness that stands for a foot that does not give [N/m]: a thousand times that of a rubber pad. */
const RIGID = 1e9;

/** A twist below this is rounding, far below any gauge [m]. */
const FLAT = 1e-9;

/**
 * Weight of a mass [N]: m·g, with standard gravity.
 *
 * @param mass - of the machine [kg]
 * @example weightOf(si(200, "lb")) // 889.6443
 */
export function weightOf(mass: Mass): Force {
  return brand<"force">(mass * STANDARD_GRAVITY);
}

/**
 * How much more a foot carries when it is screwed out by some length, while all four bear [N]; its diagonal partner gains
 * the same, the other two lose it.
 *
 * ΔR = k·δ/4, the four feet being springs of one stiffness k under a rigid machine.
 *
 * @param stiffness - k of one foot [N/m]
 * @param moved - δ, how far the foot goes out [m]
 * @example loadShift(si(2000, "N/m"), si(0.01, "m")) // 5
 */
export function loadShift(stiffness: number, moved: Length): Force {
  return brand<"force">((stiffness * moved) / 4);
}

/**
 * Which diagonal rocks, by how much, and what each foot carries.
 *
 * A calculator; its page is `docs/rules/placement/rock.md`.
 */
export const rock = defineCalculator({
  id: "placement/rock",
  title: "Which diagonal rocks, by how much, and what each foot carries",
  since: "0.1.0",
  input: rockInput,
  basis: [geometry],
  limits: [],
  outputs: {
    carries: { kind: "text", what: "Which feet bear" },
    gap: { kind: "inches", what: "Gap under the foot that hangs free" },
    angle: { kind: "angle", what: "How far it rocks" },
    feet: {
      what: "What each foot carries",
      list: {
        foot: { kind: "text", what: "Which foot, as you face the machine" },
        load: { kind: "force", what: "Force on it" },
        share: { kind: "ratio", what: "Its share of the weight" },
      },
    },
    quarterTurn: {
      kind: "force",
      what: "What a quarter turn out of one foot adds to it and to the foot diagonally across",
    },
  },
  messages: {
    missing: {
      feetUnknown: "The distance between the feet was not measured.",
      heightsUnknown: "Measure the floor under the four feet, or say which foot hangs free and by how much.",
    },
    impossible: {
      fallsOver: "The weight acts outside the feet: the machine does not stand.",
    },
  },
  cautions: ["lifting", "tipOver"],
  examples: [
    {
      title: "A washer that rocks on one diagonal",
      input: {
        feet: { width: "600 mm", depth: "550 mm" },
        rocks: { foot: "back left", gap: "4 mm" },
        mass: "70 kg",
        centre: { right: "10 mm", back: "-20 mm" },
        stiffness: "200 N/mm",
        thread: "M8 x 1.25",
      },
      gives: "computed",
    },
    {
      title: "A flat floor, nothing known of the weight",
      input: {
        feet: { width: "24 in", depth: "22 in" },
        drops: { frontLeft: "10 in", frontRight: "10 in", backRight: "10 in", backLeft: "10 in" },
      },
      gives: "computed",
    },
    {
      title: "Stiff feet on an uneven floor",
      input: {
        feet: { width: "24 in", depth: "22 in" },
        drops: { frontLeft: "10 in", frontRight: "9 7/8 in", backRight: "9 13/16 in", backLeft: "10 in" },
        mass: "200 lb",
      },
      gives: "computed",
    },
    { title: "Feet not measured", input: { rocks: { foot: "back left", gap: "4 mm" } }, gives: "feetUnknown" },
    { title: "No heights", input: { feet: { width: "24 in", depth: "22 in" } }, gives: "heightsUnknown" },
    {
      title: "Weight outside the feet",
      input: {
        feet: { width: "24 in", depth: "22 in" },
        rocks: { foot: "back left", gap: "0 in" },
        mass: "200 lb",
        centre: { right: "13 in", back: "0 in" },
      },
      gives: "fallsOver",
    },
  ],
  compute({ feet, drops, extended, rocks, mass, centre, stiffness, thread, lead: measuredLead }, ask) {
    const { formula, missing, impossible, assume } = ask;
    if (feet?.width === undefined || feet.depth === undefined) {
      const paths = (["width", "depth"] as const).filter((side) => feet?.[side] === undefined);
      return missing(["feetUnknown"], ...paths.map((side) => ["feet", side]));
    }
    const base = { width: feet.width, depth: feet.depth };
    let carried: FourFeet<Length>;
    if (drops !== undefined) {
      if (rocks !== undefined) assume("The gap under a foot is not used: the drops to the floor say it already.");
      if (extended === undefined) assume("How far the feet are out was not measured: they are taken to be all alike.");
      const down = fromFour(drops);
      const out = extended ? fromFour(extended) : fullyIn;
      carried = eachFoot((i) => brand<"length">(out[i] - down[i]));
    } else if (rocks !== undefined) {
      const level = { across: brand<"slope">(0), back: brand<"slope">(0) };
      carried = carriedHeights(base, level, { foot: (corners.indexOf(rocks.foot) + 1) as FootNumber, gap: rocks.gap });
    } else return missing(["heightsUnknown"], ["drops"], ["rocks"]);

    const k = twist(carried);
    formula("{twist:inches} = {frontLeft:inches} - {frontRight:inches} + {backRight:inches} - {backLeft:inches}", {
      twist: k,
      frontLeft: carried[0],
      frontRight: carried[1],
      backRight: carried[2],
      backLeft: carried[3],
    });
    const states = Math.abs(k) < FLAT ? [] : restStates(carried, base);
    const named = (list: readonly FootNumber[]) => list.map((foot) => corners[foot - 1]!).join(" and ");
    const free = states.map((state) => state.free);
    const bearing = ([1, 2, 3, 4] as const).filter((foot) => !free.includes(foot));
    const angle = rockAngle(carried, base);

    let loads: FourFeet<Force> | undefined;
    if (mass !== undefined) {
      if (centre === undefined) assume("The weight is taken to act in the middle of the feet.");
      if (stiffness === undefined) assume("The feet are taken not to give.");
      loads = feetReactions(
        weightOf(mass),
        point(centre?.right ?? 0, centre?.back ?? 0),
        base,
        stiffness ?? brand<"stiffness">(RIGID),
        carried,
      );
      if (loads === undefined) return impossible(["fallsOver"]);
    }
    const lead = measuredLead ?? (thread === undefined ? undefined : pitchOf(thread));
    const shift =
      lead === undefined || stiffness === undefined ? null : loadShift(stiffness, brand<"length">(lead / 4));
    if (shift !== null)
      formula("{quarterTurn:force} = {stiffness:stiffness} * ({lead:thickness} / 4) / 4", {
        quarterTurn: shift,
        stiffness: stiffness!,
        lead: lead!,
      });
    const weight = mass === undefined ? undefined : weightOf(mass);
    return {
      carries:
        states.length === 0
          ? "all four: it does not rock"
          : `${named(bearing)}, and either ${free.map((foot) => corners[foot - 1]!).join(" or ")}`,
      gap: brand<"length">(Math.abs(k)),
      angle,
      feet:
        loads === undefined
          ? []
          : loads.map((load, i) => ({
              foot: corners[i]!,
              load,
              share: brand<"ratio">(load / weight!),
            })),
      quarterTurn: shift,
    };
  },
});
