/** Plugs and receptacles of ANSI/NEMA WD 6. */
import type { Basis } from "../../core/basis/index.js";

/** One configuration. */
export interface Configuration {
  /** What its contacts carry: L line, N neutral, G equipment ground. Poles are those that carry current, N among them. */
  readonly contacts: "LN" | "LNG" | "LLG" | "LLN" | "LLNG";
  /** Voltage rating of the device, as printed; not the voltage of the system. */
  readonly volts: "125" | "125/250" | "250";
  readonly amps: number;
}

/** ANSI/NEMA WD 6, straight-blade and locking configurations that household machines meet. */
export const configurations = {
  "1-15": { contacts: "LN", volts: "125", amps: 15 },
  "5-15": { contacts: "LNG", volts: "125", amps: 15 },
  "5-20": { contacts: "LNG", volts: "125", amps: 20 },
  "5-30": { contacts: "LNG", volts: "125", amps: 30 },
  "6-15": { contacts: "LLG", volts: "250", amps: 15 },
  "6-20": { contacts: "LLG", volts: "250", amps: 20 },
  "6-30": { contacts: "LLG", volts: "250", amps: 30 },
  "6-50": { contacts: "LLG", volts: "250", amps: 50 },
  "10-20": { contacts: "LLN", volts: "125/250", amps: 20 },
  "10-30": { contacts: "LLN", volts: "125/250", amps: 30 },
  "10-50": { contacts: "LLN", volts: "125/250", amps: 50 },
  "14-15": { contacts: "LLNG", volts: "125/250", amps: 15 },
  "14-20": { contacts: "LLNG", volts: "125/250", amps: 20 },
  "14-30": { contacts: "LLNG", volts: "125/250", amps: 30 },
  "14-50": { contacts: "LLNG", volts: "125/250", amps: 50 },
  "14-60": { contacts: "LLNG", volts: "125/250", amps: 60 },
  "TT-30": { contacts: "LNG", volts: "125", amps: 30 },
  "L5-15": { contacts: "LNG", volts: "125", amps: 15 },
  "L5-20": { contacts: "LNG", volts: "125", amps: 20 },
  "L5-30": { contacts: "LNG", volts: "125", amps: 30 },
  "L6-15": { contacts: "LLG", volts: "250", amps: 15 },
  "L6-20": { contacts: "LLG", volts: "250", amps: 20 },
  "L6-30": { contacts: "LLG", volts: "250", amps: 30 },
  "L14-20": { contacts: "LLNG", volts: "125/250", amps: 20 },
  "L14-30": { contacts: "LLNG", volts: "125/250", amps: 30 },
} as const satisfies Record<string, Configuration>;

/** The name of a configuration. */
export type ConfigurationName = keyof typeof configurations;

/** Receptacles that take a plug of a smaller rating beside their own. The second is from memory. */
export const alsoTakes: Readonly<Partial<Record<ConfigurationName, ConfigurationName>>> = {
  "5-20": "5-15",
  "6-20": "6-15",
};

/** What the table of configurations rests on. */
export const configurationBasis: Basis = {
  document: "ANSI/NEMA WD 6",
  publisher: "NEMA",
  edition: "",
  section: "configurations of plugs and receptacles",
  force: "advice",
  confirmed: "secondary",
  note: "The 5, L and TT series, 14-15 and 14-60 are from memory.",
};
