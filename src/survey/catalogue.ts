/** Every rule and calculator, found among what the trades export. */
import type { Limit } from "../core/basis/index.js";
import { type CatalogueEntry, entriesOf, limitsOf, type SurveyPart } from "../core/rule/index.js";
import * as electrical from "../electrical/index.js";
import * as placement from "../placement/index.js";
import * as plumbing from "../plumbing/index.js";
import * as venting from "../venting/index.js";

/**
 * The trades' parts of a survey, in the order one walks a site: the way in and the room, the power, the water and gas,
 * the exhaust.
 */
export const parts = [
  placement.placementPart,
  electrical.electricalPart,
  plumbing.plumbingPart,
  venting.ventingPart,
] as const satisfies readonly SurveyPart[];

let entries: CatalogueEntry[] | undefined;

/** All rules and calculators, in order of id. */
export function catalogue(): readonly CatalogueEntry[] {
  entries ??= entriesOf(electrical, venting, plumbing, placement);
  return entries;
}

/** The rule or calculator with an id, or `undefined`. */
export function entryWithId(id: string): CatalogueEntry | undefined {
  return catalogue().find((entry) => entry.id === id);
}

/** Every limit that a local amendment or a maker's sheet can name, in order of id. */
export function allLimits(): readonly Limit[] {
  return limitsOf(catalogue());
}
