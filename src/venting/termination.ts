import * as z from "zod";
import type { Limit } from "../core/basis/index.js";
import { brand } from "../core/quantity/index.js";
import { defineRule, type Outcome, type Proposal, quantity, type RuleExample } from "../core/rule/index.js";
import { dryerFacts, noDuctExamples, noDuctMessages, withoutDuct } from "./dryer.js";
import {
  backdraftDamper,
  endsOutdoors,
  heightAboveGround,
  hoodFacing,
  intakeDistance,
  noScreen,
  openingAlways,
  openingDistance,
  outletArea,
  propertyLineDistance,
  soffitDistance,
} from "./limits-termination.js";
import { allGood, Unseen, valueAt } from "./lookup.js";

/** Where a dryer's duct is found to end. */
export const outletPlaces = [
  "outdoors",
  "attic",
  "crawl space",
  "soffit",
  "garage",
  "room",
  "wall or floor space",
  "chimney",
] as const;

/** What can lie near an outlet. */
export const nearbyThings = [
  "window",
  "door",
  "gravity air inlet",
  "vented soffit",
  "mechanical air intake",
  "property line",
] as const;

const nearbyInput = z.strictObject({
  what: z.enum(nearbyThings).describe("What it is"),
  distance: quantity("length", { max: [500, "ft"] }).describe(
    "Shortest distance from the hood to its edge, in any direction",
  ),
});

export const terminationInput = z.strictObject({
  ...dryerFacts,
  place: z.enum(outletPlaces).optional().describe("Where the duct's outlet is"),
  height: quantity("length", { max: [500, "ft"] })
    .optional()
    .describe("Height of the hood's lower edge above the ground"),
  nearby: z
    .array(nearbyInput)
    .max(30)
    .optional()
    .describe("Openings into the building, air intakes and the property line near the hood; an empty list where none"),
  damper: z.boolean().optional().describe("Whether a back-draught damper opens and falls shut freely"),
  screen: z.boolean().optional().describe("Whether a screen, grille or cage is over the outlet"),
  openArea: quantity("area", { max: [1000, "in2"] })
    .optional()
    .describe("Free area of the outlet with its flap open; a plain 4 in circle has 12.57 in2"),
  facing: z.enum(["down", "out", "up"]).optional().describe("Which way the hood opens"),
});

const remedies = { refit: "Fit a hood for dryers: {what:text}." } as const;

/**
 * The duct ends outdoors, clear of openings, with a free outlet and a damper.
 *
 * A rule; its page is `docs/rules/venting/termination.md`.
 */
export const termination = defineRule({
  id: "venting/termination",
  title: "The duct ends outdoors, clear of openings, with a free outlet and a damper",
  since: "0.1.0",
  input: terminationInput,
  basis: [],
  limits: [
    endsOutdoors,
    heightAboveGround,
    openingAlways,
    openingDistance,
    soffitDistance,
    intakeDistance,
    propertyLineDistance,
    backdraftDamper,
    noScreen,
    outletArea,
    hoodFacing,
  ],
  messages: {
    pass: {
      sound: "The outlet is outdoors, clear of openings, free and damped.",
      outdoors: "The duct ends outdoors.",
      highEnough: "The hood is {height:length} above the ground, at least {limit:length}.",
      clear: "The {what:text} is {distance:length} away, at least {limit:length}.",
      damped: "A back-draught damper is fitted.",
      unscreened: "No screen is over the outlet.",
      free: "The outlet's open area of {area:area} is at least {limit:area}.",
      faces: "The hood opens {way:text}.",
    },
    fail: {
      indoors: "The duct ends in the {place:text}; it must end outdoors.",
      tooLow:
        "The hood is {height:length} above the ground; it should be at least {limit:length}, clear of snow and leaves.",
      tooNear: "The {what:text} is {distance:length} from the hood; it must be at least {limit:length} away.",
      soffitNear:
        "The vented soffit is {distance:length} from the hood and draws the moist air into the attic; keep it at least {limit:length} away.",
      noDamper: "A back-draught damper must be at the outlet.",
      screened: "The screen or grille must come off; lint closes it.",
      throttled: "The outlet's open area of {area:area} must be at least {limit:area}: nothing may narrow the passage.",
      facesUp: "The hood opens upwards; it should open down or out.",
    },
    review: { unseen: "Not yet looked at: {what:text}." },
    notApplicable: noDuctMessages,
  },
  remedies,
  cautions: ["fire", "carbonMonoxide", "deferral"],
  examples: ((): RuleExample<z.input<typeof terminationInput>>[] => {
    const good: z.input<typeof terminationInput> = {
      fuel: "electric",
      place: "outdoors",
      height: "16 in",
      nearby: [{ what: "window", distance: "4 ft" }],
      damper: true,
      screen: false,
      openArea: "12.57 in2",
      facing: "down",
    };
    return [
      { title: "A hood on a wall as it should be", input: good, gives: "sound" },
      { title: "A duct that ends in the attic", input: { ...good, place: "attic" }, gives: "indoors" },
      { title: "A hood near the ground", input: { ...good, height: "6 in" }, gives: "tooLow" },
      {
        title: "A hood under a window",
        input: { ...good, nearby: [{ what: "window", distance: "2 ft" }] },
        gives: "tooNear",
      },
      {
        title: "A hood under a vented soffit",
        input: { ...good, nearby: [{ what: "vented soffit", distance: "18 in" }] },
        gives: "soffitNear",
      },
      { title: "No damper", input: { ...good, damper: false }, gives: "noDamper" },
      { title: "A screened hood", input: { ...good, screen: true }, gives: "screened" },
      { title: "A hood with a small throat", input: { ...good, openArea: "9 in2" }, gives: "throttled" },
      { title: "A hood that opens upwards", input: { ...good, facing: "up" }, gives: "facesUp" },
      { title: "Nothing looked at yet", input: { fuel: "naturalGas" }, gives: "unseen" },
      ...noDuctExamples,
    ];
  })(),
  check(found, { limit, judge, missing, say, all }) {
    const { kind, fuel, exhaust, place, height, nearby, damper, screen, openArea, facing } = found;
    const exempt = withoutDuct(kind, exhaust);
    if (exempt) return say(...exempt);
    const unseen = new Unseen();
    const needed = (requirement: Limit): boolean => limit(requirement, fuel)?.value === 1;

    const limitsOf = (what: (typeof nearbyThings)[number]): readonly Limit[] => {
      if (what === "vented soffit") return [soffitDistance];
      if (what === "mechanical air intake") return [intakeDistance, openingAlways];
      if (what === "property line") return [propertyLineDistance];
      return [openingAlways, openingDistance];
    };
    const distances = (): Outcome => {
      const outcomes = (nearby ?? []).flatMap(({ what, distance }) =>
        limitsOf(what).map((one) => {
          const bound = limit(one, fuel);
          if (!bound) return undefined;
          const slots = { distance, limit: brand<"length">(bound.value) };
          return judge({
            kind: "length",
            measured: distance,
            limit: bound,
            pass: ["clear", { what, ...slots }],
            fail: what === "vented soffit" ? ["soffitNear", slots] : ["tooNear", { what, ...slots }],
          });
        }),
      );
      return all(...outcomes);
    };

    const heightLimit = limit(heightAboveGround, fuel);
    const areaLimit = limit(outletArea, fuel);
    const outside = needed(endsOutdoors);
    if (outside && place !== undefined && place !== "outdoors") return say("indoors", { place });
    const parts = all(
      outside ? (place === undefined ? unseen.note("where the duct ends", "place") : say("outdoors")) : undefined,
      heightLimit &&
        (height === undefined
          ? unseen.note("height above the ground", "height")
          : judge({
              kind: "length",
              measured: height,
              limit: heightLimit,
              pass: ["highEnough", { height, limit: brand<"length">(heightLimit.value) }],
              fail: ["tooLow", { height, limit: brand<"length">(heightLimit.value) }],
            })),
      nearby === undefined ? unseen.note("openings and intakes nearby", "nearby") : distances(),
      needed(backdraftDamper)
        ? damper === undefined
          ? unseen.note("damper", "damper")
          : damper
            ? say("damped")
            : say("noDamper")
        : undefined,
      needed(noScreen)
        ? screen === undefined
          ? unseen.note("screen or grille", "screen")
          : screen
            ? say("screened")
            : say("unscreened")
        : undefined,
      areaLimit &&
        (openArea === undefined
          ? unseen.note("open area of the outlet", "openArea")
          : judge({
              kind: "area",
              measured: openArea,
              limit: areaLimit,
              pass: ["free", { area: openArea, limit: brand<"area">(areaLimit.value) }],
              fail: ["throttled", { area: openArea, limit: brand<"area">(areaLimit.value) }],
            })),
      needed(hoodFacing)
        ? facing === undefined
          ? unseen.note("which way the hood opens", "facing")
          : facing === "up"
            ? say("facesUp")
            : say("faces", { way: facing })
        : undefined,
    );
    const rest = unseen.names.length > 0 ? missing(["unseen", { what: unseen.names.join(", ") }], ...unseen.paths) : [];
    const whole = all(parts, rest);
    return allGood(whole) ? all(say("sound"), whole) : whole;
  },
  mend({ fuel, damper, screen, openArea, facing }, at) {
    const change: { path: string[]; value: unknown; unit?: "in2" }[] = [];
    const what: string[] = [];
    if (damper === false) {
      change.push({ path: ["damper"], value: true });
      what.push("with a damper");
    }
    if (screen) {
      change.push({ path: ["screen"], value: false });
      what.push("without a screen");
    }
    const least = valueAt(at, outletArea, fuel);
    if (openArea !== undefined && least !== undefined && openArea < least) {
      change.push({ path: ["openArea"], value: least, unit: "in2" });
      what.push("with the duct's full area free");
    }
    if (facing === "up") {
      change.push({ path: ["facing"], value: "down" });
      what.push("opening down");
    }
    const proposals: Proposal<typeof remedies>[] = [];
    if (change.length > 0) proposals.push({ change, say: ["refit", { what: what.join(", ") }] });
    return proposals;
  },
});
