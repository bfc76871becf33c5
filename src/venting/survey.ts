/** Venting's part of a survey. */
import * as z from "zod";
import { definePart } from "../core/rule/index.js";
import { boosterFan, boosterFanInput } from "./booster-fan.js";
import { closetAir, closetAirInput } from "./closet-air.js";
import { combustionAir, combustionAirInput } from "./combustion-air.js";
import { ductConstruction, ductConstructionInput } from "./duct-construction.js";
import { ductLength, ductLengthInput } from "./duct-length.js";
import { hoodExhaust, hoodExhaustInput } from "./hood-exhaust.js";
import { lengthLabel, lengthLabelInput } from "./length-label.js";
import { makeupAir, makeupAirInput } from "./makeup-air.js";
import { makeupOpening, makeupOpeningInput } from "./makeup-opening.js";
import { termination, terminationInput } from "./termination.js";
import { transitionDuct, transitionDuctInput } from "./transition-duct.js";

/** The facts that come from the machine's plate, which no group of the site repeats. */
type Plate = "kind" | "fuel" | "exhaust" | "exhaustRate" | "heatInput";
const plate: readonly string[] = ["kind", "fuel", "exhaust", "exhaustRate", "heatInput"] satisfies Plate[];

/** A rule's fields without the machine's facts. */
const onSite = <T extends z.core.$ZodLooseShape>(shape: T): Omit<T, Plate> =>
  Object.fromEntries(Object.entries(shape).filter(([name]) => !plate.includes(name))) as Omit<T, Plate>;

const transitionFields = onSite(transitionDuctInput.shape);
const constructionFields = onSite(ductConstructionInput.shape);
const outletFields = onSite(terminationInput.shape);
const fanFields = onSite(boosterFanInput.shape);
const combustionFields = onSite(combustionAirInput.shape);
const hoodFields = onSite(hoodExhaustInput.shape);
const houseFields = onSite(makeupOpeningInput.shape);
const { madeUp, ...combustionSite } = combustionFields;

/** What every rule on a dryer's exhaust takes from the machine's plate. */
const dryer = { kind: "machine.kind", fuel: "machine.fuel", exhaust: "machine.exhaust" } as const;

/** Fields of one group of the survey, by their own names. */
const fields = (group: string, shape: Readonly<Record<string, unknown>>): Record<string, string> =>
  Object.fromEntries(Object.keys(shape).map((name) => [name, `venting.${group}.${name}`]));

/** Venting's part of a survey: its fields, and where each entry takes its inputs from. */
export const ventingPart = definePart({
  trade: "venting",
  site: z.strictObject({
    closet: closetAirInput.shape.closet,
    openings: closetAirInput.shape.openings,
    makeup: z
      .strictObject({ dryers: makeupAirInput.shape.dryers, madeUp: makeupAirInput.shape.madeUp })
      .optional()
      .describe("Make-up air for the dryer's exhaust"),
    combustion: z
      .strictObject(combustionSite)
      .optional()
      .describe("Air for everything that burns fuel in the same space"),
    transition: z
      .strictObject(transitionFields)
      .optional()
      .describe("The flexible transition duct between the machine and the rigid duct"),
    duct: z
      .strictObject({
        straight: ductLengthInput.shape.straight,
        elbows: ductLengthInput.shape.elbows,
        ventilator: ductLengthInput.shape.ventilator,
        ...constructionFields,
      })
      .optional()
      .describe("The exhaust duct between the transition duct and the hood outdoors"),
    label: z
      .strictObject({ fitted: lengthLabelInput.shape.fitted, distance: lengthLabelInput.shape.distance })
      .optional()
      .describe("The label that tells the duct's equivalent length"),
    fan: z.strictObject(fanFields).optional().describe("A fan in the dryer's duct"),
    outlet: z.strictObject(outletFields).optional().describe("The hood outdoors"),
    hood: z.strictObject(hoodFields).optional().describe("The kitchen hood's duct and the air for it"),
    house: z.strictObject(houseFields).optional().describe("The whole house's exhaust and infiltration"),
  }),
  machine: { exhaustChart: ductLengthInput.shape.chart },
  uses: [
    { entry: closetAir, from: { ...dryer, closet: "venting.closet", openings: "venting.openings" } },
    {
      entry: makeupAir,
      from: {
        ...dryer,
        exhaustRate: "machine.exhaustRate",
        dryers: "venting.makeup.dryers",
        madeUp: "venting.makeup.madeUp",
      },
    },
    {
      entry: combustionAir,
      from: {
        kind: "machine.kind",
        fuel: "machine.fuel",
        heatInput: "machine.heatInput",
        ...fields("combustion", combustionSite),
        madeUp: "venting.makeup.madeUp",
      },
    },
    { entry: transitionDuct, from: { ...dryer, ...fields("transition", transitionFields) } },
    {
      entry: ductLength,
      from: {
        ...dryer,
        straight: "venting.duct.straight",
        elbows: "venting.duct.elbows",
        ventilator: "venting.duct.ventilator",
        chart: "machine.exhaustChart",
      },
    },
    { entry: ductConstruction, from: { ...dryer, ...fields("duct", constructionFields) } },
    {
      entry: lengthLabel,
      from: {
        ...dryer,
        straight: "venting.duct.straight",
        elbows: "venting.duct.elbows",
        concealed: "venting.duct.concealed",
        fitted: "venting.label.fitted",
        distance: "venting.label.distance",
      },
    },
    { entry: boosterFan, from: { ...dryer, ...fields("fan", fanFields) } },
    { entry: termination, from: { ...dryer, ...fields("outlet", outletFields) } },
    {
      entry: hoodExhaust,
      from: { kind: "machine.kind", exhaustRate: "machine.exhaustRate", ...fields("hood", hoodFields) },
    },
    { entry: makeupOpening, from: { exhaustRate: "machine.exhaustRate", ...fields("house", houseFields) } },
  ],
});
