/** Voltage ranges of supply systems, as printed. */
import type { Basis } from "../../core/basis/index.js";

/** One range: at the service without regard to the load, and the least at the machine while it runs. */
export interface VoltageRange {
  readonly nominal_V: number;
  readonly range: "A" | "B";
  readonly serviceLeast_V: number;
  readonly serviceMost_V: number;
  readonly utilizationLeast_V: number;
}

/**
 * ANSI C84.1, table 1, 2011 and later. The service columns were seen restated: range A in regulations that adopt it,
 * range B (110 to 127 V on the 120 V base) in several pages. The utilization columns are from memory. Checked by
 * arithmetic: 240 V is twice and 208 V is √3 times the 120 V row after rounding.
 */
export const voltageRanges: readonly VoltageRange[] = [
  { nominal_V: 120, range: "A", serviceLeast_V: 114, serviceMost_V: 126, utilizationLeast_V: 108 },
  { nominal_V: 120, range: "B", serviceLeast_V: 110, serviceMost_V: 127, utilizationLeast_V: 104 },
  { nominal_V: 208, range: "A", serviceLeast_V: 197, serviceMost_V: 218, utilizationLeast_V: 187 },
  { nominal_V: 208, range: "B", serviceLeast_V: 191, serviceMost_V: 220, utilizationLeast_V: 180 },
  { nominal_V: 240, range: "A", serviceLeast_V: 228, serviceMost_V: 252, utilizationLeast_V: 216 },
  { nominal_V: 240, range: "B", serviceLeast_V: 220, serviceMost_V: 254, utilizationLeast_V: 208 },
];

const c84: Basis = {
  document: "ANSI C84.1",
  publisher: "NEMA",
  edition: "2020",
  section: "table 1",
  force: "advice",
  confirmed: "secondary",
};
/** What the ranges at the service rest on. */
export const serviceRangeBasis: Basis = {
  ...c84,
  note: "Range A is what a supply is kept within; range B only for short times.",
};
/** What the least voltages at the running machine rest on. */
export const utilizationRangeBasis: Basis = {
  ...c84,
  confirmed: "memory",
  note: "Least voltage at the machine while it runs; checked by arithmetic between the rows.",
};

/** IEC 60038: 230 V ± 10 % at the supply terminals. */
export const iecSupplyRange = { nominal_V: 230, least: 0.9, most: 1.1 } as const;
export const iecSupplyBasis: Basis = {
  document: "IEC 60038",
  publisher: "IEC",
  edition: "2009",
  section: "table 1 and clause 4.1",
  force: "advice",
  confirmed: "secondary",
  note: "Within 10 % of the nominal voltage at the supply terminals.",
};
