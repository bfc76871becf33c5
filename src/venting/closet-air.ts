import * as z from "zod";
import { type Area, brand, si } from "../core/quantity/index.js";
import { defineRule, type Proposal, quantity } from "../core/rule/index.js";
import { dryerFacts, noDuctExamples, noDuctMessages, withoutDuct } from "./dryer.js";
import { closetOpening } from "./limits-air.js";
import { louvreBasis, louvreShares } from "./tables/louvres.js";

/** What stands in an opening. */
export const openingCovers = ["nothing", "wood louvre", "metal louvre", "other grille"] as const;
/** What covers an air opening. */
export type OpeningCover = (typeof openingCovers)[number];

/** Schema of one opening that lets air in: its gross area and what covers it. */
export const airOpeningInput = z.strictObject({
  face: quantity("area", { max: [5000, "in2"] }).describe("Face of the opening, width times height"),
  cover: z.enum(openingCovers).describe("What stands in it; the gap under a door has nothing in it"),
  free: quantity("area", { max: [5000, "in2"] })
    .optional()
    .describe("Free area of the louvre or grille, from its maker; leave out where it is not known"),
});

export const closetAirInput = z.strictObject({
  ...dryerFacts,
  closet: z.boolean().optional().describe("Whether the machine stands in a closet or cabinet with a door"),
  openings: z
    .array(airOpeningInput)
    .max(12)
    .optional()
    .describe(
      "Openings of the closet to the next room, the gap under the door too; an empty list where there are none",
    ),
});

/** One opening: its face [m²], what stands in it, and its free area [m²] where that is known. */
export interface AirOpening {
  readonly face: Area;
  readonly cover: OpeningCover;
  readonly free?: Area | undefined;
}

/**
 * Free area of one opening [m²], or `undefined` for a grille of unknown free area.
 *
 * The maker's free area where it is known; the whole face where nothing stands in it; else 25 % of a wood louvre's face
 * and 75 % of a metal one's.
 *
 * @param opening - face, cover and free area where known
 * @basis IFGC 304.10
 * @example freeArea({ face: si(400, "in2"), cover: "wood louvre" }) // 0.064516
 */
export function freeArea({ face, cover, free }: AirOpening): Area | undefined {
  if (free !== undefined) return free;
  switch (cover) {
    case "nothing":
      return face;
    case "wood louvre":
      return brand<"area">(face * louvreShares.wood);
    case "metal louvre":
      return brand<"area">(face * louvreShares.metal);
    case "other grille":
      return undefined;
  }
}

/**
 * Face that a louvre needs for a free area [m²]: the free area divided by the louvre's share.
 *
 * @param free - free area needed [m²]
 * @param louvre - wood or metal, of unknown free area
 * @basis IFGC 304.10
 * @example louvreFace(si(100, "in2"), "wood") // 0.258064
 */
export function louvreFace(free: Area, louvre: keyof typeof louvreShares): Area {
  return brand<"area">(free / louvreShares[louvre]);
}

const remedies = {
  undercut: "Cut a plain opening of {more:area} more into the door, half high and half low.",
  wood: "Fit a wood louvre with a face of {face:area} more.",
} as const;

/** A closet with a dryer in it lets in enough air. A rule; its page is `docs/rules/venting/closet-air.md`. */
export const closetAir = defineRule({
  id: "venting/closet-air",
  title: "A closet with a dryer in it lets in enough air",
  since: "0.1.0",
  input: closetAirInput,
  basis: [],
  limits: [closetOpening],
  messages: {
    pass: { enough: "The closet's openings let air through {free:area}, at least {needed:area}." },
    fail: {
      tooSmall: "The closet's openings let air through {free:area}, {lack:area} less than the {needed:area} needed.",
    },
    review: {
      closetUnknown: "Whether the machine stands in a closet was not said.",
      openingsUnknown: "The openings of the closet were not measured.",
      grilleUnknown: "The free area of the grille is not known; look for it on the maker's sheet.",
    },
    notApplicable: { ...noDuctMessages, open: "The machine does not stand in a closet." },
  },
  remedies,
  cautions: ["fire", "carbonMonoxide", "deferral"],
  examples: [
    {
      title: "A closet with a wood-louvred door",
      input: { fuel: "naturalGas", closet: true, openings: [{ face: "1200 in2", cover: "wood louvre" }] },
      gives: "enough",
    },
    {
      title: "A closet with only a gap under the door",
      input: { fuel: "naturalGas", closet: true, openings: [{ face: "30 in2", cover: "nothing" }] },
      gives: "tooSmall",
    },
    { title: "Closet not said", input: { fuel: "electric" }, gives: "closetUnknown" },
    { title: "Openings not measured", input: { fuel: "electric", closet: true }, gives: "openingsUnknown" },
    {
      title: "A grille without a sheet",
      input: { fuel: "electric", closet: true, openings: [{ face: "200 in2", cover: "other grille" }] },
      gives: "grilleUnknown",
    },
    { title: "A machine in an open room", input: { fuel: "electric", closet: false }, gives: "open" },
    ...noDuctExamples,
  ],
  check({ kind, fuel, exhaust, closet, openings }, { limit, rest, formula, judge, missing, say }) {
    const exempt = withoutDuct(kind, exhaust);
    if (exempt) return say(...exempt);
    if (closet === undefined) return missing(["closetUnknown"], ["closet"]);
    if (!closet) return say("open");
    if (openings === undefined) return missing(["openingsUnknown"], ["openings"]);
    // The habit of the trade stands behind every text, so there always is a value.
    const least = limit(closetOpening, fuel)!;

    let total = 0;
    for (const [i, opening] of openings.entries()) {
      const free = freeArea(opening);
      if (free === undefined) return missing(["grilleUnknown"], ["openings", i, "free"]);
      if (opening.free === undefined && opening.cover !== "nothing") {
        rest(louvreBasis);
        const share = brand<"ratio">(opening.cover === "wood louvre" ? louvreShares.wood : louvreShares.metal);
        formula("{free:area} = {share:ratio} * {face:area}", { free, share, face: opening.face });
      }
      total += free;
    }
    const free = brand<"area">(total);
    const needed = brand<"area">(least.value);
    return judge({
      kind: "area",
      measured: free,
      limit: least,
      pass: ["enough", { free, needed }],
      fail: ["tooSmall", { free, needed, lack: brand<"area">(needed - free) }],
    });
  },
  mend({ fuel, exhaust, kind, openings = [] }, at) {
    const run = closetAir.run({ fuel, exhaust, kind, closet: true, openings }, at, []);
    const compared = run.governing.compared;
    if (!compared) return [];
    // Up to the whole square inch, as a hole is cut.
    const more = brand<"area">(Math.ceil((compared.limit - compared.measured) / si(1, "in2") - 1e-6) * si(1, "in2"));
    const face = louvreFace(more, "wood");
    const proposals: Proposal<typeof remedies>[] = [
      {
        change: [{ path: ["openings"], value: [...openings, { face: more, cover: "nothing" }] }],
        say: ["undercut", { more }],
      },
      {
        change: [{ path: ["openings"], value: [...openings, { face, cover: "wood louvre" }] }],
        say: ["wood", { face }],
      },
    ];
    return proposals;
  },
});
