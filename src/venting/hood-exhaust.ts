import * as z from "zod";
import type { Limit } from "../core/basis/index.js";
import { brand } from "../core/quantity/index.js";
import { defineRule, machineFacts, type Proposal, quantity, type RuleExample } from "../core/rule/index.js";
import { broilerMetal, hoodDuct, hoodMetal, hoodNeedsSpill, hoodOutdoors, hoodThreshold } from "./limits-air.js";
import { allGood, Unseen } from "./lookup.js";

/** What a hood's duct is found to be made of. */
export const hoodMaterials = [
  "galvanized steel",
  "stainless steel",
  "copper",
  "aluminium",
  "PVC",
  "flexible duct",
  "other",
] as const;
const hoodMetals: readonly string[] = hoodMaterials.slice(0, 3);

export const hoodExhaustInput = z.strictObject({
  kind: machineFacts.kind.optional(),
  exhaustRate: machineFacts.exhaustRate,
  recirculates: z.boolean().optional().describe("Whether it only filters the air and blows it back into the room"),
  otherVentilation: z
    .boolean()
    .optional()
    .describe("Whether a recirculating hood is listed and the room has other ventilation as the code asks"),
  place: z.enum(["outdoors", "attic", "crawl space", "inside"]).optional().describe("Where the hood's duct ends"),
  material: z.enum(hoodMaterials).optional().describe("What the hood's duct is made of"),
  tight: z
    .boolean()
    .optional()
    .describe("Whether the duct is smooth inside, airtight, with a back-draught damper, and serves the hood alone"),
  broiler: z.boolean().optional().describe("Whether it hangs over an open-top broiler"),
  broilerThickness: quantity("length", { max: [1, "in"] })
    .optional()
    .describe("Thickness of that hood's metal; 28 gage is 0.0157 in"),
  openFlue: z
    .boolean()
    .optional()
    .describe(
      "Whether a gas, oil or solid-fuel appliance inside the house has neither direct vent nor mechanical draught",
    ),
  makeup: z
    .enum(["none", "open all the time", "damper that opens with the fan"])
    .optional()
    .describe("How air comes in for the hood"),
});

const remedies = {
  makeup: "Bring make-up air in through a damper that opens with the fan.",
  duct: "Run a duct of its own in galvanized steel, smooth, tight and damped, to outdoors.",
} as const;

/**
 * The kitchen hood blows outdoors through a proper duct, and air comes in for it.
 *
 * A rule; its page is `docs/rules/venting/hood-exhaust.md`.
 */
export const hoodExhaust = defineRule({
  id: "venting/hood-exhaust",
  title: "The kitchen hood blows outdoors through a proper duct, and air comes in for it",
  since: "0.1.0",
  input: hoodExhaustInput,
  basis: [],
  limits: [hoodOutdoors, hoodMetal, hoodDuct, broilerMetal, hoodThreshold, hoodNeedsSpill],
  messages: {
    pass: {
      sound: "The hood's exhaust is in order.",
      outdoors: "The hood's duct ends outdoors.",
      metal: "The hood's duct is {material:text}.",
      tightDuct: "The hood's duct is smooth, airtight, damped and its own.",
      thick: "The broiler hood's metal is {thickness:thickness}, at least {limit:thickness}.",
      modest: "The hood exhausts {rate:volumeFlow}, not more than {limit:volumeFlow}; no make-up air is called for.",
      sealed: "No appliance inside could spill its flue gas; no make-up air is called for.",
      madeUp: "Make-up air comes in with the fan.",
      filtered: "The hood recirculates, is listed for it, and the room has other ventilation.",
    },
    fail: {
      indoors: "The hood's duct ends in the {place:text}; it must end outdoors.",
      wrongMetal: "The hood's duct is {material:text}; it must be galvanized steel, stainless steel or copper.",
      leaky: "The hood's duct must be smooth inside, airtight, with a back-draught damper, and serve nothing else.",
      thin: "The broiler hood's metal is {thickness:thickness}; it must be at least {limit:thickness}.",
      starved:
        "The hood exhausts {rate:volumeFlow}, more than {limit:volumeFlow}: make-up air must come in with the fan.",
      alwaysOpen: "The make-up air opening stands open all the time; a damper must close it and open with the fan.",
      unventilated: "A recirculating hood must be listed for it, and the room must have other ventilation.",
    },
    review: { unseen: "Not yet looked at: {what:text}." },
    notApplicable: { noHood: "This machine is no kitchen hood." },
  },
  remedies,
  cautions: ["carbonMonoxide", "fire", "deferral"],
  examples: ((): RuleExample<z.input<typeof hoodExhaustInput>>[] => {
    const good: z.input<typeof hoodExhaustInput> = {
      kind: "hood",
      exhaustRate: "300 cfm",
      recirculates: false,
      place: "outdoors",
      material: "galvanized steel",
      tight: true,
      broiler: false,
    };
    const strong = { ...good, exhaustRate: "600 cfm", openFlue: true };
    return [
      { title: "A 300 cfm hood with a galvanized duct", input: good, gives: "sound" },
      {
        title: "A 600 cfm hood in a house of sealed appliances",
        input: { ...strong, openFlue: false },
        gives: "sound",
      },
      {
        title: "A 600 cfm hood with make-up air",
        input: { ...strong, makeup: "damper that opens with the fan" },
        gives: "sound",
      },
      {
        title: "An open-top broiler's hood",
        input: { ...good, broiler: true, broilerThickness: "0.02 in" },
        gives: "sound",
      },
      {
        title: "A recirculating hood with other ventilation in the room",
        input: { kind: "hood", recirculates: true, otherVentilation: true },
        gives: "filtered",
      },
      { title: "A hood into the attic", input: { ...good, place: "attic" }, gives: "indoors" },
      { title: "A hood on flexible duct", input: { ...good, material: "flexible duct" }, gives: "wrongMetal" },
      { title: "A leaky duct", input: { ...good, tight: false }, gives: "leaky" },
      {
        title: "Thin metal over a broiler",
        input: { ...good, broiler: true, broilerThickness: "0.012 in" },
        gives: "thin",
      },
      {
        title: "A 600 cfm hood near an open flue without make-up air",
        input: { ...strong, makeup: "none" },
        gives: "starved",
      },
      {
        title: "A make-up opening that stands open",
        input: { ...strong, makeup: "open all the time" },
        gives: "alwaysOpen",
      },
      {
        title: "A recirculating hood in a room without ventilation",
        input: { kind: "hood", recirculates: true, otherVentilation: false },
        gives: "unventilated",
      },
      { title: "Nothing looked at yet", input: { kind: "hood" }, gives: "unseen" },
      { title: "A dryer", input: { kind: "dryer" }, gives: "noHood" },
    ];
  })(),
  check(found, { limit, judge, missing, say, all }) {
    const { kind, exhaustRate, recirculates, place, material, tight, broiler, openFlue, makeup } = found;
    if (kind !== undefined && kind !== "hood") return say("noHood");
    const unseen = new Unseen();
    const needed = (requirement: Limit): boolean => limit(requirement)?.value === 1;
    if (recirculates) {
      const { otherVentilation } = found;
      if (otherVentilation === undefined)
        return missing(["unseen", { what: "other ventilation of the room" }], ["otherVentilation"]);
      return otherVentilation ? say("filtered") : say("unventilated");
    }

    const broilerHood = () => {
      const least = limit(broilerMetal);
      if (!least || broiler === false) return undefined;
      if (broiler === undefined) return unseen.note("whether it hangs over an open-top broiler", "broiler");
      const thickness = found.broilerThickness;
      if (thickness === undefined) return unseen.note("thickness of the hood's metal", "broilerThickness");
      const slots = { thickness, limit: brand<"length">(least.value) };
      return judge({
        kind: "thickness",
        measured: thickness,
        limit: least,
        pass: ["thick", slots],
        fail: ["thin", slots],
      });
    };
    const makeupAir = () => {
      const most = limit(hoodThreshold);
      if (!most) return undefined;
      const onlySpill = needed(hoodNeedsSpill);
      if (onlySpill && openFlue === false) return say("sealed");
      if (makeup === "damper that opens with the fan") return say("madeUp");
      if (exhaustRate === undefined) return unseen.note("the hood's exhaust rate", "exhaustRate");
      const slots = { rate: exhaustRate, limit: brand<"volumeFlow">(most.value) };
      const strength = judge({
        kind: "volumeFlow",
        measured: exhaustRate,
        limit: most,
        pass: ["modest", slots],
        fail: makeup === "open all the time" ? ["alwaysOpen"] : ["starved", slots],
      });
      if (allGood(strength)) return strength;
      if (onlySpill && openFlue === undefined) return unseen.note("appliances that could spill", "openFlue");
      if (makeup === undefined) return unseen.note("make-up air", "makeup");
      return strength;
    };

    const parts = all(
      recirculates === undefined ? unseen.note("whether it recirculates", "recirculates") : undefined,
      needed(hoodOutdoors)
        ? place === undefined
          ? unseen.note("where the duct ends", "place")
          : place === "outdoors"
            ? say("outdoors")
            : say("indoors", { place: place === "inside" ? "house" : place })
        : undefined,
      needed(hoodMetal)
        ? material === undefined
          ? unseen.note("material of the duct", "material")
          : hoodMetals.includes(material)
            ? say("metal", { material })
            : say("wrongMetal", { material })
        : undefined,
      needed(hoodDuct)
        ? tight === undefined
          ? unseen.note("inside, joints and damper of the duct", "tight")
          : tight
            ? say("tightDuct")
            : say("leaky")
        : undefined,
      broilerHood(),
      makeupAir(),
    );
    const rest = unseen.names.length > 0 ? missing(["unseen", { what: unseen.names.join(", ") }], ...unseen.paths) : [];
    const whole = all(parts, rest);
    return allGood(whole) ? all(say("sound"), whole) : whole;
  },
  mend() {
    const proposals: Proposal<typeof remedies>[] = [
      { change: [{ path: ["makeup"], value: "damper that opens with the fan" }], say: ["makeup"] },
      {
        change: [
          { path: ["place"], value: "outdoors" },
          { path: ["material"], value: "galvanized steel" },
          { path: ["tight"], value: true },
        ],
        say: ["duct"],
      },
    ];
    return proposals;
  },
});
