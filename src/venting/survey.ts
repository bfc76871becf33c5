/** Venting's part of a survey. */
import * as z from "zod";
import { definePart } from "../core/rule/index.js";
import { closetAir, closetAirInput } from "./closet-air.js";
import { ductConstruction, ductConstructionInput } from "./duct-construction.js";
import { ductLength, ductLengthInput } from "./duct-length.js";
import { termination, terminationInput } from "./termination.js";
import { transitionDuct, transitionDuctInput } from "./transition-duct.js";

const { kind: _kind, fuel: _fuel, exhaust: _exhaust, ...transitionFields } = transitionDuctInput.shape;
const { kind: _kind2, fuel: _fuel2, exhaust: _exhaust2, ...constructionFields } = ductConstructionInput.shape;
const { kind: _kind3, fuel: _fuel3, exhaust: _exhaust3, ...outletFields } = terminationInput.shape;

/** What every rule on a dryer's exhaust takes from the machine's plate. */
const dryer = { kind: "machine.kind", fuel: "machine.fuel", exhaust: "machine.exhaust" } as const;

/** Fields of one group of the survey, by their own names. */
const fields = (group: string, shape: Readonly<Record<string, unknown>>): Record<string, string> =>
  Object.fromEntries(Object.keys(shape).map((name) => [name, `venting.${group}.${name}`]));

export const ventingPart = definePart({
  trade: "venting",
  site: z.strictObject({
    closet: closetAirInput.shape.closet,
    openings: closetAirInput.shape.openings,
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
    outlet: z.strictObject(outletFields).optional().describe("The hood outdoors"),
  }),
  machine: { exhaustChart: ductLengthInput.shape.chart },
  uses: [
    { entry: closetAir, from: { ...dryer, closet: "venting.closet", openings: "venting.openings" } },
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
    { entry: termination, from: { ...dryer, ...fields("outlet", outletFields) } },
  ],
});
