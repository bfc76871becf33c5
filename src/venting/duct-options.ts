import * as z from "zod";
import { brand, type Length, type Pressure, si } from "../core/quantity/index.js";
import { defineCalculator, machineFacts, quantity } from "../core/rule/index.js";
import { darcyWeisbach } from "./basis.js";
import { developedLength, type Elbow, elbowInput, reckon } from "./developed.js";
import { dryerFacts } from "./dryer.js";
import { ductConstructionInput } from "./duct-construction.js";
import { ductLengthInput } from "./duct-length.js";
import { plainLength } from "./lengths.js";
import { ductBaseLength, elbowAllowance, elbowsIncluded } from "./limits.js";
import { cheapestRoute, type Plan, type Route } from "./routing.js";
import { type DuctAir, type Piece, pieceLoss, runLoss } from "./run.js";
import { siteAir, siteRun } from "./run-input.js";
import { type ElbowRadius, elbowRadii } from "./tables/elbows.js";
import { roughnessBasis, wallRoughness } from "./tables/roughness.js";

const layoutInput = z.strictObject({
  name: z.string().min(1).max(100).describe("What to call it"),
  straight: quantity("length", { max: [500, "ft"] }).describe("Straight duct of it, added up"),
  elbows: z.array(elbowInput).max(20).describe("Elbows of it by kind; an empty list where it has none"),
});

export const ductOptionsInput = z.strictObject({
  fuel: dryerFacts.fuel,
  exhaustRate: machineFacts.exhaustRate,
  diameter: ductConstructionInput.shape.diameter,
  straight: ductLengthInput.shape.straight,
  elbows: ductLengthInput.shape.elbows,
  layouts: z.array(layoutInput).max(20).optional().describe("Ways the run could go, each with its duct and elbows"),
  plan: z
    .array(z.string().min(1).max(40))
    .min(1)
    .max(40)
    .optional()
    .describe("Framing seen along the run, row by row: S start, E end, # not to be crossed, . free"),
  cell: quantity("length", { min: [3, "in"], max: [120, "in"] })
    .optional()
    .describe("Side of one cell of that plan"),
  diagonals: z.boolean().optional().describe("Whether 45° runs are possible in it; yes where left out"),
});

/** A plan read from its text, or what is wrong with it. */
function readPlan(lines: readonly string[]): Plan | undefined {
  const columns = lines[0]!.length;
  const text = lines.join("");
  const isWhole = lines.every((line) => line.length === columns) && /^[SE#.]+$/.test(text);
  const count = (letter: string) => text.split(letter).length - 1;
  if (!isWhole || count("S") !== 1 || count("E") !== 1) return undefined;
  return {
    columns,
    rows: lines.length,
    free: [...text].map((letter) => letter !== "#"),
    start: text.indexOf("S"),
    end: text.indexOf("E"),
  };
}

interface Candidate {
  readonly name: string;
  readonly straight: Length;
  readonly elbows: readonly Elbow[];
}

/** The elbow of a row as the air sees it. */
const pieceOf = (radius: ElbowRadius, angle: number): Piece => ({
  piece: "elbow",
  make: radius.endsWith("mitred") ? "adjustable" : "smooth",
  angle: si(angle, "deg"),
  radius: si(Number.parseFloat(radius), "in"),
});

function fromRoute(name: string, route: Route, cell: Length, radius: ElbowRadius): Candidate {
  const elbow = (angle: 45 | 90, count: number): Elbow[] =>
    count > 0 ? [{ radius, angle: si(angle, "deg"), count }] : [];
  return {
    name,
    straight: brand<"length">(cell * (route.straights + Math.SQRT2 * route.diagonals)),
    elbows: [...elbow(90, route.turns90), ...elbow(45, route.turns45)],
  };
}

/** Whether two ways are made of the same pieces. */
const isAlike = (a: Route, b: Route): boolean =>
  a.straights === b.straights && a.diagonals === b.diagonals && a.turns45 === b.turns45 && a.turns90 === b.turns90;

/** Free elbows from which on every elbow counts as free: no run has as many. */
const ALL_FREE = 20;

/** Options shown at most. */
const MOST_SHOWN = 8;
const USUAL_FLOW = 150;

/**
 * Ways for a dryer's run, by the code's length and by what the air feels.
 *
 * A calculator; its page is `docs/rules/venting/duct-options.md`.
 */
export const ductOptions = defineCalculator({
  id: "venting/duct-options",
  title: "Ways for a dryer's run, by the code's length and by what the air feels",
  since: "0.1.0",
  input: ductOptionsInput,
  outputs: {
    bestByCode: { kind: "text", what: "Least by the code's reckoning" },
    bestByAir: { kind: "text", what: "Least resistance" },
    options: {
      list: {
        name: { kind: "text", what: "Way" },
        straight: { kind: "length", what: "Straight duct" },
        elbows90: { kind: "count", what: "Elbows above 45°" },
        elbows45: { kind: "count", what: "Elbows up to 45°" },
        developed: { kind: "length", what: "Length by the code" },
        margin: { kind: "length", what: "Left to the code's length" },
        resistance: { kind: "airPressure", what: "Resistance at the flow" },
      },
      what: "The ways side by side, least resistance first",
    },
  },
  basis: [darcyWeisbach, roughnessBasis],
  limits: [ductBaseLength, elbowAllowance, elbowsIncluded],
  messages: {
    missing: {
      nothingToCompare: "Give ways to compare, or a plan of the framing with the side of its cells.",
      diameterUnknown: "The diameter of the duct is needed.",
    },
    impossible: {
      noPlan: "The plan's rows must be of one length, of the letters S, E, # and . only, with one S and one E.",
      noWay: "No run gets from start to end without crossing what may not be crossed.",
      noLimit: "No text adopted here gives the code's length for this dryer.",
    },
  },
  cautions: ["fire", "deferral"],
  examples: [
    {
      title: "Two ways by hand: four mitred elbows or two of long radius",
      input: {
        fuel: "electric",
        exhaustRate: "150 cfm",
        diameter: "4 in",
        layouts: [
          { name: "round the joists", straight: "14 ft", elbows: [{ radius: "4 in mitred", angle: "90°", count: 4 }] },
          {
            name: "through the soffit",
            straight: "22 ft",
            elbows: [{ radius: "10 in smooth", angle: "90°", count: 2 }],
          },
        ],
      },
      gives: "computed",
    },
    {
      title: "A plan of joist bays with a beam in the way",
      input: {
        fuel: "naturalGas",
        diameter: "4 in",
        cell: "16 in",
        plan: ["S.........", "....####..", "....####..", ".........E"],
      },
      gives: "computed",
    },
    { title: "Nothing to compare", input: { fuel: "electric", diameter: "4 in" }, gives: "nothingToCompare" },
    {
      title: "Diameter not given",
      input: { fuel: "electric", layouts: [{ name: "straight out", straight: "4 ft", elbows: [] }] },
      gives: "diameterUnknown",
    },
    {
      title: "A plan without an end",
      input: { fuel: "electric", diameter: "4 in", cell: "16 in", plan: ["S..."] },
      gives: "noPlan",
    },
    {
      title: "A wall across the plan",
      input: { fuel: "electric", diameter: "4 in", cell: "16 in", plan: ["S.#.E"] },
      gives: "noWay",
    },
    {
      title: "A text without a length",
      input: { fuel: "electric", diameter: "4 in", layouts: [{ name: "straight out", straight: "4 ft", elbows: [] }] },
      at: { jurisdiction: { adopted: { imc: 2006, ifgc: 2006 }, building: "multifamily" } },
      gives: "noLimit",
    },
  ],
  compute(input, ask) {
    const { limit, assume, formula, missing, impossible } = ask;
    const { fuel, exhaustRate, diameter, straight, elbows, layouts = [], plan: lines, cell, diagonals = true } = input;
    const surveyed = straight !== undefined && elbows !== undefined;
    if (layouts.length === 0 && (lines === undefined || cell === undefined))
      return missing(["nothingToCompare"], ...(lines === undefined ? [["layouts"], ["plan"]] : [["cell"]]));
    if (diameter === undefined) return missing(["diameterUnknown"], ["diameter"]);
    const base = limit(ductBaseLength, fuel);
    if (!base) return impossible(["noLimit"]);
    const flow = exhaustRate !== undefined && exhaustRate > 0 ? exhaustRate : si(USUAL_FLOW, "cfm");
    if (flow !== exhaustRate) assume(`The resistance is taken at ${USUAL_FLOW} cfm.`);
    // Air of 50 °C and 50 % at sea level is far from steam, so there always is a state.
    const air: DuctAir = siteAir({})!;
    assume(
      "The air is that of the middle of a cycle: 50 °C, 50 % relative humidity, at sea level; new galvanized duct.",
    );
    const roughness = si(wallRoughness["new galvanized"], "mm");
    const foot: Piece = { piece: "straight", length: si(1, "m"), roughness };

    const found: Candidate[] = layouts.map(({ name, straight: run, elbows: turns }) => ({
      name,
      straight: run,
      elbows: turns,
    }));
    if (surveyed) found.push({ name: "as surveyed", straight, elbows });
    if (lines !== undefined && cell !== undefined) {
      const plan = readPlan(lines);
      if (!plan) return impossible(["noPlan"]);
      const included = limit(elbowsIncluded, fuel)?.value ?? 0;
      const free90 = included > ALL_FREE ? 0 : included;
      const perMetre = pieceLoss(foot, diameter, air, flow).loss;
      for (const radius of elbowRadii) {
        const each = (angle: 45 | 90) => limit(elbowAllowance, fuel, { radius, angle })?.value;
        const feel = (angle: 45 | 90) => pieceLoss(pieceOf(radius, angle), diameter, air, flow).loss;
        const by45 = each(45);
        const by90 = each(90);
        if (by45 === undefined || by90 === undefined) return impossible(["noLimit"]);
        const across = cell * Math.SQRT2;
        const ways = [
          {
            measure: "least code length",
            straight: cell,
            diagonal: across,
            turn45: by45,
            turn90: included > ALL_FREE ? 0 : by90,
            free90,
          },
          {
            measure: "least resistance",
            straight: cell * perMetre,
            diagonal: across * perMetre,
            turn45: feel(45),
            turn90: feel(90),
            free90: 0,
          },
        ];
        const routes: Route[] = [];
        for (const { measure: _, diagonal, ...costs } of ways) {
          const route = cheapestRoute(plan, diagonals ? { ...costs, diagonal } : costs);
          if (!route) return impossible(["noWay"]);
          routes.push(route);
        }
        const [byCode, byAir] = routes as [Route, Route];
        if (isAlike(byCode, byAir)) found.push(fromRoute(radius, byCode, cell, radius));
        else
          routes.forEach(
            (route, i) => void found.push(fromRoute(`${radius}, ${ways[i]!.measure}`, route, cell, radius)),
          );
      }
      assume("Elbows are of one radius along a run and turn at the middle of a cell.");
    }

    const allowed = brand<"length">(base.value);
    const options = found.flatMap((one) => {
      const reckoned = reckon(one.elbows, fuel, ask);
      if (!reckoned) return [];
      const developed = plainLength(developedLength(one.straight, reckoned.deductions));
      const count = (isSharp: boolean) =>
        one.elbows.reduce(
          (sum, elbow) => sum + (elbow.angle > si(45, "deg") * (1 + 1e-9) === isSharp ? elbow.count : 0),
          0,
        );
      const run = siteRun({ diameter, straight: one.straight, elbows: [...one.elbows] }).run!;
      const resistance: Pressure = runLoss(run.pieces, diameter, air, flow);
      const margin = brand<"length">(allowed - developed);
      return [
        {
          name: one.name,
          straight: one.straight,
          elbows90: count(true),
          elbows45: count(false),
          developed,
          margin,
          resistance,
        },
      ];
    });
    if (options.length < found.length) return impossible(["noLimit"]);
    const byAir = options.toSorted((a, b) => a.resistance - b.resistance);
    const byCode = options.toSorted((a, b) => a.developed - b.developed);
    const best = byCode[0]!;
    formula("{developed:length} = {straight:length} + {fittings:length}", {
      developed: best.developed,
      straight: best.straight,
      fittings: brand<"length">(best.developed - best.straight),
    });
    const shown = [...new Set([byCode[0]!, ...byAir])].slice(0, MOST_SHOWN);
    return {
      bestByCode: byCode[0]!.name,
      bestByAir: byAir[0]!.name,
      options: byAir.filter((one) => shown.includes(one)),
    };
  },
});
