/** Venting's part of a survey. */
import * as z from "zod";
import { definePart } from "../core/rule/index.js";
import { backPressureLimitInput, backPressureLimit as backPressureRule } from "./back-pressure-limit.js";
import { boosterFan, boosterFanInput } from "./booster-fan.js";
import { closetAir, closetAirInput } from "./closet-air.js";
import { combustionAir, combustionAirInput } from "./combustion-air.js";
import { condensation, condensationInput } from "./condensation.js";
import { cutList, cutListInput } from "./cut-list.js";
import { dryingAir, dryingAirInput } from "./drying-air.js";
import { ductAirflow } from "./duct-airflow.js";
import { ductConstruction, ductConstructionInput } from "./duct-construction.js";
import { ductLength, ductLengthInput } from "./duct-length.js";
import { ductOptions, ductOptionsInput } from "./duct-options.js";
import { ductResistance } from "./duct-resistance.js";
import { hoodExhaust, hoodExhaustInput } from "./hood-exhaust.js";
import { lengthLabel, lengthLabelInput } from "./length-label.js";
import { lintMargin, lintMarginInput } from "./lint-margin.js";
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
const { pieces, wall, hoodLoss, rise, drop, outdoorTemperature, windSpeed, windSide } = lintMarginInput.shape;
const { airTemperature, airHumidity, altitude, blower, backPressureLimit, leastFlow } = lintMarginInput.shape;
const { atticTemperature, crawlTemperature } = condensationInput.shape;
const { roomTemperature, roomHumidity, flow, freeFlow, waterInLoad, wetness } = dryingAirInput.shape;
const { hottest, hottestInlet, intoAir } = dryingAirInput.shape;
const { legs, stock, lap, studs } = cutListInput.shape;
const { layouts, plan, cell, diagonals } = ductOptionsInput.shape;

/** The run as the air sees it. */
const run = {
  diameter: "venting.duct.diameter",
  straight: "venting.duct.straight",
  elbows: "venting.duct.elbows",
  transition: "venting.transition.length",
  pieces: "venting.run.pieces",
  wall: "venting.run.wall",
  hoodLoss: "venting.run.hoodLoss",
  airTemperature: "venting.air.airTemperature",
  airHumidity: "venting.air.airHumidity",
  altitude: "venting.air.altitude",
} as const;

/** The blower and what drives beside it. */
const driving = {
  blower: "machine.blower",
  backPressureLimit: "machine.backPressureLimit",
  rise: "venting.run.rise",
  drop: "venting.run.drop",
  outdoorTemperature: "venting.air.outdoorTemperature",
  windSpeed: "venting.air.windSpeed",
  windSide: "venting.air.windSide",
} as const;

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
    run: z
      .strictObject({ pieces, wall, hoodLoss, rise, drop })
      .optional()
      .describe("The run as the air sees it, where more is known than lengths and elbows"),
    air: z
      .strictObject({
        backPressure: backPressureLimitInput.shape.backPressure,
        altitude,
        airTemperature,
        airHumidity,
        flow,
        freeFlow,
        roomTemperature,
        roomHumidity,
        outdoorTemperature,
        atticTemperature,
        crawlTemperature,
        windSpeed,
        windSide,
        waterInLoad,
        wetness,
      })
      .optional()
      .describe("The air in the duct and around it"),
    planning: z
      .strictObject({ layouts, plan, cell, diagonals, legs, stock, lap, studs })
      .optional()
      .describe("Ways for a run that is still to be built, and the legs to be cut for it"),
    label: z
      .strictObject({ fitted: lengthLabelInput.shape.fitted, distance: lengthLabelInput.shape.distance })
      .optional()
      .describe("The label that tells the duct's equivalent length"),
    fan: z.strictObject(fanFields).optional().describe("A fan in the dryer's duct"),
    outlet: z.strictObject(outletFields).optional().describe("The hood outdoors"),
    hood: z.strictObject(hoodFields).optional().describe("The kitchen hood's duct and the air for it"),
    house: z.strictObject(houseFields).optional().describe("The whole house's exhaust and infiltration"),
  }),
  machine: {
    exhaustChart: ductLengthInput.shape.chart,
    blower,
    backPressureLimit,
    leastFlow,
    hottest,
    hottestInlet,
    intoAir,
  },
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
    { entry: ductResistance, from: { exhaustRate: "machine.exhaustRate", ...run } },
    { entry: backPressureRule, from: { ...dryer, backPressure: "venting.air.backPressure", ...run, ...driving } },
    { entry: ductAirflow, from: { ...run, ...driving } },
    { entry: lintMargin, from: { ...run, ...driving, leastFlow: "machine.leastFlow" } },
    {
      entry: condensation,
      from: {
        exhaustRate: "machine.exhaustRate",
        ...run,
        outdoorTemperature: "venting.air.outdoorTemperature",
        roomTemperature: "venting.air.roomTemperature",
        atticTemperature: "venting.air.atticTemperature",
        crawlTemperature: "venting.air.crawlTemperature",
      },
    },
    {
      entry: dryingAir,
      from: {
        heatInput: "machine.heatInput",
        flow: "venting.air.flow",
        freeFlow: "venting.air.freeFlow",
        roomTemperature: "venting.air.roomTemperature",
        roomHumidity: "venting.air.roomHumidity",
        hottest: "machine.hottest",
        hottestInlet: "machine.hottestInlet",
        wetness: "venting.air.wetness",
        intoAir: "machine.intoAir",
        waterInLoad: "venting.air.waterInLoad",
        altitude: "venting.air.altitude",
      },
    },
    {
      entry: ductOptions,
      from: {
        fuel: "machine.fuel",
        exhaustRate: "machine.exhaustRate",
        diameter: "venting.duct.diameter",
        straight: "venting.duct.straight",
        elbows: "venting.duct.elbows",
        layouts: "venting.planning.layouts",
        plan: "venting.planning.plan",
        cell: "venting.planning.cell",
        diagonals: "venting.planning.diagonals",
      },
    },
    {
      entry: cutList,
      from: {
        fuel: "machine.fuel",
        legs: "venting.planning.legs",
        elbows: "venting.duct.elbows",
        pieces: "venting.transition.pieces",
        stock: "venting.planning.stock",
        lap: "venting.planning.lap",
        studs: "venting.planning.studs",
      },
    },
    { entry: makeupOpening, from: { exhaustRate: "machine.exhaustRate", ...fields("house", houseFields) } },
  ],
});
