/** The four feet as inputs and messages name them. */
import * as z from "zod";
import { brand, type Length } from "../core/quantity/index.js";
import { quantity } from "../core/rule/index.js";
import type { FourFeet } from "../physics/level.js";
import { type CornerName, corners } from "./body.js";

const span = () => quantity("length", { min: [1, "in"], max: [12, "ft"] });

/** How far apart the feet are. */
export const feetInput = z
  .strictObject({
    width: span().optional().describe("From the middle of a left foot to the middle of a right foot"),
    depth: span().optional().describe("From the middle of a front foot to the middle of a back foot"),
  })
  .optional()
  .describe("How far apart the feet are");

/** One schema for each foot. */
export const fourOf = <T extends z.ZodType>(make: (corner: CornerName) => T) =>
  z.strictObject({
    frontLeft: make("front left"),
    frontRight: make("front right"),
    backRight: make("back right"),
    backLeft: make("back left"),
  });

/** A foot that hangs free. */
export const freeFootInput = z
  .strictObject({
    foot: z.enum(corners).describe("The foot that hangs free while the machine stands as it was read"),
    gap: quantity("length", { max: [12, "in"] }).describe(
      "Gap between that foot and the floor, with a feeler gauge or paper",
    ),
  })
  .optional()
  .describe("A foot that does not bear, if there is one: push down on the corners to find it");

/** How far each foot is screwed out. */
export const extendedInput = fourOf((corner) =>
  quantity("length", { max: [12, "in"] }).describe(`How far the ${corner} foot is screwed out below the machine now`),
)
  .optional()
  .describe("How far each foot is screwed out now; fully in where left out");

/** Four values by name, in the order in which feet are numbered: round the rectangle. */
export const fromFour = <T>(four: { frontLeft: T; frontRight: T; backRight: T; backLeft: T }): FourFeet<T> => [
  four.frontLeft,
  four.frontRight,
  four.backRight,
  four.backLeft,
];

/** One thing for each foot. */
export const eachFoot = <T>(make: (foot: 0 | 1 | 2 | 3) => T): FourFeet<T> => [make(0), make(1), make(2), make(3)];

/** Feet screwed fully in. */
export const fullyIn: FourFeet<Length> = [0, 0, 0, 0].map((zero) =>
  brand<"length">(zero),
) as unknown as FourFeet<Length>;

/** The feet as formulas name the height to which floor and foot carry each corner. */
export const footKeys = ["frontLeft", "frontRight", "backRight", "backLeft"] as const;

/** Diameter of the pad under one foot. */
export const padInput = quantity("length", { min: [1, "mm"], max: [12, "in"] })
  .optional()
  .describe("Diameter of the pad under one foot");
