/** What the fuel-gas texts ask of the air that appliances burn, dated, one reference per value. Rates are per 1000 Btu/h. */
import { type Confirmed, type DatedValue, defineLimit } from "../core/basis/index.js";
import { row } from "./dated.js";

/** The fuel-gas code and the residential code's chapter that repeats it, under one subsection. */
const both = (subsection: string, value: DatedValue["value"], confirmed: Confirmed, note?: string): DatedValue[] => {
  const more = note === undefined ? {} : { note };
  return [
    row("ircFuelGas", 2006, 2021, `G2407.${subsection}`, value, confirmed, more),
    row("ircFuelGas", 2024, 2024, `G2407.${subsection}`, value, "memory", more),
    row("ifgc", 2006, 2021, `304.${subsection}`, value, confirmed, more),
    row("ifgc", 2024, 2024, `304.${subsection}`, value, "memory", more),
  ];
};

const area = (id: string, title: string, subsection: string, value: number, confirmed: Confirmed = "secondary") =>
  defineLimit({
    id: `venting/combustion-air.${id}`,
    title,
    subject: "fuelGas",
    kind: "area",
    sense: "atLeast",
    maker: "tightens",
    values: both(subsection, [value, "in2"], confirmed),
  });

/** Room volume for each 1000 Btu/h, where the house's air change is not known. */
export const roomVolume = defineLimit({
  id: "venting/combustion-air.volume",
  title: "Room volume for each 1000 Btu/h",
  subject: "fuelGas",
  kind: "volume",
  sense: "atLeast",
  maker: "tightens",
  values: both("5.1", [50, "ft3"], "secondary"),
});

/** Room volume for each 1000 Btu/h at one air change an hour, without a fan in the appliance. */
export const changedVolumeOther = defineLimit({
  id: "venting/combustion-air.volume-natural",
  title: "Room volume for each 1000 Btu/h at one air change an hour, draught without a fan",
  subject: "fuelGas",
  kind: "volume",
  sense: "atLeast",
  maker: "tightens",
  values: both("5.2", [21, "ft3"], "secondary"),
});

/** The same for fan-assisted appliances. */
export const changedVolumeFan = defineLimit({
  id: "venting/combustion-air.volume-fan",
  title: "Room volume for each 1000 Btu/h at one air change an hour, fan-assisted",
  subject: "fuelGas",
  kind: "volume",
  sense: "atLeast",
  maker: "tightens",
  values: both("5.2", [15, "ft3"], "secondary"),
});

/** Each of two openings to a room on the same storey, for each 1000 Btu/h. */
export const indoorOpening = area(
  "indoor-opening",
  "Free area of each of two openings to a room of the same storey, for each 1000 Btu/h",
  "5.3.1",
  1,
);
/** Least area of each of those openings. */
export const indoorOpeningLeast = area(
  "indoor-opening-least",
  "Least free area of each of two openings to a room of the same storey",
  "5.3.1",
  100,
);
/** Openings in doors or floors between storeys, for each 1000 Btu/h. */
export const storeyOpening = area(
  "storey-opening",
  "Free area of the openings between storeys, for each 1000 Btu/h",
  "5.3.2",
  2,
  "memory",
);
/** Each of two openings straight outdoors or by upright ducts, for each 1000 Btu/h: 1 in² per 4000 Btu/h. */
export const outdoorPair = area(
  "outdoor-pair",
  "Free area of each of two openings straight outdoors or by upright ducts, for each 1000 Btu/h",
  "6.1",
  1 / 4,
);
/** Each of two level ducts to outdoors, for each 1000 Btu/h: 1 in² per 2000 Btu/h. */
export const outdoorLevelPair = area(
  "outdoor-level-pair",
  "Free area of each of two level ducts to outdoors, for each 1000 Btu/h",
  "6.1",
  1 / 2,
);
/** One opening to outdoors, for each 1000 Btu/h: 1 in² per 3000 Btu/h, and at least the vent connectors together. */
export const outdoorSingle = area(
  "outdoor-single",
  "Free area of the one opening to outdoors, for each 1000 Btu/h",
  "6.2",
  1 / 3,
);

/** Air of a mechanical supply for each 1000 Btu/h. */
export const mechanicalSupply = defineLimit({
  id: "venting/combustion-air.mechanical",
  title: "Air of a mechanical supply for each 1000 Btu/h",
  subject: "fuelGas",
  kind: "volumeFlow",
  sense: "atLeast",
  maker: "tightens",
  values: both("9.1", [0.35, "cfm"], "memory"),
});
