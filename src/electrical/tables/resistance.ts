/** Resistance and reactance of conductors, as printed. */

import type { Basis } from "../../core/basis/index.js";
import type { AwgSize } from "../../core/quantity/index.js";

/** One row: area [circular mils] and DC resistance at 75 °C [Ω per 1000 ft]; `null` where the table has no such row. */
export interface ResistanceRow {
  readonly size: AwgSize;
  readonly cmil: number;
  readonly copperSolid: number | null;
  readonly copperStranded: number | null;
  readonly aluminumSolid: number | null;
  readonly aluminumStranded: number | null;
}

const row = (
  size: AwgSize,
  cmil: number,
  copperSolid: number | null,
  copperStranded: number | null,
  aluminumSolid: number | null,
  aluminumStranded: number | null,
): ResistanceRow => ({ size, cmil, copperSolid, copperStranded, aluminumSolid, aluminumStranded });

/**
 * NEC chapter 9, Table 8: uncoated copper and aluminum, DC at 75 °C, Ω per 1000 ft. The Ω/km of the same table differ by
 * up to 0.4 % from rounding; these are the master.
 */
export const resistanceRows: readonly ResistanceRow[] = [
  row("18 AWG", 1620, 7.77, 7.95, 12.8, 13.1),
  row("16 AWG", 2580, 4.89, 4.99, 8.05, 8.21),
  row("14 AWG", 4110, 3.07, 3.14, 5.06, 5.17),
  row("12 AWG", 6530, 1.93, 1.98, 3.18, 3.25),
  row("10 AWG", 10380, 1.21, 1.24, 2, 2.04),
  row("8 AWG", 16510, 0.764, 0.778, 1.26, 1.28),
  row("6 AWG", 26240, null, 0.491, null, 0.808),
  row("4 AWG", 41740, null, 0.308, null, 0.508),
  row("3 AWG", 52620, null, 0.245, null, 0.403),
  row("2 AWG", 66360, null, 0.194, null, 0.319),
  row("1 AWG", 83690, null, 0.154, null, 0.253),
  row("1/0 AWG", 105600, null, 0.122, null, 0.201),
  row("2/0 AWG", 133100, null, 0.0967, null, 0.159),
  row("3/0 AWG", 167800, null, 0.0766, null, 0.126),
  row("4/0 AWG", 211600, null, 0.0608, null, 0.1),
];

/** NEC chapter 9, Table 8, note 2: change of resistance per kelvin, referred to 75 °C. */
export const temperatureCoefficients = { copper: 0.00323, aluminum: 0.0033 } as const;

/** Reactance to neutral [Ω per 1000 ft] in PVC or aluminum conduit, and in steel. */
export interface ReactanceRow {
  readonly size: AwgSize;
  readonly plain: number;
  readonly steel: number;
}

const reactance = (size: AwgSize, plain: number, steel: number): ReactanceRow => ({ size, plain, steel });

/** NEC chapter 9, Table 9: 600 V cables, 60 Hz, 75 °C, three single conductors in conduit, Ω to neutral per 1000 ft. */
export const reactanceRows: readonly ReactanceRow[] = [
  reactance("14 AWG", 0.058, 0.073),
  reactance("12 AWG", 0.054, 0.068),
  reactance("10 AWG", 0.05, 0.063),
  reactance("8 AWG", 0.052, 0.065),
  reactance("6 AWG", 0.051, 0.064),
  reactance("4 AWG", 0.048, 0.06),
  reactance("3 AWG", 0.047, 0.059),
  reactance("2 AWG", 0.045, 0.057),
  reactance("1 AWG", 0.046, 0.057),
  reactance("1/0 AWG", 0.044, 0.055),
  reactance("2/0 AWG", 0.043, 0.054),
  reactance("3/0 AWG", 0.042, 0.052),
  reactance("4/0 AWG", 0.041, 0.051),
];

/** Resistivity at 20 °C [Ω·m] and its change per kelvin, referred to 20 °C. IEC 60028 (copper); IEC 60889 (aluminum, 61 %). */
export const resistivities = {
  copper: { ohm_m: 1 / 58e6, perKelvin: 0.00393 },
  aluminum: { ohm_m: 2.8264e-8, perKelvin: 0.00403 },
} as const;

/** What the resistivities rest on. */
export const conductorResistivityBasis: Basis = {
  document: "IEC 60028 and IEC 60889",
  publisher: "IEC",
  edition: "1925 and 1987",
  section: "resistivity of copper and of aluminum at 20 °C",
  force: "advice",
  confirmed: "secondary",
  note: "Copper seen; aluminum from memory; areas of gauge sizes by ASTM B258.",
};

/**
 * IEC 60364-5-52:2009, annex G: resistivity in service [Ω·mm²/m], 1.25 times that at 20 °C, and reactance per length
 * [mΩ/m] where no other is known.
 */
export const iecRun = { copper: 0.0225, aluminum: 0.036, reactance_mohm_m: 0.08 } as const;

/** What the voltage drop of metric runs rests on. */
export const iecRunBasis: Basis = {
  document: "IEC 60364-5-52",
  publisher: "IEC",
  edition: "2009",
  section: "annex G, voltage drop",
  force: "advice",
  confirmed: "secondary",
};
