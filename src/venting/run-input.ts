/** What the calculators of the air's side ask for, and how a surveyed run becomes pieces. */
import * as z from "zod";
import { brand, type Length, type Pressure, type Ratio, si, type Temperature } from "../core/quantity/index.js";
import { type Path, type QuantitySchema, quantity, type Read } from "../core/rule/index.js";
import {
  airViscosity,
  geopotentialHeight,
  humidityRatio,
  moistAirDensity,
  pressureAtAltitude,
  saturationPressure,
} from "../physics/index.js";
import type { Elbow } from "./developed.js";
import { ductConstructionInput } from "./duct-construction.js";
import { ductLengthInput } from "./duct-length.js";
import { type DuctAir, type Piece, roughestShare } from "./run.js";
import type { ElbowRadius } from "./tables/elbows.js";
import { hoodLossDefault, type WallKind, wallKinds, wallRoughness } from "./tables/roughness.js";
import { transitionDuctInput } from "./transition-duct.js";

/** Where a piece of duct runs. */
export const ductPlaces = ["room", "attic", "crawl space", "outdoors"] as const;
export type DuctPlace = (typeof ductPlaces)[number];

const share = quantity("ratio", { min: [1, "percent"], max: [100, "percent"] });
const where = {
  length: quantity("length", { min: [0.1, "in"], max: [500, "ft"] }).describe(
    "Length of the piece along its centreline",
  ),
  wall: z.enum(wallKinds).describe("What its inside is like"),
  place: z.enum(ductPlaces).optional().describe("Where it runs; the room where left out"),
  insulation: quantity("thermalResistance", { max: [60, "h*ft2*F/Btu"] })
    .optional()
    .describe("Thermal resistance of the wrap as labelled; none where left out"),
};

const pieceInput = z.discriminatedUnion("piece", [
  z.strictObject({ piece: z.literal("straight"), ...where }),
  z.strictObject({
    piece: z.literal("flexible"),
    ...where,
    compression: quantity("ratio", { max: [80, "percent"] })
      .optional()
      .describe("How far it is pushed together, in per cent of its stretched length; none where left out"),
  }),
  z.strictObject({
    piece: z.literal("elbow"),
    make: z.enum(["single mitre", "adjustable", "smooth"]).describe("How it is made; the common one is adjustable"),
    angle: quantity("angle", { min: [1, "deg"], max: [90, "deg"] }).describe("Angle it turns the duct through"),
    radius: quantity("length", { min: [1, "in"], max: [48, "in"] })
      .optional()
      .describe("Centreline radius of a smooth elbow; one and a half diameters where left out"),
  }),
  z.strictObject({
    piece: z.literal("flat"),
    length: where.length,
    wall: where.wall,
    heightLeft: share.describe("Height left where it is flattened, in per cent of the diameter"),
  }),
  z.strictObject({
    piece: z.literal("obstruction"),
    open: share.describe("Open share of the area, for a stuck flap or a lint plug"),
  }),
]);

/** The run, either as surveyed or piece by piece. */
export const runFields = {
  diameter: ductConstructionInput.shape.diameter,
  straight: ductLengthInput.shape.straight,
  elbows: ductLengthInput.shape.elbows,
  transition: transitionDuctInput.shape.length,
  pieces: z
    .array(pieceInput)
    .min(1)
    .max(60)
    .optional()
    .describe("The run piece by piece from the machine to the hood, in place of the lengths and elbows above"),
  wall: z.enum(wallKinds).optional().describe("Inside of the straight duct; new galvanized where left out"),
  hoodLoss: z
    .number()
    .min(1)
    .max(50)
    .optional()
    .describe("Loss coefficient of the hood with the exit in it, at least 1; 2 where left out"),
} as const;

/** The air in the run. */
export const airFields = {
  airTemperature: quantity("temperature", { min: [-20, "degC"], max: [95, "degC"] })
    .optional()
    .describe("Temperature of the exhaust air at the machine; 50 °C where left out"),
  airHumidity: quantity("ratio")
    .optional()
    .describe("Relative humidity of the exhaust air at the machine; 50 % where left out"),
  altitude: quantity("length", { max: [5000, "m"] })
    .optional()
    .describe("Height of the site above sea level; sea level where left out"),
} as const;

/** Temperature of a place that a duct runs through. */
export const placeTemperature = (): z.ZodOptional<QuantitySchema<"temperature">> =>
  quantity("temperature", { min: [-50, "degC"], max: [70, "degC"] }).optional();

/** Temperature of the room, which several calculators ask for. */
export const roomTemperature = placeTemperature().describe(
  "Temperature of the room and of the air that the machine takes in; 20 °C where left out",
);

const runSchema = z.strictObject({ ...runFields, ...airFields });
type RunInput = Read<z.output<typeof runSchema>>;
type PieceRead = NonNullable<RunInput["pieces"]>[number];

/** Exhaust air where nothing was measured: the middle of a cycle (common practice, no source). */
const USUAL = { temperature: 50, humidity: 0.5 } as const;

/** A run ready for the numerics, with where each piece is. */
export interface SiteRun {
  readonly diameter: Length;
  readonly pieces: readonly Piece[];
  /** Words, place and insulation of each piece [m²·K/W]. */
  readonly about: readonly { readonly what: string; readonly place: DuctPlace; readonly insulation: number }[];
}

const roughnessOf = (wall: WallKind): Length => si(wallRoughness[wall], "mm");

/** Elbows of the code's table as the air sees them: the mitred row is the ordinary adjustable elbow. */
function airElbow(radius: ElbowRadius): { make: "adjustable" | "smooth"; radius: Length } {
  const inches = Number.parseFloat(radius);
  return { make: radius.endsWith("mitred") ? "adjustable" : "smooth", radius: si(inches, "in") };
}

function fromPiece(
  one: PieceRead,
  diameter: Length,
): { piece: Piece; what: string; place: DuctPlace; insulation: number } {
  const place = "place" in one ? (one.place ?? "room") : "room";
  const insulation = "insulation" in one ? (one.insulation ?? 0) : 0;
  const at = { place, insulation };
  switch (one.piece) {
    case "straight":
      return {
        piece: { piece: "straight", length: one.length, roughness: roughnessOf(one.wall) },
        what: `straight, ${one.wall}`,
        ...at,
      };
    case "flexible":
      return {
        piece: {
          piece: "flexible",
          length: one.length,
          roughness: roughnessOf(one.wall),
          compression: one.compression ?? brand<"ratio">(0),
        },
        what: `flexible, ${one.wall}`,
        ...at,
      };
    case "elbow": {
      const radius = one.radius ?? brand<"length">(1.5 * diameter);
      return { piece: { piece: "elbow", make: one.make, angle: one.angle, radius }, what: `${one.make} elbow`, ...at };
    }
    case "flat":
      return {
        piece: { piece: "flat", length: one.length, heightLeft: one.heightLeft, roughness: roughnessOf(one.wall) },
        what: "flattened piece",
        ...at,
      };
    case "obstruction":
      return { piece: { piece: "obstruction", open: one.open }, what: "obstruction", ...at };
  }
}

/** The elbows spread evenly along the straight duct: their order costs the air next to nothing. */
function spread(straight: Length, elbows: readonly Elbow[], wall: WallKind): { piece: Piece; what: string }[] {
  const single = elbows.flatMap(({ radius, angle, count }) =>
    Array.from({ length: count }, () => ({
      piece: { piece: "elbow" as const, angle, ...airElbow(radius) },
      what: `${radius} elbow`,
    })),
  );
  const length = brand<"length">(straight / (single.length + 1));
  const leg = {
    piece: { piece: "straight" as const, length, roughness: roughnessOf(wall) },
    what: `straight, ${wall}`,
  };
  return length === 0 ? single : single.flatMap((elbow) => [leg, elbow]).concat([leg] as never);
}

/** What stands in the way of a run, or the run with what was taken for granted. */
export type RunOrGap =
  | { readonly gap: Path[]; readonly run?: undefined }
  | { readonly gap?: undefined; readonly run: SiteRun; readonly assumed: readonly string[] };

/** Makes the run of an input; the gap lists what is missing. */
export function siteRun(input: Pick<RunInput, keyof typeof runFields>): RunOrGap {
  const { diameter, straight, elbows, transition, pieces, wall = "new galvanized", hoodLoss } = input;
  const gap: Path[] = [];
  if (diameter === undefined) gap.push(["diameter"]);
  if (pieces === undefined && straight === undefined) gap.push(["straight"]);
  if (pieces === undefined && elbows === undefined) gap.push(["elbows"]);
  if (gap.length > 0 || diameter === undefined) return { gap };
  const assumed: string[] = [];
  const rows: { piece: Piece; what: string; place?: DuctPlace; insulation?: number }[] = [];
  if (pieces) rows.push(...pieces.map((one) => fromPiece(one, diameter)));
  else {
    if (transition !== undefined && transition > 0) {
      assumed.push("The transition duct is foil, fully stretched.");
      rows.push({
        piece: {
          piece: "flexible",
          length: transition,
          roughness: roughnessOf("foil flexible"),
          compression: brand<"ratio">(0),
        },
        what: "transition duct",
      });
    } else assumed.push("No transition duct is counted.");
    assumed.push(`The inside of the straight duct is ${wall}; its elbows are spread evenly along it.`);
    if (elbows!.some(({ radius }) => radius.endsWith("mitred")))
      assumed.push("A mitred elbow is the ordinary adjustable one: three joints.");
    rows.push(...spread(straight!, elbows!, wall));
  }
  if (hoodLoss === undefined)
    assumed.push(
      `The hood's loss coefficient with the exit is ${hoodLossDefault} (1.5 to 3 is common practice, no source).`,
    );
  rows.push({ piece: { piece: "hood", loss: hoodLoss ?? hoodLossDefault }, what: "hood and exit" });
  const roughest = Math.max(...rows.map(({ piece }) => ("roughness" in piece ? piece.roughness / diameter : 0)));
  if (roughest > roughestShare)
    assumed.push(
      "A wall rougher than a twentieth of the bore is reckoned as a twentieth: the friction equation ends there.",
    );
  if (rows.some(({ piece }) => piece.piece === "elbow" && piece.make === "smooth" && piece.radius < diameter / 2))
    assumed.push(
      "A smooth elbow tighter than half a diameter is reckoned at half a diameter: no formula goes further.",
    );
  const run: SiteRun = {
    diameter,
    pieces: rows.map(({ piece }) => piece),
    about: rows.map(({ what, place = "room", insulation = 0 }) => ({ what, place, insulation })),
  };
  return { run, assumed };
}

/** The exhaust air of an input, with what was taken for granted. */
export interface SiteAir extends DuctAir {
  readonly temperature: Temperature;
  readonly pressure: Pressure;
  readonly humidity: Ratio;
  /** Water over dry air [kg/kg]. */
  readonly ratio: number;
  readonly assumed: readonly string[];
}

/** Share of the total pressure above which the air would be nearly all steam, which no dryer makes. */
const MOST_VAPOUR = 0.95;

/** The state of the exhaust air at the machine; `undefined` where it would be nearly all steam. */
export function siteAir(input: Pick<RunInput, keyof typeof airFields>): SiteAir | undefined {
  const temperature = input.airTemperature ?? si(USUAL.temperature, "degC");
  const humidity = input.airHumidity ?? brand<"ratio">(USUAL.humidity);
  const altitude = input.altitude ?? brand<"length">(0);
  const assumed: string[] = [];
  if (input.airTemperature === undefined || input.airHumidity === undefined)
    assumed.push("The exhaust air is that of the middle of a cycle where not given: 50 °C, 50 % relative humidity.");
  if (input.altitude === undefined) assumed.push("The site is at sea level.");
  const pressure = pressureAtAltitude(geopotentialHeight(altitude));
  const vapour = brand<"pressure">(humidity * saturationPressure(temperature));
  if (vapour > MOST_VAPOUR * pressure) return undefined;
  const ratio = humidityRatio(vapour, pressure);
  return {
    temperature,
    pressure,
    humidity,
    ratio,
    density: moistAirDensity(temperature, ratio, pressure),
    viscosity: airViscosity(temperature),
    assumed,
  };
}
