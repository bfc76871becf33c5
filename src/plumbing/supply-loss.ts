import * as z from "zod";
import {
  brand,
  type Density,
  type Length,
  type Pressure,
  type Ratio,
  type Speed,
  si,
  type Temperature,
  type VolumeFlow,
} from "../core/quantity/index.js";
import { defineCalculator, machineFacts, quantity } from "../core/rule/index.js";
import {
  circleArea,
  darcyFactor,
  type FlowRegime,
  fittingLoss,
  flowRegime,
  frictionLoss,
  hazenWilliamsHead,
  meanVelocity,
  reynolds,
  STANDARD_GRAVITY,
  waterDensity,
  waterViscosity,
} from "../physics/index.js";
import { darcyBasis, hazenBasis } from "./basis.js";
import { supplyPressureInput } from "./supply-pressure.js";
import { usualWater, type WaterPipe, waterPipeRows, waterPipes } from "./tables/water-pipe.js";
import { supplyFact, takesWater } from "./water.js";

/** Schema of a run of water pipe. */
export const waterRunInput = z.strictObject({
  pipe: z.enum(waterPipes).describe("Pipe or hose of the run, by material and nominal size"),
  length: quantity("length", { min: [1, "in"], max: [1000, "ft"] }).describe("Length of the run along the pipe"),
  losses: z
    .number()
    .min(0)
    .max(200)
    .optional()
    .describe("Loss coefficients of its fittings added up: an elbow 0.3 to 0.9, a sharp entrance 0.5, an open exit 1"),
});

export const supplyLossInput = z.strictObject({
  kind: machineFacts.kind.optional(),
  steam: machineFacts.steam,
  supply: supplyFact,
  flowPressure: supplyPressureInput.shape.flowPressure,
  rise: supplyPressureInput.shape.rise,
  flow: quantity("volumeFlow", { min: [0.01, "gpm"], max: [50, "gpm"] })
    .optional()
    .describe("Flow that the machine fills with, from its sheet or a bucket and a watch"),
  runs: z
    .array(waterRunInput)
    .max(20)
    .optional()
    .describe("Pipes and hoses one after another from the gauge to the machine"),
  temperature: quantity("temperature", { min: [1, "degC"], max: [95, "degC"] })
    .optional()
    .describe("Temperature of the water; 15 °C where left out"),
  fill: quantity("volume", { min: [0.01, "L"], max: [500, "L"] })
    .optional()
    .describe("Water that one fill takes"),
});

/** Inside diameter of a water pipe or hose [m]. */
export const waterBore = (pipe: WaterPipe): Length => si(waterPipeRows[pipe].bore_in, "in");

/** What a run of pipe does to a flow. */
export interface RunLoss {
  readonly velocity: Speed;
  readonly reynolds: number;
  readonly regime: FlowRegime;
  /** Darcy friction factor. */
  readonly factor: number;
  /** Loss by Darcy and Weisbach, fittings included [Pa]. */
  readonly darcy: Pressure;
  /** Loss by Hazen and Williams, fittings included [Pa]. */
  readonly hazen: Pressure;
}

/**
 * Pressure that water loses in a run of pipe or hose, by two formulas.
 *
 * Darcy and Weisbach with Colebrook's factor holds at every temperature and speed and is the one used; Hazen and
 * Williams knows only cold water near 1 m/s and stands beside it because the trade's tables are made with it.
 *
 * @param pipe - by material and nominal size
 * @param length - of straight pipe [m]
 * @param losses - loss coefficients of the fittings added up
 * @param flow - above 0 [m³/s]
 * @param temperature - of the water [K]
 * @example runLoss("copper L 1/2", si(50, "ft"), 0, si(4, "gpm"), si(15, "degC")).darcy // 40203.6
 */
export function runLoss(
  pipe: WaterPipe,
  length: Length,
  losses: number,
  flow: VolumeFlow,
  temperature: Temperature,
): RunLoss {
  const { roughness_mm, coefficient } = waterPipeRows[pipe];
  const diameter = waterBore(pipe);
  const roughness = si(roughness_mm, "mm");
  const density = waterDensity(temperature);
  const viscosity = waterViscosity(temperature);
  const velocity = meanVelocity(flow, circleArea(diameter));
  const re = reynolds(velocity, diameter, density, viscosity);
  const fitted = fittingLoss(losses, density, velocity);
  const straight = frictionLoss({ velocity, diameter, roughness, density, viscosity }, length);
  const head = hazenWilliamsHead(flow, diameter, length, coefficient);
  return {
    velocity,
    reynolds: re,
    regime: flowRegime(re),
    factor: darcyFactor(re, roughness / diameter),
    darcy: brand<"pressure">(straight + fitted),
    hazen: brand<"pressure">(density * STANDARD_GRAVITY * head + fitted),
  };
}

/**
 * Water pressure left at the machine while it fills.
 *
 * A calculator; its page is `docs/rules/plumbing/supply-loss.md`.
 */
export const supplyLoss = defineCalculator({
  id: "plumbing/supply-loss",
  title: "Water pressure left at the machine while it fills",
  since: "0.1.0",
  input: supplyLossInput,
  outputs: {
    loss: { kind: "pressure", what: "pressure lost, by Darcy and Weisbach, which is used" },
    hazen: { kind: "pressure", what: "the same by Hazen and Williams, beside it" },
    differs: { kind: "ratio", what: "how far the second is from the first" },
    lift: { kind: "pressure", what: "pressure taken by the height" },
    left: { kind: "pressure", what: "pressure left at the machine" },
    fastest: { kind: "waterSpeed", what: "greatest speed of the water" },
    fillTime: { kind: "time", what: "time of one fill" },
    runs: {
      list: {
        pipe: { kind: "text", what: "pipe" },
        velocity: { kind: "waterSpeed", what: "speed of the water" },
        regime: { kind: "text", what: "how it runs" },
        loss: { kind: "pressure", what: "pressure lost" },
      },
      what: "run by run",
    },
  },
  basis: [darcyBasis, hazenBasis],
  limits: [],
  messages: {
    missing: {
      runsUnknown: "List the pipes and hoses from the gauge to the machine.",
      flowUnknown: "Say what flow the machine fills with.",
      pressureUnknown: "Measure the flowing pressure at the gauge and the height of the inlet above it.",
    },
    impossible: {
      noWater: "This machine takes no water.",
      usedUp: "The pipes would take {loss:pressure} of the {pressure:pressure} there is; this flow cannot run.",
    },
  },
  cautions: ["water", "scald", "deferral"],
  examples: [
    {
      title: "Fifty feet of 1/2 in copper and a hose",
      input: {
        flowPressure: "45 psi",
        rise: "0 in",
        flow: "4 gpm",
        runs: [
          { pipe: "copper L 1/2", length: "50 ft", losses: 3 },
          { pipe: "hose 3/8", length: "5 ft" },
        ],
        fill: "60 L",
      },
      gives: "computed",
    },
    {
      title: "Hot water upstairs through PEX",
      input: {
        flowPressure: "40 psi",
        rise: "12 ft",
        flow: "2.5 gpm",
        runs: [{ pipe: "PEX 1/2", length: "60 ft" }],
        temperature: "60 °C",
      },
      gives: "computed",
    },
    {
      title: "An ice maker at the end of a long tube, running slow",
      input: {
        flowPressure: "45 psi",
        rise: "0 in",
        flow: "0.1 gpm",
        runs: [{ pipe: "PE tube 1/4", length: "25 ft" }],
      },
      gives: "computed",
    },
    {
      title: "The same filled fast",
      input: { flowPressure: "30 psi", rise: "0 in", flow: "1 gpm", runs: [{ pipe: "PE tube 1/4", length: "25 ft" }] },
      gives: "usedUp",
    },
    { title: "A range", input: { kind: "range" }, gives: "noWater" },
    { title: "Pipes not listed", input: { flow: "4 gpm" }, gives: "runsUnknown" },
    { title: "Flow not known", input: { runs: [{ pipe: "PEX 1/2", length: "60 ft" }] }, gives: "flowUnknown" },
    {
      title: "Pressure not measured",
      input: { flow: "4 gpm", runs: [{ pipe: "PEX 1/2", length: "60 ft" }] },
      gives: "pressureUnknown",
    },
  ],
  compute(
    { kind, steam, supply, flowPressure, rise, flow, runs, temperature: given, fill },
    { assume, formula, impossible, missing },
  ) {
    if (kind !== undefined && takesWater({ kind, steam, supply }) === false) return impossible(["noWater"]);
    const later = Object.entries({ flowPressure, rise }).flatMap(([name, value]) =>
      value === undefined ? [[name]] : [],
    );
    const noFlow = flow === undefined ? [["flow"]] : [];
    if (runs === undefined || runs.length === 0) return missing(["runsUnknown"], ["runs"], ...noFlow, ...later);
    if (flow === undefined) return missing(["flowUnknown"], ["flow"], ...later);
    if (flowPressure === undefined || rise === undefined) return missing(["pressureUnknown"], ...later);
    const temperature = given ?? si(usualWater.cold_C, "degC");
    if (given === undefined) assume("The water is taken to be at 15 °C.");
    const density: Density = waterDensity(temperature);
    const found = runs.map(({ pipe, length, losses = 0 }) => {
      const made = runLoss(pipe, length, losses, flow, temperature);
      const { velocity, reynolds: re, factor, darcy, regime } = made;
      const bore = waterBore(pipe);
      const viscosity = waterViscosity(temperature);
      formula("{velocity:waterSpeed} = 4 * {flow:waterFlow} / (pi * {bore:thickness}^2)", { velocity, flow, bore });
      formula("{re:number} = {density:density} * {velocity:waterSpeed} * {bore:thickness} / {viscosity:viscosity}", {
        re,
        density,
        velocity,
        bore,
        viscosity,
      });
      if (regime === "laminar") formula("{factor:number} = 64 / {re:number}", { factor, re });
      if (regime === "turbulent") {
        formula(
          "{factor:number} = (-2 * log10({roughness:thickness} / {bore:thickness} / 3.7 + 2.51 / ({re:number} * sqrt({itself:number}))))^(-2)",
          { factor, roughness: si(waterPipeRows[pipe].roughness_mm, "mm"), bore, re, itself: factor },
        );
      }
      formula(
        "{loss:pressure} = ({factor:number} * {length:length} / {bore:thickness} + {losses:number}) * {density:density} * {velocity:waterSpeed}^2 / 2",
        { loss: darcy, factor, length, bore, losses, density, velocity },
      );
      return { pipe, ...made };
    });
    const sum = (pick: (one: RunLoss) => number): Pressure =>
      brand<"pressure">(found.reduce((total, one) => total + pick(one), 0));
    const loss = sum(({ darcy }) => darcy);
    const hazen = sum((one) => one.hazen);
    const lift = brand<"pressure">(density * STANDARD_GRAVITY * rise);
    formula("{lift:pressure} = {density:density} * {gravity:number} * (1 m/s^2) * {rise:length}", {
      lift,
      density,
      gravity: STANDARD_GRAVITY,
      rise,
    });
    const left = brand<"pressure">(flowPressure - loss - lift);
    if (left < 0) {
      return impossible(["usedUp", { loss: brand<"pressure">(loss + lift), pressure: flowPressure }]);
    }
    formula("{left:pressure} = {start:pressure} - {loss:pressure} - {lift:pressure}", {
      left,
      start: flowPressure,
      loss,
      lift,
    });
    return {
      loss,
      hazen,
      differs: brand<"ratio">((hazen - loss) / loss) as Ratio,
      lift,
      left,
      fastest: brand<"speed">(Math.max(...found.map(({ velocity }) => velocity))),
      fillTime: fill === undefined ? null : brand<"time">(fill / flow),
      runs: found.map(({ pipe, velocity, regime, darcy }) => ({ pipe, velocity, regime, loss: darcy })),
    };
  },
});
