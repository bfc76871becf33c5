/** Axes in the reader's units: where their marks stand and what is written at them. */
import { inUnit, type QuantityKind, si, type Unit, type UnitSystem, unitFacts } from "../../core/quantity/index.js";

/** One axis: its unit, its marks, and the way from an SI number to a share of its length. */
export interface Axis {
  readonly unit: string;
  readonly marks: readonly { readonly share: number; readonly text: string }[];
  readonly shareOf: (value: number) => number;
}

/** One unit for a whole axis, where a single text would choose between several. */
const axisUnits: Partial<Record<QuantityKind, Readonly<Record<UnitSystem, Unit>>>> = {
  length: { us: "ft", si: "m" },
  airPressure: { us: "inH2O", si: "Pa" },
  volumeFlow: { us: "cfm", si: "L/s" },
};

/** Steps that people count in. */
const steps = [1, 2, 2.5, 5, 10];

/**
 * An axis from zero to at least `most`, with four to eight marks at round numbers of the reader's unit.
 *
 * @param most - the largest SI number to show, above 0
 * @throws RangeError where nothing can be shown, or the kind has no unit for a whole axis
 */
export function axis(most: number, kind: QuantityKind, system: UnitSystem): Axis {
  const unit = axisUnits[kind]?.[system];
  if (unit === undefined) throw new RangeError(`no unit is chosen for an axis of ${kind}`);
  if (!(most > 0 && Number.isFinite(most))) throw new RangeError(`an axis cannot end at ${most}`);
  const top = inUnit(most as never, unit as never) as number;
  const power = 10 ** Math.floor(Math.log10(top / 5));
  const step = power * steps.find((one) => one * power * 5 >= top * (1 - 1e-9))!;
  const count = Math.ceil((top / step) * (1 - 1e-9));
  const end = si(count * step, unit) as number;
  const decimals = Math.max(0, -Math.floor(Math.log10(step)) + (step / power === 2.5 ? 1 : 0));
  return {
    unit: unitFacts(unit).spellings[0],
    marks: Array.from({ length: count + 1 }, (_, i) => ({
      share: i / count,
      text: i === 0 ? "0" : String(Number((i * step).toFixed(decimals))),
    })),
    shareOf: (value) => value / end,
  };
}
