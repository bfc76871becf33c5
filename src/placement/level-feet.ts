import * as z from "zod";
import { type Angle, atMost, brand, type Length, type Ratio, type Slope, si } from "../core/quantity/index.js";
import { defineCalculator, quantity, type Read } from "../core/rule/index.js";
import {
  type BodySlope,
  carriedHeights,
  type FootNumber,
  type FourFeet,
  floorHeights,
  levelStance,
} from "../physics/level.js";
import { reversedReading } from "../physics/slope.js";
import { countedTurns } from "../physics/turns.js";
import { footTurns } from "./basis.js";
import { corners } from "./body.js";
import { eachFoot, extendedInput, feetInput, footKeys, fourOf, freeFootInput, fromFour, fullyIn } from "./feet.js";
import { levelWithin, threadEngagement } from "./limits.js";
import { type ThreadName, threadNames, threads } from "./tables/threads.js";

const slope = () => quantity("slope", { min: [-0.2, "m/m"], max: [0.2, "m/m"] });
const span = () => quantity("length", { min: [1, "in"], max: [12, "ft"] });
const small = () => quantity("length", { max: [12, "in"] });
const across = "minus where the left side is the high one";
const back = "minus where the front is the high one";

/** What was read: the slope of the machine in one of three ways, or the floor under its feet. */
const levelReadingInput = z
  .discriminatedUnion("by", [
    z.strictObject({
      by: z.literal("slope"),
      across: slope().describe(`Slope of the machine from left to right, in any unit of slope or degrees; ${across}`),
      back: slope().describe(`Slope of the machine from front to back; ${back}`),
      acrossTurned: slope()
        .optional()
        .describe("The same from left to right with the level turned end for end, same sign rule; the mean is used"),
      backTurned: slope().optional().describe("The same from front to back with the level turned end for end"),
      accuracy: quantity("slope", { max: [0.1, "m/m"] })
        .optional()
        .describe("How far the level may be out, plus or minus; after turning it, how well two readings agree"),
    }),
    z.strictObject({
      by: z.literal("bubble"),
      across: z.number().min(-20).max(20).describe(`Divisions the bubble stands off from left to right; ${across}`),
      back: z.number().min(-20).max(20).describe(`Divisions the bubble stands off from front to back; ${back}`),
      division: quantity("slope", { min: [0.00001, "m/m"], max: [0.05, "m/m"] }).describe(
        "Slope that moves the bubble by one division, as printed on the level or tried with a feeler gauge",
      ),
      accuracy: z.number().min(0).max(20).optional().describe("How well the bubble was read, in divisions"),
    }),
    z.strictObject({
      by: z.literal("rise"),
      over: span().describe("Length of the level or straightedge, between its ends"),
      across: quantity("length", { min: [-4, "in"], max: [4, "in"] }).describe(
        `Gap under the low end of the level laid from left to right and held level; ${across}`,
      ),
      back: quantity("length", { min: [-4, "in"], max: [4, "in"] }).describe(
        `Gap under the low end of the level laid from front to back and held level; ${back}`,
      ),
      accuracy: quantity("length", { max: [2, "in"] })
        .optional()
        .describe("How well the gap was measured, plus or minus, the level's own error counted"),
    }),
    z.strictObject({
      by: z.literal("drops"),
      ...fourOf((corner) =>
        quantity("length", { max: [20, "ft"] }).describe(
          `From one level line, a laser or a taut string, down to the floor where the ${corner} foot stands`,
        ),
      ).shape,
      accuracy: quantity("length", { max: [2, "in"] })
        .optional()
        .describe("How well each distance was measured, plus or minus"),
    }),
  ])
  .optional()
  .describe("What was measured: slopes of the machine, the bubble, a gap under a level, or drops to the floor");

export const levelFeetInput = z.strictObject({
  feet: feetInput,
  reading: levelReadingInput,
  rocks: freeFootInput,
  thread: z.enum(threadNames).optional().describe("Thread of the feet, from the sheet or a thread gauge"),
  lead: quantity("length", { min: [0.2, "mm"], max: [10, "mm"] })
    .optional()
    .describe("How far a foot moves in one turn, where its thread is not in the list"),
  extended: extendedInput,
  screw: z
    .strictObject({
      length: small().describe("Length of the threaded part of a foot"),
      lockNut: quantity("length", { max: [2, "in"] })
        .optional()
        .describe("Height of the lock nut, where there is one"),
      engagement: quantity("length", { max: [3, "in"] })
        .optional()
        .describe("Thread that must stay in the machine's base, where the maker says"),
      base: z
        .enum(["steel", "softer"])
        .optional()
        .describe("What the foot screws into: steel, or cast iron, brass, aluminium or plastic"),
    })
    .optional()
    .describe("The screw of a foot, for how far it may come out"),
  aim: z
    .enum(["lowest", "leastTurn", "fewestFeet"])
    .optional()
    .describe("lowest stance, smallest largest turn, or fewest feet touched; the lowest where left out"),
});

type Input = Read<z.output<typeof levelFeetInput>>;
type Reading = NonNullable<Input["reading"]>;
type SlopeReading = Exclude<Reading, { by: "drops" }>;

const m = (value: number): Length => brand<"length">(value);
const slopeOf = (value: number): Slope => brand<"slope">(value);
/** The slope with the level's own error out of it, where it was read a second time turned end for end. */
const trueSlope = (first: Slope, turned: Slope | undefined): Slope =>
  turned === undefined ? first : reversedReading(first, turned).slope;

/** Slopes of the machine and how far each may be out. */
function slopesOf(reading: SlopeReading): BodySlope & { readonly doubt: number | undefined } {
  switch (reading.by) {
    case "slope":
      return {
        across: trueSlope(reading.across, reading.acrossTurned),
        back: trueSlope(reading.back, reading.backTurned),
        doubt: reading.accuracy,
      };
    case "bubble":
      return {
        across: slopeOf(reading.across * reading.division),
        back: slopeOf(reading.back * reading.division),
        doubt: reading.accuracy === undefined ? undefined : reading.accuracy * reading.division,
      };
    case "rise":
      return {
        across: slopeOf(reading.across / reading.over),
        back: slopeOf(reading.back / reading.over),
        doubt: reading.accuracy === undefined ? undefined : reading.accuracy / reading.over,
      };
  }
}

/** Travel taken where the screws were not measured: more than any foot has [m]. */
const anyTravel = m(1);

const up = "counter-clockwise seen from below, clockwise seen from above: the corner comes up";
const down = "clockwise seen from below, counter-clockwise seen from above: the corner comes down";
const still = "leave as it is";

/**
 * Turns of each foot that bring the machine level on all four.
 *
 * A calculator; its page is `docs/rules/placement/level-feet.md`.
 */
export const levelFeet = defineCalculator({
  id: "placement/level-feet",
  title: "Turns of each foot that bring the machine level on all four",
  since: "0.1.0",
  input: levelFeetInput,
  basis: [footTurns],
  limits: [threadEngagement, levelWithin],
  outputs: {
    feet: {
      what: "What to do at each foot",
      list: {
        foot: { kind: "text", what: "Which foot, as you face the machine" },
        turns: { kind: "turns", what: "How many turns, to the quarter" },
        way: { kind: "text", what: "Which way to turn it, and what its corner does" },
        change: { kind: "inches", what: "How far the foot moves; plus is out, minus is in" },
        extension: { kind: "inches", what: "How far it is screwed out afterwards" },
      },
    },
    rock: { kind: "inches", what: "Gap that may be left under one foot" },
    finish: { kind: "text", what: "How to finish" },
    tilt: { kind: "slope", what: "Slope left by turning to the quarter" },
    doubt: { kind: "slope", what: "Slope the measurement itself may hide" },
    sure: { kind: "text", what: "Whether it is then level enough" },
  },
  messages: {
    missing: {
      feetUnknown: "The distance between the feet was not measured.",
      readingUnknown:
        "Nothing was measured: read a level both ways on the machine, or measure the floor under the feet.",
      threadUnknown: "The thread of the feet is not known: name it, or measure how far a foot moves in one turn.",
      engagementUnknown:
        "How much thread must stay in the base cannot be told: name the thread, or what the maker asks.",
    },
    impossible: {
      noTravel:
        "No thread is left to turn: the screw is no longer than its lock nut and the thread that must stay engaged.",
      tooUneven:
        "The floor under the feet differs by {range:inches}, {lack:inches} more than the {travel:inches} the feet can travel. Put shims of at least {lack:inches} under the low corners first.",
      noStep:
        "The feet can travel {travel:inches}, and no whole quarter turn of each brings it level within that. Put thin shims under the low corners first.",
    },
  },
  cautions: ["movingConnected", "lifting", "tipOver"],
  examples: [
    {
      title: "Right side high by an eighth in a foot, back by a sixteenth",
      input: {
        feet: { width: "24 in", depth: "22 in" },
        reading: { by: "slope", across: "1/8 in per ft", back: "1/16 in per ft", accuracy: "0.1°" },
        thread: "5/16-18",
      },
      gives: "computed",
    },
    {
      title: "A machine that rocks on one diagonal",
      input: {
        feet: { width: "600 mm", depth: "550 mm" },
        reading: { by: "slope", across: "0 mm/m", back: "0 mm/m" },
        rocks: { foot: "front right", gap: "4 mm" },
        thread: "M8 x 1.25",
      },
      gives: "computed",
    },
    {
      title: "A sloped basement floor toward the drain",
      input: {
        feet: { width: "24 in", depth: "22 in" },
        reading: {
          by: "drops",
          frontLeft: "30 1/2 in",
          frontRight: "30 1/2 in",
          backRight: "30 in",
          backLeft: "30 in",
          accuracy: "1/32 in",
        },
        thread: "3/8-16",
        extended: { frontLeft: "1/4 in", frontRight: "1/4 in", backRight: "1/4 in", backLeft: "1/4 in" },
        screw: { length: "1 1/2 in", lockNut: "1/4 in", base: "steel" },
      },
      gives: "computed",
    },
    {
      title: "The bubble a division off",
      input: {
        feet: { width: "24 in", depth: "22 in" },
        reading: { by: "bubble", across: -1, back: 0, division: "6.5 mm/m", accuracy: 0.5 },
        lead: "1.25 mm",
        aim: "leastTurn",
      },
      gives: "computed",
    },
    {
      title: "A gap under the level",
      input: {
        feet: { width: "24 in", depth: "22 in" },
        reading: { by: "rise", over: "24 in", across: "1/8 in", back: "0 in", accuracy: "1/32 in" },
        thread: "5/16-18",
      },
      gives: "computed",
    },
    { title: "Feet not measured", input: { thread: "5/16-18" }, gives: "feetUnknown" },
    {
      title: "Nothing read",
      input: { feet: { width: "24 in", depth: "22 in" }, thread: "5/16-18" },
      gives: "readingUnknown",
    },
    {
      title: "Thread unknown",
      input: {
        feet: { width: "24 in", depth: "22 in" },
        reading: { by: "slope", across: "1/8 in per ft", back: "0 in per ft" },
      },
      gives: "threadUnknown",
    },
    {
      title: "A screw of unlisted thread",
      input: {
        feet: { width: "24 in", depth: "22 in" },
        reading: { by: "slope", across: "1/8 in per ft", back: "0 in per ft" },
        lead: "1 mm",
        screw: { length: "1 in" },
      },
      gives: "engagementUnknown",
    },
    {
      title: "A screw all of whose thread is needed",
      input: {
        feet: { width: "24 in", depth: "22 in" },
        reading: { by: "slope", across: "1/8 in per ft", back: "0 in per ft" },
        thread: "3/8-16",
        screw: { length: "1/2 in", lockNut: "1/4 in", base: "softer" },
      },
      gives: "noTravel",
    },
    {
      title: "Feet out of thread",
      input: {
        feet: { width: "24 in", depth: "22 in" },
        reading: { by: "slope", across: "1/2 in per ft", back: "0 in per ft" },
        thread: "5/16-18",
        screw: { length: "1 in", base: "steel" },
      },
      gives: "tooUneven",
    },
    {
      title: "A screw with hardly any travel, out too far already",
      input: {
        feet: { width: "24 in", depth: "22 in" },
        reading: { by: "slope", across: "0 %", back: "0 %" },
        thread: "M8 x 1.25",
        extended: { frontLeft: "0.2 mm", frontRight: "0.2 mm", backRight: "0.2 mm", backLeft: "0.2 mm" },
        screw: { length: "8.1 mm", engagement: "8 mm" },
      },
      gives: "noStep",
    },
  ],
  compute({ feet, reading, rocks, thread, lead: measuredLead, extended, screw, aim = "lowest" }, ask) {
    const { formula, missing, impossible, limit, assume } = ask;
    if (feet?.width === undefined || feet.depth === undefined) {
      const paths = (["width", "depth"] as const).filter((side) => feet?.[side] === undefined);
      return missing(["feetUnknown"], ...paths.map((side) => ["feet", side]));
    }
    if (reading === undefined) return missing(["readingUnknown"], ["reading"]);
    const lead = measuredLead ?? (thread === undefined ? undefined : pitchOf(thread));
    if (lead === undefined) return missing(["threadUnknown"], ["thread"]);

    const travel = ((): Length | "unknown" | undefined => {
      if (screw === undefined) return undefined;
      const base = screw.base ?? "steel";
      const engaged =
        screw.engagement ??
        (thread === undefined ? undefined : m(limit(threadEngagement, "none", { base })!.value * diameterOf(thread)));
      if (engaged === undefined) return "unknown";
      if (screw.engagement === undefined && screw.base === undefined)
        assume("What the feet screw into was not said: steel is assumed.");
      const most = m(screw.length - (screw.lockNut ?? 0) - engaged);
      formula("{travel:inches} = {screw:inches} - {lockNut:inches} - {engaged:inches}", {
        travel: most,
        screw: screw.length,
        lockNut: m(screw.lockNut ?? 0),
        engaged,
      });
      return most;
    })();
    if (travel === "unknown") return missing(["engagementUnknown"], ["thread"]);
    if (travel !== undefined && travel <= 0) return impossible(["noTravel"]);
    if (travel === undefined)
      assume("The screws of the feet were not measured: whether they are long enough is not looked at.");
    if (extended === undefined) assume("How far the feet are out was not measured: they are taken to be fully in.");

    const base = { width: feet.width, depth: feet.depth };
    const extensions = extended ? fromFour(extended) : fullyIn;
    let carried: FourFeet<Length>;
    let doubts: readonly [number, number] | undefined;
    if (reading.by === "drops") {
      if (rocks !== undefined) assume("The gap under a foot is not used: the drops to the floor say it already.");
      const drops = fromFour(reading);
      carried = eachFoot((i) => m(extensions[i] - drops[i]));
      drops.forEach((drop, i) => {
        formula(`{${footKeys[i]}:inches} = {extended:inches} - {drop:inches}` as string, {
          [footKeys[i]!]: carried[i]!,
          extended: extensions[i]!,
          drop,
        });
      });
      if (reading.accuracy !== undefined) doubts = [reading.accuracy / base.width, reading.accuracy / base.depth];
    } else {
      const { doubt, ...slopes } = slopesOf(reading);
      const free = rocks && { foot: (corners.indexOf(rocks.foot) + 1) as FootNumber, gap: rocks.gap };
      carried = carriedHeights(base, slopes, free);
      if (doubt !== undefined) doubts = [doubt, doubt];
      formula("{riseAcross:inches} = {across:slope} * {width:inches}", {
        riseAcross: m(slopes.across * base.width),
        across: slopes.across,
        width: base.width,
      });
      formula("{riseBack:inches} = {back:slope} * {depth:inches}", {
        riseBack: m(slopes.back * base.depth),
        back: slopes.back,
        depth: base.depth,
      });
      signs.forEach(([x, y], i) => {
        const sum = `${x < 0 ? "-" : ""}{riseAcross:inches} / 2 ${y < 0 ? "-" : "+"} {riseBack:inches} / 2`;
        formula(`{${footKeys[i]}:inches} = ${sum} - {gap:inches}` as string, {
          [footKeys[i]!]: carried[i]!,
          riseAcross: m(slopes.across * base.width),
          riseBack: m(slopes.back * base.depth),
          gap: free?.foot === i + 1 ? free.gap : m(0),
        });
      });
    }

    const floor = floorHeights(carried, extensions);
    const range = m(Math.max(...floor) - Math.min(...floor));
    const reach = { least: m(0), most: travel ?? anyTravel };
    const stance = levelStance(floor, extensions, reach, aim);
    const counted = stance && countedTurns(carried, stance.changes, base, lead, 1 / 4, { extensions, travel: reach });
    if (stance === undefined)
      return impossible(["tooUneven", { range, travel: reach.most, lack: m(range - reach.most) }]);
    if (counted === undefined) return impossible(["noStep", { travel: reach.most }]);
    carried.forEach((carries, i) => {
      formula(
        `{${footKeys[i]}Turns:number} = ({level:inches} - {${footKeys[i]}:inches}) / {lead:thickness}` as string,
        {
          [`${footKeys[i]}Turns`]: stance.changes[i]! / lead,
          level: stance.height,
          [footKeys[i]!]: carries,
          lead,
        },
      );
    });

    const doubt = doubts === undefined ? null : slopeOf(Math.hypot(...doubts));
    if (doubts !== undefined) {
      formula("{doubt:slope} = sqrt({across:slope}^2 + {back:slope}^2)", {
        doubt: doubt!,
        across: slopeOf(doubts[0]),
        back: slopeOf(doubts[1]),
      });
    }
    const allowed = limit(levelWithin)!.value;
    const steepest = (slope: number) => brand<"angle">(Math.atan(slope));
    const sure =
      doubt === null
        ? "not known: say how far the level may be out"
        : atMost(steepest(counted.tilt + doubt), allowed)
          ? "yes, even if the measurement is out by all it may be"
          : atMost(steepest(counted.tilt), allowed)
            ? "only if the measurement is right: read again with a closer level, turned end for end"
            : "no: a quarter turn is too coarse for feet so close together";
    const light = counted.light.map((foot) => corners[foot - 1]!);
    return {
      feet: counted.turns.map((turns: Ratio, i) => ({
        foot: corners[i]!,
        turns: brand<"angle">(Math.abs(turns) * 2 * Math.PI) as Angle,
        way: turns > 0 ? up : turns < 0 ? down : still,
        change: m(turns * lead),
        extension: extended === undefined ? null : m(extensions[i]! + turns * lead),
      })),
      rock: counted.rock,
      finish:
        light.length === 0
          ? "push down on each corner; none may give; then hold each foot and tighten any lock nut"
          : `let the ${light.join(" or the ")} foot out, whichever gives under a push, until it takes load; then tighten any lock nuts`,
      tilt: counted.tilt,
      doubt,
      sure,
    };
  },
});

const signs: FourFeet<readonly [-1 | 1, -1 | 1]> = [
  [-1, -1],
  [1, -1],
  [1, 1],
  [-1, 1],
];

/**
 * How far a foot moves in one turn [m]: its thread's pitch, since these threads have one start.
 *
 * @param thread - name of the thread
 * @basis ASME B1.1 and ISO 261, see the table of threads
 * @example pitchOf("3/8-16") // 0.0015875
 */
export function pitchOf(thread: ThreadName): Length {
  const { pitch, unit } = threads[thread];
  return si(pitch, unit);
}

/** Nominal diameter of a thread [m]. */
function diameterOf(thread: ThreadName): Length {
  const { diameter, unit } = threads[thread];
  return si(diameter, unit);
}
