/** Venting's part of a survey. */
import * as z from "zod";
import { definePart } from "../core/rule/index.js";
import { ductLength, ductLengthInput } from "./duct-length.js";

export const ventingPart = definePart({
  trade: "venting",
  site: z.strictObject({
    duct: z
      .strictObject({
        straight: ductLengthInput.shape.straight,
        elbows: ductLengthInput.shape.elbows,
      })
      .optional()
      .describe("The exhaust duct between the transition duct and the hood outdoors"),
  }),
  machine: {},
  uses: [
    {
      entry: ductLength,
      from: {
        fuel: "machine.fuel",
        exhaust: "machine.exhaust",
        straight: "venting.duct.straight",
        elbows: "venting.duct.elbows",
      },
    },
  ],
});
