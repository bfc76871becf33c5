import * as z from "zod";
import { brand, type Length, show, si } from "../core/quantity/index.js";
import { defineCalculator, quantity } from "../core/rule/index.js";
import { ductWork } from "./basis.js";
import { dryerFacts } from "./dryer.js";
import { ductLengthInput } from "./duct-length.js";
import { plateDepth, supportSpacing } from "./limits-construction.js";
import { cutStock } from "./packing.js";
import { transitionDuctInput } from "./transition-duct.js";

export const cutListInput = z.strictObject({
  fuel: dryerFacts.fuel,
  legs: z
    .array(quantity("length", { min: [1, "in"], max: [200, "ft"] }).describe("Straight leg, from fitting to fitting"))
    .min(1)
    .max(40)
    .optional()
    .describe("Straight legs of the run in order, each from fitting to fitting"),
  elbows: ductLengthInput.shape.elbows,
  pieces: transitionDuctInput.shape.pieces,
  stock: quantity("length", { min: [12, "in"], max: [240, "in"] })
    .optional()
    .describe("Length of a section as sold; 5 ft where left out"),
  lap: quantity("length", { max: [6, "in"] })
    .optional()
    .describe("Length by which one piece goes into the next; 1 1/2 in where left out"),
  studs: z
    .int()
    .min(0)
    .max(100)
    .optional()
    .describe("Studs and plates that the duct passes close to their face; none where left out"),
});

/** As sold and as fitted (common practice, no source). */
const USUAL = { stock: 5, lap: 1.5, tapeOverlap: 1.25, diameter: 4 } as const;

/**
 * Pieces that one straight leg is made of [m]: whole lengths of stock while the leg is longer than one, and a rest; each
 * joint inside the leg swallows one lap.
 *
 * n pieces cover n·stock − (n−1)·lap at most; together they are leg + (n−1)·lap long.
 *
 * @param leg - length of the leg, fitting to fitting, its lap into the next fitting included [m]
 * @param stock - length of a section [m], longer than the lap
 * @param lap - lap of a joint [m]
 * @example legPieces(si(12, "ft"), si(5, "ft"), si(0, "in")).length // 3
 */
export function legPieces(leg: Length, stock: Length, lap: Length): Length[] {
  const count = Math.max(1, Math.ceil((leg - lap) / (stock - lap) - 1e-9));
  const total = leg + (count - 1) * lap;
  const whole = Array.from({ length: count - 1 }, () => stock);
  return [...whole, brand<"length">(total - (count - 1) * stock)];
}

/** Most pieces that the search takes. */
const MOST_PIECES = 40;

/** Sections, cuts and parts for a dryer's run. A calculator; its page is `docs/rules/venting/cut-list.md`. */
export const cutList = defineCalculator({
  id: "venting/cut-list",
  title: "Sections, cuts and parts for a dryer's run",
  since: "0.1.0",
  input: cutListInput,
  outputs: {
    sections: { kind: "count", what: "Sections of duct" },
    isLeast: { kind: "text", what: "Whether fewer can do" },
    used: { kind: "length", what: "Duct that goes into the run" },
    waste: { kind: "length", what: "Offcuts" },
    elbows: { kind: "count", what: "Elbows" },
    joints: { kind: "count", what: "Joints to tape" },
    tape: { kind: "length", what: "Foil tape" },
    clamps: { kind: "count", what: "Clamps for the transition duct" },
    supports: { kind: "count", what: "Supports" },
    plates: { kind: "count", what: "Protection plates" },
    cuts: {
      list: {
        section: { kind: "count", what: "Section" },
        pieces: { kind: "text", what: "Cut into" },
        left: { kind: "length", what: "Left over" },
      },
      what: "How each section is cut",
    },
  },
  basis: [ductWork],
  limits: [supportSpacing, plateDepth],
  messages: {
    missing: { legsUnknown: "The straight legs and the elbows of the run are needed." },
    impossible: {
      tooMany: "The run needs {count:count} pieces; the search takes {most:count} at most. Take longer sections.",
    },
  },
  cautions: ["fire", "deferral"],
  examples: [
    {
      title: "Two legs of 8 ft and one of 9 ft from 5 ft sections",
      input: {
        fuel: "electric",
        legs: ["8 ft", "8 ft", "9 ft"],
        elbows: [{ radius: "4 in mitred", angle: "90°", count: 2 }],
        pieces: 1,
        studs: 3,
      },
      gives: "computed",
    },
    {
      title: "A gas dryer's run from 10 ft sections without laps",
      input: { fuel: "naturalGas", legs: ["6 ft", "4 ft", "7 ft", "3 ft"], elbows: [], stock: "10 ft", lap: "0 in" },
      gives: "computed",
    },
    { title: "Legs not measured", input: { fuel: "electric" }, gives: "legsUnknown" },
    {
      title: "Long laps on short sections",
      input: { fuel: "electric", legs: ["8 ft"], elbows: [], stock: "12 in", lap: "6 in", studs: 0 },
      gives: "computed",
    },
    {
      title: "A run of many short sections",
      input: { fuel: "electric", legs: ["150 ft"], elbows: [], stock: "2 ft" },
      gives: "tooMany",
    },
  ],
  compute({ fuel, legs, elbows, pieces = 1, stock: stockGiven, lap: lapGiven, studs = 0 }, ask) {
    const { limit, assume, formula, missing, impossible } = ask;
    if (legs === undefined || elbows === undefined) {
      const gap = [legs === undefined ? ["legs"] : [], elbows === undefined ? ["elbows"] : []];
      return missing(["legsUnknown"], ...gap.filter((path) => path.length > 0));
    }
    const stock = stockGiven ?? si(USUAL.stock, "ft");
    const lap = lapGiven ?? si(USUAL.lap, "in");
    if (stockGiven === undefined) assume("Sections are sold 5 ft long (common practice, no source).");
    if (lapGiven === undefined) assume("Each joint laps 1 1/2 in (common practice, no source).");
    assume("Each leg is counted with the lap into its next fitting; elbows and hood bring their own ends.");

    const cut = legs.flatMap((leg) => legPieces(leg, stock, lap));
    if (cut.length > MOST_PIECES) return impossible(["tooMany", { count: cut.length, most: MOST_PIECES }]);
    const { stock: sections, isLeast } = cutStock(cut, stock);
    const used = brand<"length">(cut.reduce<number>((sum, piece) => sum + piece, 0));
    const bought = brand<"length">(sections.length * stock);
    const waste = brand<"length">(Math.max(0, bought - used));
    const elbowCount = elbows.reduce((sum, { count }) => sum + count, 0);
    // Pieces and elbows in a row, the machine's side and the hood at the ends.
    const joints = cut.length + elbowCount + 1;
    const around = brand<"length">(Math.PI * USUAL.tapeOverlap * si(USUAL.diameter, "in"));
    const tape = brand<"length">(joints * around);
    formula("{bought:length} = {sections:count} * {stock:length}", { bought, sections: sections.length, stock });
    if (bought > used) formula("{waste:length} = {bought:length} - {used:length}", { waste, bought, used });
    const spacing = limit(supportSpacing, fuel);
    const supports =
      spacing && spacing.value > 0
        ? legs.reduce<number>((sum, leg) => sum + Math.max(1, Math.ceil(leg / spacing.value - 1e-9)), 0)
        : null;
    const plated = limit(plateDepth, fuel);
    if (plated && studs > 0) assume("Each stud or plate close to its face gets a plate of its own.");
    return {
      sections: sections.length,
      isLeast: isLeast ? "no fewer sections can do" : "the search gave up; one fewer may do",
      used,
      waste,
      elbows: elbowCount,
      joints,
      tape,
      clamps: pieces > 0 ? 2 * pieces : 0,
      supports,
      plates: plated ? studs : null,
      cuts: sections.map((section, i) => ({
        section: i + 1,
        pieces: section.pieces.map((k) => show(brand<"length">(cut[k]!), "length", { units: ask.at.units })).join(", "),
        left: brand<"length">(section.left),
      })),
    };
  },
});
