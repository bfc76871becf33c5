/** The numbers that the fuel-gas texts set, dated, one reference per value. */
import { type Conditions, type Confirmed, type DatedValue, defineLimit, type Text } from "../core/basis/index.js";
import type { Unit } from "../core/quantity/index.js";
import { usualDrop_inH2O } from "./tables/gas-pipe.js";

type Row = readonly [
  text: Text,
  from: number,
  to: number,
  section: string,
  value: readonly [number, Unit] | boolean,
  confirmed: Confirmed,
  when?: Conditions,
];
const dated = (rows: readonly Row[]): DatedValue[] =>
  rows.map(([text, from, to, section, value, confirmed, when]) => ({
    text,
    from,
    to,
    section,
    value,
    confirmed,
    ...(when === undefined ? {} : { when }),
  }));

const rangeOrDryer = { rangeOrDryer: true } as const;
const other = { rangeOrDryer: false } as const;

/** Longest flexible connector of an appliance, along its centreline. */
export const connectorLength = defineLimit({
  id: "plumbing/gas-connector.length",
  title: "Greatest length of an appliance's gas connector",
  subject: "fuelGas",
  kind: "length",
  sense: "atMost",
  maker: "tightens",
  values: dated([
    ["ifgc", 2006, 2009, "411.1.3.1", [6, "ft"], "secondary", rangeOrDryer],
    ["ifgc", 2006, 2009, "411.1.3.1", [3, "ft"], "secondary", other],
    ["ifgc", 2012, 2015, "411.1.3.1", [6, "ft"], "memory"],
    ["ifgc", 2018, 2018, "411.1.3.1", [6, "ft"], "seen"],
    ["ifgc", 2021, 2024, "411.1.3.1", [6, "ft"], "memory"],
    ["ircFuelGas", 2006, 2009, "G2422.1.2.1", [6, "ft"], "memory", rangeOrDryer],
    ["ircFuelGas", 2006, 2009, "G2422.1.2.1", [3, "ft"], "memory", other],
    ["ircFuelGas", 2012, 2024, "G2422.1.2.1", [6, "ft"], "memory"],
    ["upc", 2006, 2006, "1212.0", [6, "ft"], "secondary", rangeOrDryer],
    ["upc", 2006, 2006, "1212.0", [3, "ft"], "secondary", other],
    ["upc", 2009, 2024, "1212.0", [6, "ft"], "memory", rangeOrDryer],
    ["upc", 2009, 2024, "1212.0", [3, "ft"], "memory", other],
  ]),
});

/** Greatest distance of the appliance's shut-off valve. */
export const shutoffDistance = defineLimit({
  id: "plumbing/gas-connector.shutoff",
  title: "Greatest distance of the appliance's gas shut-off valve",
  subject: "fuelGas",
  kind: "length",
  sense: "atMost",
  maker: "tightens",
  values: dated([
    ["ifgc", 2006, 2024, "409.5", [6, "ft"], "secondary"],
    ["ircFuelGas", 2006, 2024, "G2420.5", [6, "ft"], "secondary"],
    ["upc", 2006, 2006, "1211.18", [3, "ft"], "secondary"],
    ["upc", 2009, 2024, "1212.5", [6, "ft"], "secondary"],
  ]),
});

/** Greatest distance of the union of a rigid connection. */
export const unionDistance = defineLimit({
  id: "plumbing/gas-connector.union",
  title: "Greatest distance of the union of a rigid gas connection",
  subject: "fuelGas",
  kind: "length",
  sense: "atMost",
  maker: "tightens",
  values: dated([
    ["ifgc", 2006, 2015, "411.1.6", [6, "ft"], "memory"],
    ["ifgc", 2018, 2018, "411.1.6", [6, "ft"], "seen"],
    ["ifgc", 2021, 2024, "411.1.6", [6, "ft"], "memory"],
    ["ircFuelGas", 2006, 2024, "G2422.1.5", [6, "ft"], "memory"],
  ]),
});

/** Whether a sediment trap is called for at the appliance; ranges and clothes dryers are let off. */
export const sedimentTrap = defineLimit({
  id: "plumbing/gas-connector.sediment-trap",
  title: "A sediment trap at the appliance's gas inlet",
  subject: "fuelGas",
  kind: "requirement",
  sense: "required",
  maker: "tightens",
  values: dated([
    ["ifgc", 2006, 2024, "408.4", true, "secondary", other],
    ["ifgc", 2006, 2024, "408.4", false, "secondary", rangeOrDryer],
    ["ircFuelGas", 2006, 2009, "G2419.4", true, "seen", other],
    ["ircFuelGas", 2006, 2009, "G2419.4", false, "seen", rangeOrDryer],
    ["ircFuelGas", 2012, 2024, "G2419.4", true, "secondary", other],
    ["ircFuelGas", 2012, 2024, "G2419.4", false, "secondary", rangeOrDryer],
    ["upc", 2006, 2006, "1211.5", true, "memory", other],
    ["upc", 2006, 2006, "1211.5", false, "memory", rangeOrDryer],
    ["upc", 2009, 2009, "1212.7", true, "seen", other],
    ["upc", 2009, 2009, "1212.7", false, "seen", rangeOrDryer],
    ["upc", 2012, 2024, "1212.9", true, "memory", other],
    ["upc", 2012, 2024, "1212.9", false, "memory", rangeOrDryer],
  ]),
});

const gas = (fuel: "naturalGas" | "propane"): Conditions => ({ fuel });

/** Least gas pressure at the inlet with every burner on. */
export const inletLeast = defineLimit({
  id: "plumbing/gas-pressure.inlet-least",
  title: "Least gas pressure at the machine's inlet with every burner on",
  subject: "fuelGas",
  kind: "gasPressure",
  sense: "atLeast",
  maker: "replaces",
  values: [
    {
      text: "practice",
      value: [5, "inH2O"],
      when: gas("naturalGas"),
      confirmed: "practice",
      note: "About 5 in w.c. for a 3.5 in w.c. manifold, in the sizing appendix of the fuel-gas code; sheets have 4.5 to 6.",
    },
    {
      text: "practice",
      value: [11, "inH2O"],
      when: gas("propane"),
      confirmed: "practice",
      note: "Several makers' sheets have 11 in w.c.",
    },
  ],
});

/** Greatest gas pressure at the inlet with nothing burning. */
export const inletMost = defineLimit({
  id: "plumbing/gas-pressure.inlet-most",
  title: "Greatest gas pressure at the machine's inlet with nothing burning",
  subject: "fuelGas",
  kind: "gasPressure",
  sense: "atMost",
  maker: "replaces",
  values: [
    {
      text: "practice",
      value: [14, "inH2O"],
      when: gas("naturalGas"),
      confirmed: "practice",
      note: "Sheets have 10 to 14 in w.c.; over 14 in w.c., half a pound, the gas valve is damaged.",
    },
    { text: "practice", value: [14, "inH2O"], when: gas("propane"), confirmed: "practice" },
  ],
});

/** How far the manifold pressure may be from the plate's. */
export const manifoldOff = defineLimit({
  id: "plumbing/gas-pressure.manifold-off",
  title: "How far the manifold pressure may be from the plate's",
  subject: "fuelGas",
  kind: "gasPressure",
  sense: "atMost",
  maker: "replaces",
  values: [
    {
      text: "practice",
      value: [0.3, "inH2O"],
      confirmed: "practice",
      note: "A maker's sheet has 0.3 in w.c. at all altitudes.",
    },
  ],
});

/** Pressure that piping may lose between the point of delivery and the farthest outlet. */
export const pipeDrop = defineLimit({
  id: "plumbing/gas-pipe.drop",
  title: "Pressure drop that low-pressure gas piping is sized for",
  subject: "fuelGas",
  kind: "gasPressure",
  sense: "atMost",
  maker: "tightens",
  values: [
    {
      text: "practice",
      value: [usualDrop_inH2O, "inH2O"],
      confirmed: "practice",
      note: "The drop that most local codes size low-pressure piping for; some keep to 0.3 in w.c.",
    },
  ],
});

/** Test pressure of gas piping against the pressure it works at. */
export const testFactor = defineLimit({
  id: "plumbing/leak-test.factor",
  title: "Test pressure over the greatest working pressure",
  subject: "fuelGas",
  kind: "ratio",
  sense: "atLeast",
  maker: "tightens",
  values: dated([
    ["ifgc", 2006, 2012, "406.4.1", [150, "percent"], "memory"],
    ["ifgc", 2015, 2015, "406.4.1", [150, "percent"], "seen"],
    ["ifgc", 2018, 2024, "406.4.1", [150, "percent"], "memory"],
    ["ircFuelGas", 2006, 2024, "G2417.4.1", [150, "percent"], "secondary"],
  ]),
});

/** Least test pressure of gas piping. */
export const testLeast = defineLimit({
  id: "plumbing/leak-test.pressure",
  title: "Least test pressure of gas piping",
  subject: "fuelGas",
  kind: "pressure",
  sense: "atLeast",
  maker: "tightens",
  values: dated([
    ["ifgc", 2006, 2012, "406.4.1", [3, "psi"], "secondary"],
    ["ifgc", 2015, 2015, "406.4.1", [3, "psi"], "seen"],
    ["ifgc", 2018, 2024, "406.4.1", [3, "psi"], "secondary"],
    ["ircFuelGas", 2006, 2024, "G2417.4.1", [3, "psi"], "secondary"],
    ["upc", 2006, 2006, "1204.3.2", [10, "psi"], "secondary"],
    ["upc", 2009, 2024, "1213.3", [10, "psi"], "memory"],
  ]),
});

/** Least time a gas test is held: of a single dwelling or a system under 10 cubic feet. */
export const testTime = defineLimit({
  id: "plumbing/leak-test.time",
  title: "Least time the gas test is held in a dwelling or a small system",
  subject: "fuelGas",
  kind: "time",
  sense: "atLeast",
  maker: "tightens",
  values: dated([
    ["ifgc", 2006, 2024, "406.4.2", [10, "min"], "secondary"],
    ["ircFuelGas", 2006, 2024, "G2417.4.2", [10, "min"], "secondary"],
    ["upc", 2006, 2006, "1204.3.2", [15, "min"], "secondary"],
    ["upc", 2009, 2024, "1213.3", [15, "min"], "memory"],
  ]),
});

/** Time a gas test of a large system is held for every 500 cubic feet of pipe. */
export const testTimeLarge = defineLimit({
  id: "plumbing/leak-test.time-large",
  title: "Time the gas test of a large system is held per 500 cubic feet of pipe",
  subject: "fuelGas",
  kind: "time",
  sense: "atLeast",
  maker: "tightens",
  values: dated([["ifgc", 2006, 2024, "406.4.2", [30, "min"], "memory"]]),
});

/** Full scale of the test gauge against the test pressure: a wider gauge sees nothing small. */
export const gaugeScale = defineLimit({
  id: "plumbing/leak-test.gauge-scale",
  title: "Greatest full scale of the gauge over the test pressure",
  subject: "fuelGas",
  kind: "ratio",
  sense: "atMost",
  maker: "tightens",
  values: dated([
    ["ifgc", 2006, 2024, "406.4", [500, "percent"], "secondary"],
    ["ircFuelGas", 2006, 2024, "G2417.4", [500, "percent"], "secondary"],
  ]),
});
