/** Plugs and sockets for 230 V by their standards. */
import type { Basis, Confirmed } from "../../core/basis/index.js";

/** One plug-and-socket system of one rating. */
export interface Socket {
  readonly amps: number;
  readonly confirmed: Confirmed;
}

/**
 * Rated currents at 230 V, as the standards' own titles and IEC/TR 60083 have them. Those of BS 1363 and BS 546 were seen
 * restated; the others are from memory.
 */
export const sockets = {
  "CEE 7": { amps: 16, confirmed: "memory" },
  "BS 1363": { amps: 13, confirmed: "secondary" },
  "BS 546, 5 A": { amps: 5, confirmed: "secondary" },
  "BS 546, 15 A": { amps: 15, confirmed: "secondary" },
  "SN 441011, type 13": { amps: 10, confirmed: "memory" },
  "SN 441011, type 23": { amps: 16, confirmed: "memory" },
  "CEI 23-50, 10 A": { amps: 10, confirmed: "memory" },
  "CEI 23-50, 16 A": { amps: 16, confirmed: "memory" },
  "DS 60884-2-D1": { amps: 13, confirmed: "memory" },
  "AS/NZS 3112, 10 A": { amps: 10, confirmed: "memory" },
  "AS/NZS 3112, 15 A": { amps: 15, confirmed: "memory" },
} as const satisfies Record<string, Socket>;

/** The name of a plug-and-socket system. */
export type SocketName = keyof typeof sockets;

/** Sockets that take a plug of a smaller rating beside their own. From memory. */
export const socketAlsoTakes: Readonly<Partial<Record<SocketName, SocketName>>> = {
  "AS/NZS 3112, 15 A": "AS/NZS 3112, 10 A",
  "SN 441011, type 23": "SN 441011, type 13",
};

/** What a rating rests on. */
export const socketBasis = (name: SocketName): Basis => ({
  document: name.split(",")[0]!,
  publisher: "",
  edition: "",
  section: "rated current",
  force: "advice",
  confirmed: sockets[name].confirmed,
  note: "The national wiring rules decide what may hang on it, and which residual-current protection it needs.",
});
