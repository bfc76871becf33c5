/** Where a dryer's blower meets its run. Numerics and the fields that ask for the blower. */
import * as z from "zod";
import {
  brand,
  type Density,
  type Length,
  type Pressure,
  type Speed,
  si,
  type VolumeFlow,
} from "../core/quantity/index.js";
import { quantity, type Read } from "../core/rule/index.js";
import {
  dryAirDensity,
  type FanCurve,
  fanCurve,
  type OperatingPoint,
  operatingPoint,
  pressureAtAltitude,
  stackPressure,
  windPressure,
} from "../physics/index.js";
import { backPressure, type DuctAir, type Piece } from "./run.js";
import { genericBlower, standardDensity, windCoefficients } from "./tables/blower.js";

const blowerPoint = z.strictObject({
  flow: quantity("volumeFlow", { max: [3000, "cfm"] }).describe("Flow"),
  pressure: quantity("pressure", { max: [10, "inH2O"] }).describe("Static pressure at the outlet at that flow"),
});

/** What is asked of the blower and of the weather. */
export const blowerFields = {
  blower: z
    .array(blowerPoint)
    .min(2)
    .max(30)
    .optional()
    .describe("The maker's blower points in standard air by rising flow; a generic blower where left out"),
  backPressureLimit: quantity("pressure", { min: [0.01, "inH2O"], max: [10, "inH2O"] })
    .optional()
    .describe("Greatest static pressure at the outlet that the maker allows"),
  rise: quantity("length", { max: [300, "ft"] })
    .optional()
    .describe("Height of the hood above the machine's outlet; 0 where left out"),
  drop: quantity("length", { max: [300, "ft"] })
    .optional()
    .describe("Height of the hood below the machine's outlet; 0 where left out"),
  outdoorTemperature: quantity("temperature", { min: [-50, "degC"], max: [50, "degC"] })
    .optional()
    .describe("Temperature outdoors; 5 °C where left out"),
  windSpeed: quantity("speed", { max: [100, "mph"] })
    .optional()
    .describe("Wind at the height of the hood; calm where left out"),
  windSide: z
    .enum(["windward", "along", "away"])
    .optional()
    .describe("How the hood's wall looks to the wind; windward where a wind is given"),
} as const;

const schema = z.strictObject(blowerFields);
type BlowerInput = Read<z.output<typeof schema>>;

/** Steps of the generic curve: fine enough that straight lines between them are within 0.01 % of it. */
const STEPS = 230;

/** The generic blower as points in standard air. */
export function genericCurve(): FanCurve {
  const points = Array.from({ length: STEPS + 1 }, (_, i) => {
    const flow = (genericBlower.free * i) / STEPS;
    const pressure = genericBlower.shutOff * (1 - (flow / genericBlower.free) ** 2);
    return { flow: si(flow, "cfm"), pressure: si(Math.max(0, pressure), "inH2O") };
  });
  return fanCurve(points);
}

/** The blower of an input, or what is wrong with its points. */
export function blowerOf(input: Pick<BlowerInput, "blower">): FanCurve | undefined {
  if (!input.blower) return genericCurve();
  const falls = input.blower.every(
    (point, i, all) => i === 0 || (point.flow > all[i - 1]!.flow && point.pressure <= all[i - 1]!.pressure),
  );
  return falls ? fanCurve(input.blower) : undefined;
}

/** What pushes or pulls at the hood beside the blower. */
export interface Driving {
  /** Lift of the warm column, positive where it helps [Pa]. */
  readonly stack: Pressure;
  /** Wind pressure on the hood, positive where it hinders [Pa]. */
  readonly wind: Pressure;
}

/** Stack and wind of an input. */
export function drivingOf(
  input: BlowerInput,
  air: DuctAir,
  altitude: Length,
): Driving & { readonly assumed: string[] } {
  const assumed: string[] = [];
  const outdoor = input.outdoorTemperature ?? si(5, "degC");
  const height = brand<"length">((input.rise ?? 0) - (input.drop ?? 0));
  if (input.rise === undefined && input.drop === undefined)
    assumed.push("The hood is level with the machine's outlet.");
  else if (input.outdoorTemperature === undefined) assumed.push("It is 5 °C outdoors.");
  const outside = dryAirDensity(outdoor, pressureAtAltitude(altitude));
  const stack = height === 0 ? brand<"pressure">(0) : stackPressure(outside, air.density, height);
  const speed = input.windSpeed ?? brand<"speed">(0);
  if (input.windSpeed === undefined) assumed.push("There is no wind.");
  const coefficient = windCoefficients[input.windSide ?? "windward"];
  return { stack, wind: windAt(outside, speed, coefficient), assumed };
}

const windAt = (density: Density, speed: Speed, coefficient: number): Pressure =>
  speed === 0 ? brand<"pressure">(0) : windPressure(density, speed, coefficient);

/** A curve given in standard air, in air of another density: the flow stays, the pressure goes with the density. */
export function inAir(curve: FanCurve, density: Density): FanCurve {
  const factor = density / standardDensity;
  return fanCurve(curve.points.map(({ flow, pressure }) => ({ flow, pressure: brand<"pressure">(pressure * factor) })));
}

/** A blower on a run in its air. */
export interface Meeting {
  readonly curve: FanCurve;
  readonly pieces: readonly Piece[];
  readonly diameter: Length;
  readonly air: DuctAir;
  readonly driving: Driving;
}

/** Static pressure that the machine's outlet must have for a flow [Pa]: what the run takes, less the lift, plus the wind. */
export const needed = ({ pieces, diameter, air, driving }: Omit<Meeting, "curve">, flow: VolumeFlow): number =>
  backPressure(pieces, diameter, air, flow) - driving.stack + driving.wind;

/**
 * Where the blower meets the run.
 *
 * @param meeting - the blower's curve in the air at hand, the run, and what drives it
 */
export function meet(meeting: Meeting): OperatingPoint {
  return operatingPoint(meeting.curve, (flow) => needed(meeting, flow));
}
