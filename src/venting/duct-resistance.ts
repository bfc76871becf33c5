import * as z from "zod";
import { brand, type Pressure } from "../core/quantity/index.js";
import { defineCalculator, machineFacts } from "../core/rule/index.js";
import { circleArea, darcyFactor, meanVelocity, reynolds, velocityPressure } from "../physics/index.js";
import { darcyWeisbach } from "./basis.js";
import { hydraulicLength, plainLength } from "./lengths.js";
import { lengthOf, pieceLoss } from "./run.js";
import { airFields, runFields, siteAir, siteRun } from "./run-input.js";
import { compressionBasis, roughnessBasis, wallRoughness } from "./tables/roughness.js";

export const ductResistanceInput = z.strictObject({
  exhaustRate: machineFacts.exhaustRate,
  ...runFields,
  ...airFields,
});

/** Pressure that a dryer's run takes at a flow. A calculator; its page is `docs/rules/venting/duct-resistance.md`. */
export const ductResistance = defineCalculator({
  id: "venting/duct-resistance",
  title: "Pressure that a dryer's run takes at a flow",
  since: "0.1.0",
  input: ductResistanceInput,
  outputs: {
    total: { kind: "airPressure", what: "Pressure lost along the run, exit included" },
    atMachine: { kind: "airPressure", what: "Static pressure at the machine's outlet" },
    speed: { kind: "speed", what: "Air speed in the full bore" },
    reynoldsNumber: { kind: "number", what: "Reynolds number" },
    hydraulic: { kind: "length", what: "Length of straight duct that all fittings together are worth at this flow" },
    profile: {
      list: {
        from: { kind: "length", what: "Distance from the machine" },
        what: { kind: "text", what: "Piece" },
        loss: { kind: "airPressure", what: "Lost in it" },
        left: { kind: "airPressure", what: "Still to be lost after it" },
      },
      what: "Pressure along the run",
    },
  },
  basis: [darcyWeisbach, roughnessBasis],
  limits: [],
  messages: {
    missing: {
      runUnknown: "The diameter and the run are needed.",
      flowUnknown: "The flow is needed: what the machine exhausts, from its sheet.",
    },
    impossible: { steam: "Air of this temperature and humidity would be nearly all steam at this altitude." },
  },
  cautions: ["fire", "deferral"],
  examples: [
    {
      title: "A run of 25 ft with two ordinary elbows at 150 cfm",
      input: {
        exhaustRate: "150 cfm",
        diameter: "4 in",
        straight: "25 ft",
        elbows: [{ radius: "4 in mitred", angle: "90°", count: 2 }],
      },
      gives: "computed",
    },
    {
      title: "A flattened transition duct, piece by piece",
      input: {
        exhaustRate: "150 cfm",
        diameter: "4 in",
        pieces: [
          { piece: "flexible", length: "5 ft", wall: "foil flexible", compression: "15 %" },
          { piece: "flat", length: "6 in", wall: "foil flexible", heightLeft: "50 %" },
          { piece: "elbow", make: "smooth", angle: "90°", radius: "6 in" },
          { piece: "straight", length: "20 ft", wall: "linted metal" },
          { piece: "obstruction", open: "80 %" },
          { piece: "elbow", make: "single mitre", angle: "45°" },
        ],
        airTemperature: "55 °C",
        airHumidity: "40 %",
        altitude: "5000 ft",
        hoodLoss: 2.5,
      },
      gives: "computed",
    },
    { title: "No run", input: { exhaustRate: "150 cfm" }, gives: "runUnknown" },
    { title: "No flow", input: { diameter: "4 in", straight: "25 ft", elbows: [] }, gives: "flowUnknown" },
    {
      title: "Steam",
      input: {
        exhaustRate: "150 cfm",
        diameter: "4 in",
        straight: "25 ft",
        elbows: [],
        airTemperature: "95 °C",
        airHumidity: "100 %",
        altitude: "3000 m",
      },
      gives: "steam",
    },
  ],
  compute(input, { assume, rest, formula, missing, impossible }) {
    const found = siteRun(input);
    if (found.gap) return missing(["runUnknown"], ...found.gap);
    const { run } = found;
    const flow = input.exhaustRate;
    if (flow === undefined) return missing(["flowUnknown"], ["exhaustRate"]);
    const air = siteAir(input);
    if (!air) return impossible(["steam"]);
    for (const text of [...found.assumed, ...air.assumed]) assume(text);
    assume("The losses of elbows near each other are added up as if they stood alone.");
    if (run.pieces.some((piece) => piece.piece === "flexible" && piece.compression > 0)) rest(compressionBasis);

    const { diameter, pieces } = run;
    const { density, viscosity } = air;
    const area = circleArea(diameter);
    const speed = meanVelocity(flow, area);
    const pv = velocityPressure(density, speed);
    const re = reynolds(speed, diameter, density, viscosity);
    const losses = pieces.map((piece) => pieceLoss(piece, diameter, air, flow).loss);
    const total = brand<"pressure">(losses.reduce<number>((sum, loss) => sum + loss, 0));
    const atMachine = brand<"pressure">(total - pv);

    const isDuct = (i: number) => pieces[i]!.piece === "straight" || pieces[i]!.piece === "flexible";
    const along = brand<"pressure">(losses.reduce<number>((sum, loss, i) => sum + (isDuct(i) ? loss : 0), 0));
    const fittings = brand<"pressure">(losses.reduce<number>((sum, loss, i) => sum + (isDuct(i) ? 0 : loss), 0));
    formula("{speed:speed} = {flow:volumeFlow} / (pi / 4 * {diameter:inches}^2)", { speed, flow, diameter });
    formula("{pv:airPressure} = {density:density} * {speed:speed}^2 / 2", { pv, density, speed });
    formula("{re:number} = {density:density} * {speed:speed} * {diameter:inches} / {viscosity:viscosity}", {
      re,
      density,
      speed,
      diameter,
      viscosity,
    });
    formula("{total:airPressure} = {along:airPressure} + {fittings:airPressure}", { total, along, fittings });
    formula("{atMachine:airPressure} = {total:airPressure} - {pv:airPressure}", { atMachine, total, pv });

    let from = 0;
    let left: number = total;
    const profile = pieces.map((piece, i) => {
      const at = brand<"length">(from);
      from += lengthOf(piece);
      left -= losses[i]!;
      return { from: at, what: run.about[i]!.what, loss: losses[i]!, left: restOf(left, total) };
    });
    const factor = re > 0 ? darcyFactor(re, Math.min(0.05, (wallRoughness["new galvanized"] * 1e-3) / diameter)) : null;
    const hydraulic =
      factor === null || pv === 0 ? null : plainLength(hydraulicLength(fittings / pv, diameter, factor));
    return { total, atMachine, speed, reynoldsNumber: re, hydraulic, profile };
  },
});

/** What is left of a sum; the last bits of a subtraction that ends at nothing are nothing. */
const restOf = (left: number, whole: number): Pressure => brand<"pressure">(Math.abs(left) <= 1e-12 * whole ? 0 : left);
