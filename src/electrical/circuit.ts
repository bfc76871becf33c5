/** What was found between the panel and the machine: circuit, receptacle and cord. One schema for every rule. */
import * as z from "zod";
import { type AwgSize, awgSizes, metricSizes } from "../core/quantity/index.js";
import { quantity, type Read } from "../core/rule/index.js";
import { type ConfigurationName, configurations } from "./tables/configurations.js";
import { type SocketName, sockets } from "./tables/sockets.js";
import { type Wiring, wirings } from "./tables/wiring.js";

/** Metals of conductors. */
export const metals = ["copper", "aluminum"] as const;
/** A metal of conductors; copper-clad aluminum counts as aluminum. */
export type Metal = (typeof metals)[number];

/** Sizes of building wire, 14 AWG to 4/0: those with a full row in the ampacity table. */
export const circuitSizes = awgSizes.slice(2) as ["14 AWG", ...Exclude<AwgSize, "18 AWG" | "16 AWG">[]];
export const sizeInput = z.enum(circuitSizes);
export const metalInput = z.enum(metals).describe("Metal of the conductors; copper-clad aluminum counts as aluminum");
export const wiringInput = z
  .enum(Object.keys(wirings) as [Wiring, ...Wiring[]])
  .describe("Cable type or insulation, as printed on the jacket");
export const configurationInput = z.enum(Object.keys(configurations) as [ConfigurationName, ...ConfigurationName[]]);

const socketInput = z.enum(Object.keys(sockets) as [SocketName, ...SocketName[]]).optional();

/** Overcurrent devices by how many poles they open and whether together. */
export const devices = [
  "1-pole breaker",
  "2-pole breaker",
  "3-pole breaker",
  "two 1-pole breakers, tied",
  "two 1-pole breakers, not tied",
  "1 fuse",
  "2 fuses",
] as const;

export const circuitInput = z.strictObject({
  overcurrent: quantity("current", { min: [5, "A"], max: [400, "A"] })
    .optional()
    .describe("Rating printed on the breaker or fuse"),
  device: z.enum(devices).optional().describe("Breaker or fuses of the circuit"),
  individual: z.boolean().optional().describe("Whether the circuit serves this machine and nothing else"),
  isNew: z.boolean().optional().describe("Whether the circuit is new, or extended or moved in this job"),
  size: sizeInput.optional().describe("Size of the line conductors"),
  area: z.enum(metricSizes).optional().describe("Size of the line conductors in mm², outside North America"),
  metal: metalInput.optional(),
  wiring: wiringInput.optional(),
  terminals: z
    .enum(["60 °C", "75 °C"])
    .optional()
    .describe("Temperature marked on breaker and receptacle terminals; the lower of the two"),
  ambient: quantity("temperature", { min: [-40, "degC"], max: [85, "degC"] })
    .optional()
    .describe("Hottest air along the run, such as an attic in summer"),
  carrying: z
    .int()
    .min(1)
    .max(60)
    .optional()
    .describe(
      "Current-carrying conductors in one raceway, or in cables bundled for more than 24 in; a neutral counts on 208Y/120 V",
    ),
  inInsulation: z.boolean().optional().describe("Whether the cable lies in thermal insulation"),
  length: quantity("length", { max: [1000, "ft"] })
    .optional()
    .describe("Length of the run one way, panel to receptacle"),
  startsAt: z.enum(["service", "subpanel"]).optional().describe("Panel that the circuit starts at"),
  ground: z
    .boolean()
    .optional()
    .describe("Whether an equipment grounding conductor, or metal raceway serving as one, is in the outlet box"),
  neutral: z
    .strictObject({
      size: sizeInput.optional().describe("Size of the neutral"),
      covering: z
        .enum(["insulated", "bare", "none"])
        .optional()
        .describe("Neutral insulated, bare, or none in the box"),
      covered: z
        .boolean()
        .optional()
        .describe("Whether a bare neutral is covered with listed insulating material inside the enclosures"),
    })
    .optional()
    .describe("The neutral of the circuit"),
});
/** The circuit after reading. */
export type Circuit = Read<z.output<typeof circuitInput>>;

export const receptacleInput = z.strictObject({
  configuration: configurationInput.optional().describe("Configuration printed on the receptacle, without R"),
  standard: socketInput.describe("Standard of the socket on a 230 V site; CEE 7 stands for 7/3 and 7/5"),
  count: z.enum(["single", "duplex", "several"]).optional().describe("Outlets on the circuit; a duplex counts as two"),
  aluminumRated: z
    .boolean()
    .optional()
    .describe("Whether it is marked for aluminum: AL-CU at 30 A and more, CO/ALR at 15 and 20 A"),
  distance: quantity("length", { max: [100, "ft"] })
    .optional()
    .describe("From the nearest edge of the machine's place to the receptacle"),
});

export const cordInput = z.strictObject({
  plug: configurationInput.optional().describe("Configuration of the plug, without P"),
  plugStandard: socketInput.describe("Standard of the plug on a 230 V site; CEE 7 stands for 7/4, 7/6 and 7/7"),
  size: z
    .enum([...awgSizes.slice(0, 7)] as ["18 AWG", ...(typeof awgSizes)[number][]])
    .optional()
    .describe("Size of the line conductors, printed on the cord"),
  length: quantity("length", { max: [30, "ft"] })
    .optional()
    .describe("From the plug's face to the machine's back"),
  strap: z
    .enum(["fitted", "removed", "none"])
    .optional()
    .describe("Bonding strap between neutral and frame at the terminal block; none where the machine has none"),
});
