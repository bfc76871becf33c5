import * as z from "zod";
import { type Angle, brand, type Force, type Length, type Mass, type Ratio } from "../core/quantity/index.js";
import { defineCalculator, quantity } from "../core/rule/index.js";
import { draggingForce, handTruckBalance, handTruckForce, lowerCarrierShare } from "../physics/handling.js";
import { type Lift, type LiftingLimit, liftingLimit } from "../physics/lifting.js";
import { niosh, teamLift } from "./basis.js";
import { massInput } from "./body.js";
import { weightOf } from "./rock.js";
import { teamShares } from "./tables/team.js";

const hands = () => quantity("length", { max: [10, "ft"] });

export const handlingInput = z.strictObject({
  mass: massInput,
  lift: z
    .strictObject({
      horizontal: hands().describe("From midway between the ankles to midway between the hands, where it begins"),
      vertical: hands().describe("Height of the hands above the floor, where it begins"),
      travel: hands().describe("How far the hands go up or down"),
      twist: quantity("angle", { min: [0, "deg"], max: [180, "deg"] })
        .optional()
        .describe("How far the load lies off to the side of straight ahead; none where left out"),
      perMinute: z.number().min(0).max(60).optional().describe("Lifts in a minute; a single one where left out"),
      duration: z
        .enum(["short", "moderate", "long"])
        .optional()
        .describe("How long lifting goes on: up to 1 h, 2 h or 8 h with its rests; short where left out"),
      grip: z
        .enum(["good", "fair", "poor"])
        .describe("Hold: good with handles, fair under a flat bottom, poor without"),
      placed: z
        .strictObject({
          horizontal: hands().describe("From midway between the ankles to midway between the hands, where it ends"),
          vertical: hands().describe("Height of the hands above the floor, where it ends"),
        })
        .optional()
        .describe("Where it is set down with care; leave out where it is let go"),
    })
    .optional()
    .describe("A two-handed lift by one person"),
  slope: z
    .strictObject({
      rise: hands().describe("Height of a step, or rise of a ramp"),
      run: quantity("length", { min: [1, "cm"], max: [100, "ft"] }).describe("Depth of that step, or run of that ramp"),
      friction: z.number().min(0).max(2).describe("Friction between load and slope, 0 for wheels that roll freely"),
    })
    .optional()
    .describe("Stairs with glides, or a ramp, over which it is pulled"),
  truck: z
    .strictObject({
      along: quantity("length", { min: [1, "cm"], max: [10, "ft"] }).describe(
        "From the axle up the frame to the centre of mass",
      ),
      inFront: hands().describe("From the frame out to the centre of mass"),
      handle: quantity("length", { min: [1, "cm"], max: [10, "ft"] }).describe(
        "From the axle up the frame to the handle",
      ),
      tilt: quantity("angle", { min: [0, "deg"], max: [90, "deg"] }).describe(
        "How far the frame leans back from upright",
      ),
    })
    .optional()
    .describe("The load on a hand truck"),
  carriers: z
    .strictObject({
      apart: quantity("length", { min: [1, "cm"], max: [20, "ft"] }).describe(
        "Distance of the two carriers' hands along the load",
      ),
      above: quantity("length", { min: [-4, "ft"], max: [4, "ft"] }).describe(
        "Height of the centre of mass above the line of the hands; minus where it is below",
      ),
    })
    .optional()
    .describe("Two people who carry it up or down that slope"),
});

/**
 * What a team can lift together [kg], each being able to lift the same alone.
 *
 * One person all of it, two people two thirds of the sum, three a half of the sum; more are not reckoned with.
 *
 * @param each - what one can lift [kg]
 * @param people - 1, 2 or 3
 * @basis HSE guidance to the Manual Handling Operations Regulations 1992
 * @example teamLimit(si(20, "kg"), 2) // 26.6667
 */
export function teamLimit(each: Mass, people: 1 | 2 | 3): Mass {
  return brand<"mass">(each * people * teamShares[people]);
}

const none = null;

/** What moving the machine by hand asks of people. A calculator; its page is `docs/rules/placement/handling.md`. */
export const handling = defineCalculator({
  id: "placement/handling",
  title: "What moving the machine by hand asks of people",
  since: "0.1.0",
  input: handlingInput,
  basis: [],
  limits: [],
  outputs: {
    limit: { kind: "mass", what: "Recommended weight limit for one person" },
    limitPlaced: { kind: "mass", what: "The same where it is set down" },
    index: { kind: "number", what: "Lifting index: mass over the lower of the two" },
    meaning: { kind: "text", what: "What that says" },
    aid: { kind: "text", what: "What to use" },
    dragUp: { kind: "force", what: "Pull up the slope" },
    holdDown: { kind: "force", what: "Force to hold it back on the way down; minus where it has to be pushed" },
    handle: { kind: "force", what: "Force at the handle of the truck; plus presses the hands down, minus lifts them" },
    balance: { kind: "angle", what: "Tilt at which the truck balances" },
    lowerShare: { kind: "ratio", what: "Share of the weight on the lower of two carriers" },
    lowerForce: { kind: "force", what: "Force on the lower carrier" },
  },
  messages: {
    missing: {
      massUnknown: "The mass is not known.",
      nothingAsked: "Describe a lift, a slope, or the hand truck.",
      slopeUnknown: "The slope that the two carry it over was not measured.",
    },
  },
  cautions: ["lifting", "tipOver", "movingConnected"],
  examples: [
    {
      title: "A carton from the floor to a counter",
      input: {
        mass: "26 lb",
        lift: {
          horizontal: "10 in",
          vertical: "22 in",
          travel: "37 in",
          perMinute: 3,
          grip: "fair",
          placed: { horizontal: "20 in", vertical: "59 in" },
        },
      },
      gives: "computed",
    },
    {
      title: "A washer up the basement stairs on glides, two carriers",
      input: {
        mass: "180 lb",
        slope: { rise: "7 3/4 in", run: "10 in", friction: 0.25 },
        carriers: { apart: "38 in", above: "13 1/2 in" },
      },
      gives: "computed",
    },
    {
      title: "A refrigerator leaned back on a truck",
      input: { mass: "200 lb", truck: { along: "24 in", inFront: "10 in", handle: "50 in", tilt: "45°" } },
      gives: "computed",
    },
    {
      title: "A washer lifted by hand, too far from the body",
      input: { mass: "180 lb", lift: { horizontal: "26 in", vertical: "10 in", travel: "10 in", grip: "poor" } },
      gives: "computed",
    },
    { title: "Mass unknown", input: { slope: { rise: "7 in", run: "11 in", friction: 0 } }, gives: "massUnknown" },
    { title: "Nothing asked", input: { mass: "180 lb" }, gives: "nothingAsked" },
    {
      title: "Carriers, but no slope",
      input: { mass: "180 lb", carriers: { apart: "38 in", above: "13 1/2 in" } },
      gives: "slopeUnknown",
    },
  ],
  compute({ mass, lift, slope, truck, carriers }, { formula, missing, assume, rest, at }) {
    if (mass === undefined) return missing(["massUnknown"], ["mass"]);
    if (carriers !== undefined && slope === undefined) return missing(["slopeUnknown"], ["slope"]);
    if (lift === undefined && slope === undefined && truck === undefined)
      return missing(["nothingAsked"], ["lift"], ["slope"], ["truck"]);
    const weight = weightOf(mass);

    let limit: Mass | null = none;
    let limitPlaced: Mass | null = none;
    let index: number | null = none;
    let meaning: string | null = none;
    let aid = "two people and a strapped hand truck; no figure here makes a lift safe";
    if (lift !== undefined) {
      rest(niosh);
      rest(teamLift);
      if (lift.perMinute === undefined) assume("It is lifted once, not again and again.");
      if (lift.duration === undefined) assume("Lifting goes on for an hour at most.");
      const common = {
        travel: lift.travel,
        asymmetry: lift.twist ?? brand<"angle">(0),
        frequency: brand<"frequency">((lift.perMinute ?? 0) / 60),
        duration: lift.duration ?? "short",
        grip: lift.grip,
      } as const;
      const system = at.units === "si" ? "metric" : "us";
      const assess = (point: Pick<Lift, "horizontal" | "vertical" | "verticalAtOrigin">): LiftingLimit => {
        const found = liftingLimit({ ...common, ...point }, system);
        formula(
          "{limit:mass} = {constant:mass} * {horizontal:number} * {vertical:number} * {travel:number} * {twist:number} * {frequency:number} * {grip:number}",
          {
            limit: found.limit,
            constant: found.constant,
            horizontal: found.horizontal,
            vertical: found.vertical,
            travel: found.travel,
            twist: found.asymmetry,
            frequency: found.frequency,
            grip: found.grip,
          },
        );
        return found;
      };
      limit = assess({ horizontal: lift.horizontal, vertical: lift.vertical }).limit;
      if (lift.placed !== undefined) limitPlaced = assess({ ...lift.placed, verticalAtOrigin: lift.vertical }).limit;
      const lower = brand<"mass">(Math.min(limit, limitPlaced ?? limit));
      if (lower > 0) {
        index = mass / lower;
        formula("{index:number} = {mass:mass} / {limit:mass}", { index, mass, limit: lower });
        meaning =
          index <= 1
            ? "within what most healthy workers can do"
            : index <= 3
              ? "a raised risk for some: lighten it, bring it nearer, or share it"
              : "a raised risk for many: do not lift it this way";
      } else meaning = "out of the range of the equation, which then allows nothing: do not lift it this way";
      const team = ([1, 2, 3] as const).find((people) => teamLimit(lower, people) >= mass * (1 - 1e-9));
      aid =
        team === 1
          ? "one person, lifting as described"
          : team === undefined
            ? "bring the load nearer to the body and its ends nearer to waist height, or use a hand truck or a hoist: three people lifting it this way are not enough"
            : `${team} people lifting together, or a strapped hand truck; the equation itself does not cover teams`;
    }

    const pitch = slope && brand<"angle">(Math.atan2(slope.rise, slope.run));
    let dragUp: Force | null = none;
    let holdDown: Force | null = none;
    if (slope !== undefined && pitch !== undefined) {
      const friction = brand<"ratio">(slope.friction);
      formula("{pitch:angle} = atan({rise:inches} / {run:inches})", { pitch, rise: slope.rise, run: slope.run });
      dragUp = draggingForce(weight, pitch, friction, "up");
      holdDown = draggingForce(weight, pitch, friction, "down");
      const data = { weight, pitch, friction: slope.friction };
      formula("{up:force} = {weight:force} * (sin({pitch:angle}) + {friction:number} * cos({pitch:angle}))", {
        up: dragUp,
        ...data,
      });
      formula("{down:force} = {weight:force} * (sin({pitch:angle}) - {friction:number} * cos({pitch:angle}))", {
        down: holdDown,
        ...data,
      });
    }
    let lowerShare: Ratio | null = none;
    let lowerForce: Force | null = none;
    if (carriers !== undefined && pitch !== undefined) {
      const { apart, above } = carriers;
      lowerShare = lowerCarrierShare(pitch, apart, above);
      lowerForce = brand<"force">(weight * lowerShare);
      formula("{share:ratio} = 1 / 2 + {above:inches} / {apart:inches} * tan({pitch:angle})", {
        share: lowerShare,
        above,
        apart,
        pitch,
      });
    }
    let handle: Force | null = none;
    let balance: Angle | null = none;
    if (truck !== undefined) {
      handle = handTruckForce(weight, truck, truck.tilt);
      balance = handTruckBalance(truck);
      const { along, inFront, tilt } = truck;
      const length: Length = truck.handle;
      formula(
        "{handle:force} = {weight:force} * ({along:inches} * sin({tilt:angle}) - {inFront:inches} * cos({tilt:angle})) / {length:inches}",
        { handle, weight, along, inFront, tilt, length },
      );
    }
    return { limit, limitPlaced, index, meaning, aid, dragUp, holdDown, handle, balance, lowerShare, lowerForce };
  },
});
