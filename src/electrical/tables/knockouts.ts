/** Knockouts by trade size. */
import type { Basis } from "../../core/basis/index.js";

/** A knockout [in]: its nominal, least and most diameter. */
export interface Knockout {
  readonly nominal_in: number;
  readonly least_in: number;
  readonly most_in: number;
}

/** NEMA, knockouts of machine terminal boxes, by trade size of the conduit connector, in rising order. */
export const knockouts = {
  "1/2 in": { nominal_in: 0.875, least_in: 0.859, most_in: 0.906 },
  "3/4 in": { nominal_in: 1.109, least_in: 1.094, most_in: 1.141 },
  "1 in": { nominal_in: 1.375, least_in: 1.359, most_in: 1.406 },
  "1 1/4 in": { nominal_in: 1.734, least_in: 1.719, most_in: 1.766 },
  "1 1/2 in": { nominal_in: 1.984, least_in: 1.969, most_in: 2.016 },
  "2 in": { nominal_in: 2.469, least_in: 2.453, most_in: 2.5 },
} as const satisfies Record<string, Knockout>;

/** A trade size. */
export type TradeSize = keyof typeof knockouts;

export const knockoutBasis: Basis = {
  document: "NEMA",
  publisher: "NEMA",
  edition: "",
  section: "knockout diameters of terminal boxes",
  force: "advice",
  confirmed: "secondary",
  note: "A trade size is not a diameter: a 3/4 in connector goes into a hole of 1.1 in.",
};
