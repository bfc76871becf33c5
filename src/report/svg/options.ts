/** What every drawing takes beside its data. */
import { brand, type QuantityKind, show, type UnitSystem } from "../../core/quantity/index.js";

/** How a drawing is made. */
export interface DrawingOptions {
  /** The reader's units; US where left out. */
  readonly units?: UnitSystem | undefined;
  /** Tells this drawing from the others of a page; the drawing's own kind where left out. */
  readonly id?: string | undefined;
}

/** Texts of lengths and other quantities in the reader's units. */
export const shower =
  (units: UnitSystem = "us") =>
  (value: number, kind: QuantityKind = "inches"): string =>
    show(brand<never>(value), kind, { units });
