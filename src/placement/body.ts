/** Measures of the machine and of the place around it that several rules of placement share, each with its one schema. */
import * as z from "zod";
import { quantity } from "../core/rule/index.js";

const size = () => quantity("length", { min: [1, "in"], max: [12, "ft"] }).optional();

/** The machine's outside sizes, as it will stand. */
export const bodyInput = z
  .strictObject({
    width: size().describe("Width of the machine at its widest, from the sheet or measured"),
    depth: size().describe("Depth of the machine with knobs and door bulge, without anything plugged in behind"),
    height: size().describe("Height of the machine on its feet; a stacked pair with its joining kit"),
  })
  .optional()
  .describe("Outside sizes of the machine");

const gap = () => quantity("length", { max: [100, "ft"] }).optional();

/** Free distances from the machine to the nearest thing on each side, the machine standing in its place. */
export const gapsInput = z
  .strictObject({
    left: gap().describe("Free distance on the left, as you face the machine, at the tightest point"),
    right: gap().describe("Free distance on the right, as you face the machine, at the tightest point"),
    top: gap().describe("Free distance above the machine to a shelf, cabinet or ceiling"),
    behind: gap().describe("Free distance from the machine's back to the wall, everything connected"),
    front: gap().describe("Free distance from knobs and door bulge to the closed closet door"),
  })
  .optional()
  .describe("Free distances round the machine where it stands; leave out what is not yet there to measure");

/** Mass of the machine. */
export const massInput = quantity("mass", { min: [0.1, "kg"], max: [1000, "kg"] })
  .optional()
  .describe("Mass of the machine, from the sheet; in its carton where it is moved so");

/** The corners of the machine, as feet are named. */
export const corners = ["front left", "front right", "back right", "back left"] as const;
/** One corner, as you face the machine. */
export type CornerName = (typeof corners)[number];
