/** What a conductor may carry and what may protect it: the kernels behind the ampacity and circuit rules. */
import { type AwgSize, brand, type Current, inUnit, si, type Temperature } from "../core/quantity/index.js";
import type { Circuit, Metal } from "./circuit.js";
import {
  ambientRows,
  ampacityRows,
  bundleRows,
  type Column,
  nextUpTo_A,
  smallConductors,
  standardRatings,
} from "./tables/ampacity.js";
import { type Wiring, wirings } from "./tables/wiring.js";

const columnIndex = { 60: 0, 75: 1, 90: 2 } as const satisfies Record<Column, number>;

/**
 * Ampacity by the table, before any correction [A], or `undefined` where the table has no value.
 *
 * @param column - temperature rating of the conductor's insulation [°C]
 * @basis NEC 2020, Table 310.16
 * @example tableAmpacity("10 AWG", "copper", 60) // 30
 */
export function tableAmpacity(size: AwgSize, metal: Metal, column: Column): Current | undefined {
  const row = ampacityRows.find((one) => one.size === size);
  const amps = (metal === "copper" ? row?.copper_A : row?.aluminum_A)?.[columnIndex[column]];
  return amps === undefined ? undefined : brand<"current">(amps);
}

/**
 * Correction for the ambient temperature by the table's bands [-], or `undefined` where the conductor may not be used
 * there. Within a band the code's equation gives a little more; the table is on the safe side.
 *
 * @example ambientFactor(si(36, "degC"), 75) // 0.88
 */
export function ambientFactor(ambient: Temperature, column: Column): number | undefined {
  const celsius = inUnit(ambient, "degC");
  const row = ambientRows.find(({ upTo_C }) => celsius <= upTo_C + 1e-9);
  return row?.factors[columnIndex[column]] ?? undefined;
}

/**
 * Correction for the ambient temperature by the code's equation [-]: √((Tc − Ta) / (Tc − 30 °C)); 0 from Tc on.
 *
 * @example ambientEquation(si(45, "degC"), 75) // 0.8164965809277259
 */
export function ambientEquation(ambient: Temperature, column: Column): number {
  return Math.sqrt(Math.max(0, column - inUnit(ambient, "degC")) / (column - 30));
}

/**
 * Adjustment for current-carrying conductors that lie together [-].
 *
 * @param carrying - how many carry current; grounding conductors never count
 * @example bundleFactor(8) // 0.7
 */
export function bundleFactor(carrying: number): number {
  return bundleRows.find(([upTo]) => carrying <= upTo)![1];
}

/** A conductor and how it is run. */
export interface ConductorRun {
  readonly size: AwgSize;
  readonly metal: Metal;
  readonly wiring: Wiring;
  readonly ambient: Temperature;
  readonly carrying: number;
  /** Temperature rating of the terminals at its ends [°C]. */
  readonly terminals: 60 | 75;
  readonly inInsulation: boolean;
  /** Year of the electrical code, for what it says of SE cable. */
  readonly edition: number;
}

/** What decided an ampacity. */
export type AmpacityStep = "insulation" | "terminals" | "cable";

/** The ampacity of a conductor with its steps. */
export interface Ampacity {
  /** By the table, in the column of its insulation [A]. */
  readonly table: Current;
  readonly ambient: number;
  readonly bundle: number;
  /** After both factors [A]. */
  readonly corrected: Current;
  /** By the table, in the column of the terminals [A]. */
  readonly atTerminals: Current;
  /** By the table, in the column that the cable's own article allows at most [A]; `undefined` where it sets none. */
  readonly atCable: Current | undefined;
  /** The least of them [A]. */
  readonly ampacity: Current;
  readonly governs: AmpacityStep;
}

/** Sizes of SE cable that 338.10(B)(4)(a) caps at 60 °C in thermal insulation since 2017; in 2014 every size. */
const SMALL_SE: readonly AwgSize[] = ["14 AWG", "12 AWG", "10 AWG"];

/** Whether SE cable of a size, inside a building in thermal insulation, ends in the 60 °C column. */
const serviceCableCapped = (size: AwgSize, edition: number): boolean => edition < 2017 || SMALL_SE.includes(size);

/**
 * Ampacity of a conductor as run [A]: the column of its insulation, corrected and adjusted, then no more than the column
 * of the terminals and of the cable's article. `undefined` where the table has no value, or the ambient is too hot.
 *
 * @basis NEC 2020, 310.15, 110.14(C), 334.80
 */
export function conductorAmpacity(run: ConductorRun): Ampacity | undefined {
  const { size, metal, wiring, terminals, inInsulation } = run;
  const { insulation_C, cap_C } = wirings[wiring];
  const table = tableAmpacity(size, metal, insulation_C);
  const ambient = ambientFactor(run.ambient, insulation_C);
  const end = Math.min(terminals, insulation_C) as 60 | 75;
  const atTerminals = tableAmpacity(size, metal, end);
  if (table === undefined || ambient === undefined || atTerminals === undefined) return undefined;
  const bundle = bundleFactor(run.carrying);
  const corrected = brand<"current">(table * ambient * bundle);
  const capped = cap_C !== null || (wiring === "SE" && inInsulation && serviceCableCapped(size, run.edition));
  const atCable = capped ? tableAmpacity(size, metal, 60) : undefined;
  const steps: [AmpacityStep, number][] = [
    ["insulation", corrected],
    ["cable", atCable ?? Number.POSITIVE_INFINITY],
    ["terminals", atTerminals],
  ];
  const [governs, ampacity] = steps.reduce((least, step) => (step[1] < least[1] ? step : least));
  return { table, ambient, bundle, corrected, atTerminals, atCable, ampacity: brand<"current">(ampacity), governs };
}

/** The ambient that the ampacity table is made for; taken where nothing was noted. */
const TABLE_AMBIENT_C = 30;

/**
 * A circuit's run as found, with what was not noted at its stated default: terminals of 60 °C, 30 °C ambient, three
 * conductors that carry current, no thermal insulation. `undefined` where size, metal or wiring is not known.
 */
export function runOf(circuit: Circuit, edition: number): ConductorRun | undefined {
  const { size, metal, wiring, terminals, ambient, carrying = 3, inInsulation = false } = circuit;
  if (size === undefined || metal === undefined || wiring === undefined) return undefined;
  return {
    size,
    metal,
    wiring,
    ambient: ambient ?? si(TABLE_AMBIENT_C, "degC"),
    carrying,
    terminals: terminals === "75 °C" ? 75 : 60,
    inInsulation,
    edition,
  };
}

/** What {@link runOf} takes for granted of a circuit, as sentences. */
export function takenForGranted({ terminals, ambient, carrying, wiring, inInsulation }: Circuit): string[] {
  return [
    terminals === undefined ? "The terminals are taken as marked for 60 °C." : "",
    ambient === undefined ? "The run is taken to be nowhere hotter than 30 °C (86 °F)." : "",
    carrying === undefined ? "At most three current-carrying conductors are taken to lie together." : "",
    wiring === "SE" && inInsulation === undefined ? "The SE cable is taken not to lie in thermal insulation." : "",
  ].filter((text) => text !== "");
}

/**
 * The standard ratings of overcurrent devices in an edition [A].
 *
 * @param edition - year of the electrical code
 */
export function ratingsIn(edition: number): readonly number[] {
  return edition >= 2023 ? [10, ...standardRatings] : standardRatings;
}

/**
 * The least standard rating that is no less than a current [A], or `undefined` above the largest.
 *
 * @example ratingAbove(si(28.6, "A"), 2020) // 30
 */
export function ratingAbove(amps: Current, edition: number): Current | undefined {
  const found = ratingsIn(edition).find((rating) => rating >= amps * (1 - 1e-9));
  return found === undefined ? undefined : brand<"current">(found);
}

/**
 * Most overcurrent protection of a conductor [A]: the next standard rating up where the ampacity is none, no more than
 * the small conductors' own limits.
 *
 * @param nextUp - whether the next rating up is allowed: not where the circuit feeds several receptacles for portable loads
 * @basis NEC 2020, 240.4(B), 240.4(D)
 * @example mostOvercurrent(si(55, "A"), "6 AWG", "copper", true, 2020) // 60
 */
export function mostOvercurrent(
  ampacity: Current,
  size: AwgSize,
  metal: Metal,
  nextUp: boolean,
  edition: number,
): Current {
  const small = smallConductors.find((one) => one.size === size);
  const cap = (metal === "copper" ? small?.copper_A : small?.aluminum_A) ?? Number.POSITIVE_INFINITY;
  const rating = nextUp && ampacity <= nextUpTo_A ? (ratingAbove(ampacity, edition) ?? ampacity) : ampacity;
  return brand<"current">(Math.min(rating, cap));
}
