import * as z from "zod";
import { brand, type Length, type Pressure, si, type VolumeFlow } from "../core/quantity/index.js";
import { defineRule, type Outcome, quantity } from "../core/rule/index.js";
import { brent, circleArea, frictionLoss, meanVelocity, waterDensity, waterViscosity } from "../physics/index.js";
import { darcyBasis } from "./basis.js";
import { machineLeast } from "./limits.js";
import { waterBore } from "./supply-loss.js";
import { supplyPressureInput } from "./supply-pressure.js";
import { usualWater, waterPipeRows } from "./tables/water-pipe.js";
import { takesWater, waterFacts, waterQuestion } from "./water.js";

const hoses = ["hose 3/8", "hose 1/2"] as const;

/** Schema of one branch of a Y: the hose and what its machine needs. */
export const splitBranchInput = z.strictObject({
  hose: z.enum(hoses).describe("Bore of the hose from the Y to the machine; a braided hose has 3/8 in"),
  length: quantity("length", { min: [6, "in"], max: [50, "ft"] }).describe("Length of that hose"),
  ratedFlow: quantity("volumeFlow", { min: [0.1, "gpm"], max: [20, "gpm"] }).describe(
    "Flow that the machine's valve lets through at its rated pressure, from the sheet",
  ),
  ratedPressure: quantity("pressure", { min: [1, "psi"], max: [150, "psi"] }).describe(
    "Pressure at the valve for that flow, from the same sheet",
  ),
});

export const flowSplitInput = z.strictObject({
  ...waterFacts,
  isShared: z.boolean().optional().describe("Whether a Y on this valve feeds two machines"),
  staticPressure: supplyPressureInput.shape.staticPressure,
  tapPressure: quantity("pressure", { min: [0, "psi"], max: [400, "psi"] })
    .optional()
    .describe("Pressure at this valve while it runs into a bucket; a gauge on a tee shows it"),
  tapFlow: quantity("volumeFlow", { min: [0.1, "gpm"], max: [50, "gpm"] })
    .optional()
    .describe("Flow from this valve while that pressure was read, by bucket and watch"),
  branches: z
    .array(splitBranchInput)
    .max(2)
    .optional()
    .describe("The two machines on the Y, each with its hose and valve"),
});

/** What is known of a supply at one tap: at rest, and at one flow. */
export interface TapReading {
  /** With nothing running [Pa]. */
  readonly atRest: Pressure;
  /** With `flow` running; below `atRest` [Pa]. */
  readonly flowing: Pressure;
  /** Flow at that reading, above 0 [m³/s]. */
  readonly flow: VolumeFlow;
}

/** A hose with a machine's valve at its end. */
export interface Branch {
  readonly hose: (typeof hoses)[number];
  readonly length: Length;
  readonly ratedFlow: VolumeFlow;
  readonly ratedPressure: Pressure;
}

/** What runs in each branch. */
export interface SplitFlow {
  /** Pressure at the Y [Pa]. */
  readonly atY: Pressure;
  readonly flows: readonly VolumeFlow[];
  /** Pressure at each machine's valve [Pa]. */
  readonly atValves: readonly Pressure[];
}

const temperature = () => si(usualWater.cold_C, "degC");

/** Loss of cold water in a hose [Pa]. */
function hoseLoss({ hose, length }: Branch, flow: number): Pressure {
  const diameter = waterBore(hose);
  const roughness = si(waterPipeRows[hose].roughness_mm, "mm");
  const velocity = meanVelocity(brand<"volumeFlow">(flow), circleArea(diameter));
  const density = waterDensity(temperature());
  return frictionLoss({ velocity, diameter, roughness, density, viscosity: waterViscosity(temperature()) }, length);
}

const atValve = ({ ratedFlow, ratedPressure }: Branch, flow: number): number => ratedPressure * (flow / ratedFlow) ** 2;

/** Flow of one branch at a pressure at the Y: what the hose loses and the valve takes add up to it. */
function branchFlow(branch: Branch, pressure: number): number {
  if (pressure <= 0) return 0;
  const most = branch.ratedFlow * Math.sqrt(pressure / branch.ratedPressure);
  return brent((flow) => hoseLoss(branch, flow) + atValve(branch, flow) - pressure, 0, most, 1e-18);
}

/**
 * Flow in each branch of a Y fed by a tap, by the pressure found.
 *
 * The supply falls with the square of its flow, from the reading at rest through the flowing one; a hose loses by Darcy
 * and Weisbach; a valve takes p = p_rated·(q/q_rated)². What leaves the Y is what enters it. Valves with a flow washer
 * take less than this at high pressure.
 *
 * @param tap - the two readings
 * @param branches - hoses and valves that are open
 * @example splitFlow({ atRest: si(60, "psi"), flowing: si(40, "psi"), flow: si(5, "gpm") }, []).flows // []
 */
export function splitFlow({ atRest, flowing, flow }: TapReading, branches: readonly Branch[]): SplitFlow {
  const flowsAt = (pressure: number): number[] => branches.map((branch) => branchFlow(branch, pressure));
  const total = (pressure: number): number => flowsAt(pressure).reduce((sum, one) => sum + one, 0);
  const supply = (pressure: number): number => atRest - (atRest - flowing) * (total(pressure) / flow) ** 2 - pressure;
  const atY = branches.length === 0 ? atRest : brand<"pressure">(brent(supply, 0, atRest, 1e-9));
  const flows = flowsAt(atY);
  return {
    atY,
    flows: flows.map((one) => brand<"volumeFlow">(one)),
    atValves: branches.map((branch, i) => brand<"pressure">(atValve(branch, flows[i]!))),
  };
}

/**
 * Two machines on one valve each get what their valve needs.
 *
 * A rule; its page is `docs/rules/plumbing/flow-split.md`.
 */
export const flowSplit = defineRule({
  id: "plumbing/flow-split",
  title: "Two machines on one valve each get what their valve needs",
  since: "0.1.0",
  input: flowSplitInput,
  basis: [darcyBasis],
  limits: [machineLeast],
  messages: {
    pass: {
      enough:
        "With both filling, machine {n:count} gets {flow:waterFlow} at {pressure:pressure}; {least:pressure} is needed (alone it gets {alone:waterFlow}).",
      readingsAgree: "The flowing pressure reads below the static one, as it must.",
    },
    fail: {
      starved:
        "With both filling, machine {n:count} gets only {flow:waterFlow} at {pressure:pressure}; {least:pressure} is needed (alone it gets {alone:waterFlow}).",
      readingsCrossed: "The flowing pressure reads above the static one, which cannot be; read both again.",
    },
    review: {
      waterUnknown: "Say whether the machine takes water.",
      sharedUnknown: "Say whether a Y on this valve feeds two machines.",
      readingsUnknown: "The static and flowing pressure at this valve, and the flow of the second reading, are needed.",
      branchesUnknown: "Name both machines on the Y with their hoses and valves.",
    },
    notApplicable: {
      noWater: "This machine takes no water.",
      notShared: "The machine has its valve to itself.",
    },
  },
  cautions: ["water", "deferral"],
  examples: [
    {
      title: "A steam dryer on the washer's cold valve",
      input: {
        kind: "dryer",
        steam: true,
        isShared: true,
        staticPressure: "60 psi",
        tapPressure: "45 psi",
        tapFlow: "5 gpm",
        branches: [
          { hose: "hose 3/8", length: "5 ft", ratedFlow: "2.5 gpm", ratedPressure: "20 psi" },
          { hose: "hose 3/8", length: "5 ft", ratedFlow: "0.25 gpm", ratedPressure: "20 psi" },
        ],
      },
      gives: "enough",
    },
    {
      title: "Two washers on a tired galvanized line",
      input: {
        kind: "washer",
        isShared: true,
        staticPressure: "45 psi",
        tapPressure: "12 psi",
        tapFlow: "4 gpm",
        branches: [
          { hose: "hose 3/8", length: "6 ft", ratedFlow: "3 gpm", ratedPressure: "20 psi" },
          { hose: "hose 3/8", length: "12 ft", ratedFlow: "3 gpm", ratedPressure: "20 psi" },
        ],
      },
      gives: "starved",
    },
    {
      title: "Readings in the wrong boxes",
      input: {
        kind: "washer",
        isShared: true,
        staticPressure: "40 psi",
        tapPressure: "50 psi",
        tapFlow: "4 gpm",
        branches: [
          { hose: "hose 3/8", length: "5 ft", ratedFlow: "2 gpm", ratedPressure: "20 psi" },
          { hose: "hose 3/8", length: "5 ft", ratedFlow: "2 gpm", ratedPressure: "20 psi" },
        ],
      },
      gives: "readingsCrossed",
    },
    { title: "Pressures not read", input: { kind: "washer", isShared: true }, gives: "readingsUnknown" },
    {
      title: "One machine named",
      input: { kind: "washer", isShared: true, staticPressure: "60 psi", tapPressure: "45 psi", tapFlow: "5 gpm" },
      gives: "branchesUnknown",
    },
    { title: "Nobody said whether there is a Y", input: { kind: "washer" }, gives: "sharedUnknown" },
    { title: "A valve of its own", input: { kind: "washer", isShared: false }, gives: "notShared" },
    { title: "A refrigerator", input: { kind: "refrigerator" }, gives: "waterUnknown" },
    { title: "A range", input: { kind: "range" }, gives: "noWater" },
  ],
  check(input, { all, assume, formula, judge, limit, missing, say }) {
    const { kind, isShared, staticPressure, tapPressure, tapFlow, branches = [] } = input;
    const wet = takesWater(input);
    if (wet === false) return say("noWater");
    if (wet === undefined) return missing(["waterUnknown"], [waterQuestion(kind)]);
    if (isShared === undefined) return missing(["sharedUnknown"], ["isShared"]);
    if (!isShared) return say("notShared");
    if (staticPressure === undefined || tapPressure === undefined || tapFlow === undefined) {
      const open = { staticPressure, tapPressure, tapFlow };
      const absent = Object.entries(open).flatMap(([name, value]) => (value === undefined ? [[name]] : []));
      return missing(["readingsUnknown"], ...absent);
    }
    if (branches.length < 2) return missing(["branchesUnknown"], ["branches"]);
    const order = judge({
      kind: "pressure",
      measured: tapPressure,
      limit: staticPressure,
      sense: "atMost",
      pass: ["readingsAgree"],
      fail: ["readingsCrossed"],
    });
    if (tapPressure >= staticPressure) return order;
    const least = limit(machineLeast);
    if (!least) return order;

    assume("Both valves are taken to be wide open at once, without flow washers, and the water at 15 °C.");
    const tap = { atRest: staticPressure, flowing: tapPressure, flow: tapFlow };
    const { atY, flows, atValves } = splitFlow(tap, branches);
    const [first, second] = flows as [VolumeFlow, VolumeFlow];
    const total = brand<"volumeFlow">(first + second);
    formula("{total:waterFlow} = {first:waterFlow} + {second:waterFlow}", { total, first, second });
    formula(
      "{atY:pressure} = {rest:pressure} - ({rest:pressure} - {flowing:pressure}) * ({total:waterFlow} / {tap:waterFlow})^2",
      { atY, rest: staticPressure, flowing: tapPressure, total, tap: tapFlow },
    );
    const machine = (branch: Branch, i: number): Outcome => {
      const flow = flows[i]!;
      const pressure = atValves[i]!;
      const [alone] = splitFlow(tap, [branch]).flows as [VolumeFlow];
      formula("{pressure:pressure} = {rated:pressure} * ({flow:waterFlow} / {ratedFlow:waterFlow})^2", {
        pressure,
        rated: branch.ratedPressure,
        flow,
        ratedFlow: branch.ratedFlow,
      });
      const slots = { n: i + 1, flow, pressure, least: brand<"pressure">(least.value), alone };
      return judge({
        kind: "pressure",
        measured: pressure,
        limit: least,
        pass: ["enough", slots],
        fail: ["starved", slots],
      });
    };
    return all(...branches.map(machine), order);
  },
});
