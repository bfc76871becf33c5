/** What an old three-wire circuit must have so that its neutral may ground a frame. */
import type { AwgSize } from "../../core/quantity/index.js";

/** NEC 250.140, exception, item 2 (2014 to 2020), 250.140(B) (2023): least neutral by metal. */
export const leastNeutral = { copper: "10 AWG", aluminum: "8 AWG" } as const satisfies Record<string, AwgSize>;
