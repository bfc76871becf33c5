/** Blower, run and air of one input put together, for every calculator and rule that asks where they meet. */
import { brand } from "../core/quantity/index.js";
import type { Path } from "../core/rule/index.js";
import { geopotentialHeight } from "../physics/index.js";
import { blowerOf, type Driving, drivingOf, inAir, type Meeting } from "./blower.js";
import { type SiteAir, siteAir, siteRun } from "./run-input.js";
import { genericBlower } from "./tables/blower.js";

type Asked = Parameters<typeof siteRun>[0] &
  Parameters<typeof siteAir>[0] &
  Parameters<typeof blowerOf>[0] &
  Parameters<typeof drivingOf>[0];

/** A meeting, or what is needed first, or why there is none. */
export type Met =
  | {
      readonly kind: "met";
      readonly meeting: Meeting;
      readonly air: SiteAir;
      readonly driving: Driving;
      /** Whether the blower is the generic one, and no product's. */
      readonly isGeneric: boolean;
      readonly assumed: readonly string[];
    }
  | { readonly kind: "gap"; readonly paths: readonly Path[] }
  | { readonly kind: "steam" | "notFalling" };

/** Puts blower, run and air together. */
export function meetingOf(input: Asked): Met {
  const found = siteRun(input);
  if (found.gap) return { kind: "gap", paths: found.gap };
  const air = siteAir(input);
  if (!air) return { kind: "steam" };
  const standard = blowerOf(input);
  if (!standard) return { kind: "notFalling" };
  const { pieces, diameter } = found.run;
  const driving = drivingOf(input, air, geopotentialHeight(input.altitude ?? brand<"length">(0)));
  const isGeneric = input.blower === undefined;
  const assumed = [...found.assumed, ...air.assumed, ...driving.assumed];
  if (isGeneric) {
    assumed.push(
      `A generic blower: ${genericBlower.shutOff} inH2O at no flow, nothing at ${genericBlower.free} cfm, in standard air. It is no product's.`,
    );
  }
  const meeting: Meeting = { curve: inAir(standard, air.density), pieces, diameter, air, driving };
  return { kind: "met", meeting, air, driving, isGeneric, assumed };
}
