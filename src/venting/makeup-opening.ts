import * as z from "zod";
import { type Area, atMost, brand, inUnit, si, type VolumeFlow } from "../core/quantity/index.js";
import { defineCalculator, machineFacts, quantity } from "../core/rule/index.js";
import {
  type DraughtClass,
  draughtClasses,
  dryerDefault,
  infiltrationFactors,
  largestShare,
  makeupTables,
  openingRows,
  openingRun,
  widestPassive,
} from "./tables/makeup-opening.js";

const flow = (most: number) => quantity("volumeFlow", { max: [most, "cfm"] });

export const makeupOpeningInput = z.strictObject({
  floorArea: quantity("area", { max: [100_000, "ft2"] })
    .optional()
    .describe("Conditioned floor area of the house with its unfinished basement"),
  draught: z
    .enum(draughtClasses)
    .optional()
    .describe(
      "Draught of the worst appliance: sealed (power- or direct-vented, or none), fan-assisted, one or several natural",
    ),
  continuous: flow(3000)
    .optional()
    .describe("Exhaust of a fan that runs all the time and brings no air in; 0 cfm where there is none"),
  exhaustRate: machineFacts.exhaustRate,
  largest: flow(5000).optional().describe("Rated exhaust of the strongest fan, usually the kitchen hood"),
  next: flow(5000).optional().describe("Rated exhaust of the next strongest fan; 0 cfm where there is none"),
  elbows: z.int().min(0).max(10).optional().describe("90° elbows in the make-up duct; none where left out"),
});

/** What a house exhausts and takes in by itself. */
export interface HouseAir {
  readonly floorArea: Area;
  readonly draught: DraughtClass;
  readonly continuous: VolumeFlow;
  readonly dryer: VolumeFlow;
  readonly largest: VolumeFlow;
  readonly next: VolumeFlow;
}

/**
 * Make-up air that a house needs [m³/s], negative where infiltration is more than enough.
 *
 * need = continuous + dryer + 0.8·largest + 0.8·next − factor·area; the next largest counts for nothing where every
 * appliance is sealed.
 *
 * @param house - floor area, worst draught and exhausts
 * @basis Minnesota Rules 1346.0501, Table 501.4.1
 * @example makeupNeed({ floorArea: si(9668, "ft2"), draught: "sealed", continuous: si(0, "cfm"), dryer: si(135, "cfm"), largest: si(300, "cfm"), next: si(0, "cfm") }) // -0.5074
 */
export function makeupNeed(house: HouseAir): VolumeFlow {
  const { draught, continuous, dryer, largest, next } = house;
  const second = draught === "sealed" ? 0 : largestShare * next;
  return brand<"volumeFlow">(continuous + dryer + largestShare * largest + second - infiltration(house));
}

/** Infiltration credited to the house [m³/s]. */
function infiltration({ floorArea, draught }: Pick<HouseAir, "floorArea" | "draught">): number {
  return si(infiltrationFactors[draught] * inUnit(floorArea, "ft2"), "cfm");
}

/**
 * Make-up air opening of a whole house, by a published state method.
 *
 * A calculator; its page is `docs/rules/venting/makeup-opening.md`.
 */
export const makeupOpening = defineCalculator({
  id: "venting/makeup-opening",
  title: "Make-up air opening of a whole house, by a published state method",
  since: "0.1.0",
  input: makeupOpeningInput,
  outputs: {
    credit: { kind: "volumeFlow", what: "Infiltration credited" },
    exhausted: { kind: "volumeFlow", what: "Exhaust counted" },
    need: { kind: "volumeFlow", what: "Make-up air needed" },
    diameter: { kind: "inches", what: "Round opening of smooth duct" },
    flexible: { kind: "inches", what: "The same in flexible duct" },
    longest: { kind: "length", what: "Longest smooth duct with this many elbows" },
    device: { kind: "text", what: "What it takes" },
  },
  basis: [makeupTables],
  limits: [],
  messages: {
    missing: {
      areaUnknown: "The conditioned floor area is needed.",
      draughtUnknown: "The draught of the appliances is needed: the worst of them counts.",
      exhaustUnknown: "The strongest fan's rated exhaust, the next one's and that of a continuous fan are needed.",
    },
    impossible: {
      tooManyElbows: "With {elbows:count} elbows nothing is left of the run that the table takes for granted.",
    },
  },
  cautions: ["carbonMonoxide", "deferral"],
  examples: [
    {
      title: "A house of 2000 ft² with a natural-draught water heater, a dryer and a 300 cfm hood",
      input: {
        floorArea: "2000 ft2",
        draught: "one natural",
        continuous: "0 cfm",
        largest: "300 cfm",
        next: "90 cfm",
        elbows: 1,
      },
      gives: "computed",
    },
    {
      title: "A great sealed house that needs none",
      input: { floorArea: "9668 ft2", draught: "sealed", continuous: "0 cfm", largest: "300 cfm", next: "0 cfm" },
      gives: "computed",
    },
    {
      title: "Too much for any opening",
      input: {
        floorArea: "900 ft2",
        draught: "several natural",
        continuous: "80 cfm",
        largest: "1200 cfm",
        next: "0 cfm",
      },
      gives: "computed",
    },
    { title: "No floor area", input: {}, gives: "areaUnknown" },
    { title: "No draught", input: { floorArea: "2000 ft2" }, gives: "draughtUnknown" },
    { title: "No exhaust", input: { floorArea: "2000 ft2", draught: "sealed" }, gives: "exhaustUnknown" },
    {
      title: "A duct with too many elbows",
      input: {
        floorArea: "2000 ft2",
        draught: "one natural",
        continuous: "0 cfm",
        largest: "300 cfm",
        next: "0 cfm",
        elbows: 6,
      },
      gives: "tooManyElbows",
    },
  ],
  compute(input, { assume, formula, missing, impossible }) {
    const { floorArea, draught, continuous, exhaustRate, largest, next, elbows = 0 } = input;
    if (floorArea === undefined) return missing(["areaUnknown"], ["floorArea"]);
    if (draught === undefined) return missing(["draughtUnknown"], ["draught"]);
    if (continuous === undefined || largest === undefined || next === undefined) {
      const names = ["continuous", "largest", "next"] as const;
      return missing(["exhaustUnknown"], ...names.filter((name) => input[name] === undefined).map((name) => [name]));
    }
    const left = openingRun.whole - openingRun.hood - openingRun.elbow * elbows;
    if (left <= 0) return impossible(["tooManyElbows", { elbows }]);
    if (exhaustRate === undefined)
      assume(`The dryer's exhaust was not given: ${dryerDefault} cfm is assumed, as the table does.`);
    assume("The house gets its calculation because a fan above 300 cfm is new, or because the house is.");
    const dryer = exhaustRate ?? si(dryerDefault, "cfm");
    const factor = infiltrationFactors[draught];
    const credit = brand<"volumeFlow">(infiltration({ floorArea, draught }));
    formula("{credit:volumeFlow} = {factor:number} * {area:area} * (1 ft / minute)", {
      credit,
      factor,
      area: floorArea,
    });
    const need = makeupNeed({ floorArea, draught, continuous, dryer, largest, next });
    const exhausted = brand<"volumeFlow">(need + credit);
    const second = draught === "sealed" ? si(0, "cfm") : next;
    formula(
      "{exhausted:volumeFlow} = {continuous:volumeFlow} + {dryer:volumeFlow} + 0.8 * {largest:volumeFlow} + 0.8 * {second:volumeFlow}",
      { exhausted, continuous, dryer, largest, second },
    );
    formula("{need:volumeFlow} = {exhausted:volumeFlow} - {credit:volumeFlow}", { need, exhausted, credit });
    if (need <= 0) {
      return {
        credit,
        exhausted,
        need,
        diameter: null,
        flexible: null,
        longest: null,
        device: "nothing: none is needed",
      };
    }
    const column = 1 + draughtClasses.indexOf(draught);
    const row = openingRows.find((one) => atMost(need, si(one[column]!, "cfm")));
    if (!row) {
      const device = "powered make-up air: more than any opening of the table gives";
      return { credit, exhausted, need, diameter: null, flexible: null, longest: null, device };
    }
    return {
      credit,
      exhausted,
      need,
      diameter: si(row[0], "in"),
      flexible: si(row[0] + 1, "in"),
      longest: si(left, "ft"),
      device:
        row[0] > widestPassive
          ? "motorized damper, interlocked with the fan"
          : draught.endsWith("natural")
            ? "passive opening without a barometric damper"
            : "passive opening",
    };
  },
});
