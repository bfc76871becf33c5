import * as z from "zod";
import type { Limit } from "../core/basis/index.js";
import { brand, show } from "../core/quantity/index.js";
import { defineRule, type Proposal, quantity, type RuleExample } from "../core/rule/index.js";
import { dryerFacts, noDuctExamples, noDuctMessages, withoutDuct } from "./dryer.js";
import {
  ductAlone,
  ductDiameterLeast,
  ductDiameterMost,
  ductLaps,
  ductMetal,
  ductSealed,
  ductSmooth,
  ductThickness,
  fastenerReach,
  noFireDamper,
  plateDepth,
  plateOverlap,
  plateThickness,
  riserCleanout,
  supportSpacing,
} from "./limits-construction.js";
import { allGood, Unseen, valueAt } from "./lookup.js";

/** What a dryer's duct is found to be made of. */
export const ductMaterials = [
  "galvanized steel",
  "aluminium",
  "stainless steel",
  "copper",
  "PVC",
  "semi-rigid metal",
  "foil or plastic flexible",
] as const;
const rigidMetals: readonly string[] = ductMaterials.slice(0, 4);

const inch = (most: number) => quantity("length", { max: [most, "in"] }).optional();

export const ductConstructionInput = z.strictObject({
  ...dryerFacts,
  diameter: quantity("length", { min: [1, "in"], max: [24, "in"] })
    .optional()
    .describe("Nominal diameter of the duct, as marked on it or as sold"),
  material: z.enum(ductMaterials).optional().describe("What the duct between transition duct and hood is made of"),
  thickness: inch(0.25).describe("Thickness of the duct's metal, from its mark; 28 gage is 0.0157 in"),
  smooth: z.boolean().optional().describe("Whether the duct is smooth inside along its whole length"),
  laps: z
    .enum(["with the air", "against the air"])
    .optional()
    .describe("Which way the inserted end of each piece points"),
  fastenerReach: inch(6).describe("How far the longest screw or rivet reaches into the duct; 0 in where none does"),
  sealed: z.boolean().optional().describe("Whether every joint is sealed with foil tape or mastic"),
  supportSpacing: quantity("length", { max: [500, "ft"] })
    .optional()
    .describe("Widest distance between two supports of the duct"),
  concealed: z.boolean().optional().describe("Whether any of the duct runs inside a wall, floor or ceiling"),
  faceDepth: inch(48).describe("Least distance from the concealed duct to the finished face of the framing"),
  plated: z.boolean().optional().describe("Whether steel plates cover the duct where it is close to that face"),
  plateThickness: inch(1).describe("Thickness of those plates; 16 gage is 0.062 in"),
  plateOverlap: inch(48).describe("How far those plates run past sole and top plates"),
  alone: z
    .boolean()
    .optional()
    .describe("Whether the duct serves this dryer alone and joins no vent, chimney or plenum"),
  fireDamper: z.boolean().optional().describe("Whether a fire or smoke damper is in the duct"),
  riser: z.boolean().optional().describe("Whether the duct rises a storey or more"),
  cleanout: z.boolean().optional().describe("Whether the riser can be opened for cleaning"),
});

const remedies = { putRight: "Put right: {what:text}." } as const;

/** The dryer's exhaust duct is made as it must be. A rule; its page is `docs/rules/venting/duct-construction.md`. */
export const ductConstruction = defineRule({
  id: "venting/duct-construction",
  title: "The dryer's exhaust duct is made as it must be",
  since: "0.1.0",
  input: ductConstructionInput,
  basis: [],
  limits: [
    ductDiameterLeast,
    ductDiameterMost,
    ductMetal,
    ductThickness,
    ductSmooth,
    ductLaps,
    fastenerReach,
    ductSealed,
    supportSpacing,
    plateDepth,
    plateThickness,
    plateOverlap,
    ductAlone,
    noFireDamper,
    riserCleanout,
  ],
  messages: {
    pass: {
      sound: "The duct's make is in order: {what:text}.",
      wideEnough: "The {diameter:inches} duct is not narrower than {limit:inches}.",
      narrowEnough: "The {diameter:inches} duct is not wider than {limit:inches}.",
      rigid: "The duct is rigid {material:text}.",
      thick: "The metal is {thickness:thickness}, at least {limit:thickness}.",
      smoothInside: "The duct is smooth inside.",
      lapsRight: "The inserted ends point with the air.",
      fastenersShort: "The fasteners reach {reach:inches} into the duct, at most {limit:inches}.",
      jointsSealed: "The joints are sealed.",
      supported: "The supports are {spacing:length} apart, at most {limit:length}.",
      deepEnough: "The duct lies {depth:inches} behind the framing's face, at least {limit:inches}.",
      plateThick: "The plates are {thickness:thickness}, at least {limit:thickness}.",
      plateLong: "The plates run {overlap:inches} past sole and top plates, at least {limit:inches}.",
      onItsOwn: "The duct serves this dryer alone.",
      noDamper: "No fire or smoke damper is in the duct.",
      canClean: "The riser can be cleaned out.",
    },
    fail: {
      tooNarrow: "The {diameter:inches} duct must be at least {limit:inches}.",
      tooWide: "The {diameter:inches} duct must not be wider than {limit:inches}: slow air drops its lint.",
      notRigidMetal: "The duct is {material:text}; all of it but the transition duct must be rigid metal.",
      tooThin: "The duct's metal is {thickness:thickness}; it must be at least {limit:thickness}.",
      rough: "The duct must be smooth inside along its whole length; ribs catch lint.",
      lapsWrong: "The inserted ends point against the air and catch lint; turn the pieces round.",
      fastenersLong: "Fasteners reach {reach:inches} into the duct; they must not reach further than {limit:inches}.",
      jointsOpen: "The joints must be sealed with listed foil tape or mastic.",
      sagging: "The supports are {spacing:length} apart; they must be at most {limit:length} apart.",
      bare: "The concealed duct lies {depth:inches} behind the framing's face, less than {limit:inches}: steel plates must cover it there.",
      plateThin: "The plates are {thickness:thickness}; they must be at least {limit:thickness}.",
      plateShort: "The plates run {overlap:inches} past sole and top plates; it must be at least {limit:inches}.",
      shared: "The duct must serve this dryer alone and join no other exhaust, vent, chimney or plenum.",
      damperInside: "The fire or smoke damper must come out of the duct; the wall's rating is kept in another way.",
      noCleanout: "The riser must have an opening to clean it out.",
    },
    review: {
      pvc: "Some adopted texts allow schedule 40 PVC for a level run under a slab, none elsewhere; ask the local authority.",
      unseen: "Not yet looked at: {what:text}.",
    },
    notApplicable: noDuctMessages,
  },
  remedies,
  cautions: ["fire", "deferral"],
  examples: ((): RuleExample<z.input<typeof ductConstructionInput>>[] => {
    const good = {
      fuel: "electric",
      diameter: "4 in",
      material: "galvanized steel",
      thickness: "0.0187 in",
      smooth: true,
      laps: "with the air",
      fastenerReach: "0 in",
      sealed: true,
      supportSpacing: "4 ft",
      concealed: false,
      alone: true,
      fireDamper: false,
    } as const;
    const behind = { ...good, concealed: true } as const;
    const plated = { ...behind, plated: true, plateThickness: "0.0625 in", plateOverlap: "2 in" } as const;
    const flats = { jurisdiction: { building: "multifamily" } } as const;
    return [
      { title: "A 4 in galvanized duct as it should be", input: good, gives: "sound" },
      { title: "A duct well inside the wall", input: { ...behind, faceDepth: "1 1/2 in" }, gives: "sound" },
      { title: "A duct behind plates", input: plated, gives: "sound" },
      {
        title: "A riser in a block of flats with a cleanout",
        input: { ...good, riser: true, cleanout: true },
        at: flats,
        gives: "sound",
      },
      { title: "A 3 in duct", input: { ...good, diameter: "3 in" }, gives: "tooNarrow" },
      { title: "A 6 in duct", input: { ...good, diameter: "6 in" }, gives: "tooWide" },
      {
        title: "Foil hose inside a wall",
        input: { ...good, material: "foil or plastic flexible" },
        gives: "notRigidMetal",
      },
      { title: "Thin metal", input: { ...good, thickness: "0.013 in" }, gives: "tooThin" },
      { title: "A ribbed duct", input: { ...good, smooth: false }, gives: "rough" },
      { title: "Pieces the wrong way round", input: { ...good, laps: "against the air" }, gives: "lapsWrong" },
      {
        title: "Screws through the wall of the duct",
        input: { ...good, fastenerReach: "1/2 in" },
        gives: "fastenersLong",
      },
      { title: "Joints left open", input: { ...good, sealed: false }, gives: "jointsOpen" },
      {
        title:
          "A gas dryer's duct held every 10 ft, which the general chapter allows and the fuel-gas chapter does not",
        input: { ...good, fuel: "naturalGas", supportSpacing: "10 ft" },
        gives: "sagging",
      },
      { title: "A duct close behind the plaster", input: { ...behind, faceDepth: "1/2 in" }, gives: "bare" },
      { title: "Thin plates", input: { ...plated, plateThickness: "0.04 in" }, gives: "plateThin" },
      { title: "Short plates", input: { ...plated, plateOverlap: "1 in" }, gives: "plateShort" },
      { title: "A duct shared with a bath fan", input: { ...good, alone: false }, gives: "shared" },
      { title: "A fire damper in the duct", input: { ...good, fireDamper: true }, gives: "damperInside" },
      {
        title: "A riser in a block of flats without a cleanout",
        input: { ...good, riser: true, cleanout: false },
        at: flats,
        gives: "noCleanout",
      },
      { title: "PVC under a slab", input: { ...good, material: "PVC" }, gives: "pvc" },
      { title: "Nothing looked at yet", input: { fuel: "electric" }, gives: "unseen" },
      ...noDuctExamples,
    ];
  })(),
  check(found, { limit, judge, missing, say, all }) {
    const { kind, fuel, exhaust, diameter, material, concealed } = found;
    const exempt = withoutDuct(kind, exhaust);
    if (exempt) return say(...exempt);
    const unseen = new Unseen();
    const needed = (requirement: Limit): boolean => limit(requirement, fuel)?.value === 1;

    const sizes = () => {
      const least = limit(ductDiameterLeast, fuel);
      const most = limit(ductDiameterMost, fuel);
      if (diameter === undefined) return least || most ? unseen.note("diameter", "diameter") : undefined;
      return all(
        least &&
          judge({
            kind: "inches",
            measured: diameter,
            limit: least,
            pass: ["wideEnough", { diameter, limit: brand<"length">(least.value) }],
            fail: ["tooNarrow", { diameter, limit: brand<"length">(least.value) }],
          }),
        most &&
          judge({
            kind: "inches",
            measured: diameter,
            limit: most,
            pass: ["narrowEnough", { diameter, limit: brand<"length">(most.value) }],
            fail: ["tooWide", { diameter, limit: brand<"length">(most.value) }],
          }),
      );
    };
    const metal = () => {
      if (!needed(ductMetal)) return undefined;
      if (material === undefined) return unseen.note("material", "material");
      if (material === "PVC") return say("pvc");
      return rigidMetals.includes(material) ? say("rigid", { material }) : say("notRigidMetal", { material });
    };
    const thickness = () => {
      const least = limit(ductThickness, fuel);
      if (!least || (material !== undefined && !rigidMetals.includes(material))) return undefined;
      const measured = found.thickness;
      if (measured === undefined) return unseen.note("thickness of the metal", "thickness");
      const slots = { thickness: measured, limit: brand<"length">(least.value) };
      return judge({ kind: "thickness", measured, limit: least, pass: ["thick", slots], fail: ["tooThin", slots] });
    };
    const fasteners = () => {
      const most = limit(fastenerReach, fuel);
      if (!most) return undefined;
      const measured = found.fastenerReach;
      if (measured === undefined) return unseen.note("screws and rivets", "fastenerReach");
      const slots = { reach: measured, limit: brand<"length">(most.value) };
      return judge({
        kind: "inches",
        measured,
        limit: most,
        pass: ["fastenersShort", slots],
        fail: ["fastenersLong", slots],
      });
    };
    const supports = () => {
      const most = limit(supportSpacing, fuel);
      if (!most) return undefined;
      const measured = found.supportSpacing;
      if (measured === undefined) return unseen.note("spacing of the supports", "supportSpacing");
      const slots = { spacing: measured, limit: brand<"length">(most.value) };
      return judge({ kind: "length", measured, limit: most, pass: ["supported", slots], fail: ["sagging", slots] });
    };
    const plates = () => {
      const depth = limit(plateDepth, fuel);
      if (!depth) return undefined;
      if (concealed === undefined) return unseen.note("whether the duct runs inside walls", "concealed");
      if (!concealed) return undefined;
      if (!found.plated) {
        const measured = found.faceDepth;
        if (measured === undefined) return unseen.note("depth behind the framing's face", "faceDepth");
        const slots = { depth: measured, limit: brand<"length">(depth.value) };
        return judge({ kind: "inches", measured, limit: depth, pass: ["deepEnough", slots], fail: ["bare", slots] });
      }
      const thick = limit(plateThickness, fuel);
      const over = limit(plateOverlap, fuel);
      // a town or a maker may ask for plates where no text says what they must be like
      if (!thick || !over) return undefined;
      const plate = found.plateThickness;
      const overlap = found.plateOverlap;
      const thin = plate !== undefined && { thickness: plate, limit: brand<"length">(thick.value) };
      const short = overlap !== undefined && { overlap, limit: brand<"length">(over.value) };
      return all(
        thin
          ? judge({
              kind: "thickness",
              measured: thin.thickness,
              limit: thick,
              pass: ["plateThick", thin],
              fail: ["plateThin", thin],
            })
          : unseen.note("thickness of the plates", "plateThickness"),
        short
          ? judge({
              kind: "inches",
              measured: short.overlap,
              limit: over,
              pass: ["plateLong", short],
              fail: ["plateShort", short],
            })
          : unseen.note("overlap of the plates", "plateOverlap"),
      );
    };
    const riser = () => {
      if (!needed(riserCleanout)) return undefined;
      if (found.riser === undefined) return unseen.note("whether the duct rises a storey", "riser");
      if (!found.riser) return undefined;
      if (found.cleanout === undefined) return unseen.note("cleanout of the riser", "cleanout");
      return found.cleanout ? say("canClean") : say("noCleanout");
    };

    const parts = all(
      sizes(),
      metal(),
      thickness(),
      needed(ductSmooth)
        ? found.smooth === undefined
          ? unseen.note("inside face", "smooth")
          : found.smooth
            ? say("smoothInside")
            : say("rough")
        : undefined,
      needed(ductLaps)
        ? found.laps === undefined
          ? unseen.note("direction of the laps", "laps")
          : found.laps === "with the air"
            ? say("lapsRight")
            : say("lapsWrong")
        : undefined,
      fasteners(),
      needed(ductSealed)
        ? found.sealed === undefined
          ? unseen.note("sealing of the joints", "sealed")
          : found.sealed
            ? say("jointsSealed")
            : say("jointsOpen")
        : undefined,
      supports(),
      plates(),
      needed(ductAlone)
        ? found.alone === undefined
          ? unseen.note("whether anything shares the duct", "alone")
          : found.alone
            ? say("onItsOwn")
            : say("shared")
        : undefined,
      needed(noFireDamper)
        ? found.fireDamper === undefined
          ? unseen.note("fire dampers", "fireDamper")
          : found.fireDamper
            ? say("damperInside")
            : say("noDamper")
        : undefined,
      riser(),
    );
    const rest = unseen.names.length > 0 ? missing(["unseen", { what: unseen.names.join(", ") }], ...unseen.paths) : [];
    const whole = all(parts, rest);
    return allGood(whole)
      ? all(say("sound", { what: "size, metal, joints, supports and what else was asked" }), whole)
      : whole;
  },
  mend(found, at) {
    const { fuel, diameter, material } = found;
    const change: { path: string[]; value: unknown; unit?: "in" | "ft" }[] = [];
    const what: string[] = [];
    const set = (path: string, value: unknown, text: string, unit?: "in" | "ft") => {
      change.push({ path: [path], value, ...(unit === undefined ? {} : { unit }) });
      what.push(text);
    };
    const least = valueAt(at, ductDiameterLeast, fuel);
    const most = valueAt(at, ductDiameterMost, fuel);
    const thick = valueAt(at, ductThickness, fuel) ?? 0;
    const spacing = valueAt(at, supportSpacing, fuel);
    const depth = valueAt(at, plateDepth, fuel);
    const size = least ?? most;
    if (diameter !== undefined && size !== undefined && (diameter < (least ?? 0) || diameter > (most ?? Infinity)))
      set("diameter", size, `a duct of ${show(brand<"length">(size), "inches", { units: at.units })}`, "in");
    if (material !== undefined && material !== "PVC" && !rigidMetals.includes(material)) {
      set("material", "galvanized steel", "rigid galvanized duct");
      if (found.thickness === undefined || found.thickness < thick)
        set("thickness", thick, `metal of ${show(brand<"length">(thick), "thickness", { units: at.units })}`, "in");
      if (found.smooth === false) set("smooth", true, "a smooth inside");
    } else {
      if (found.thickness !== undefined && found.thickness < thick)
        set("thickness", thick, `metal of ${show(brand<"length">(thick), "thickness", { units: at.units })}`, "in");
      if (found.smooth === false) set("smooth", true, "a smooth inside");
    }
    if (found.laps === "against the air") set("laps", "with the air", "pieces turned round");
    const reach = valueAt(at, fastenerReach, fuel);
    if (found.fastenerReach !== undefined && reach !== undefined && found.fastenerReach > reach)
      set("fastenerReach", 0, "screws out, joints taped", "in");
    if (found.sealed === false) set("sealed", true, "joints sealed");
    if (found.supportSpacing !== undefined && spacing !== undefined && found.supportSpacing > spacing)
      set(
        "supportSpacing",
        spacing,
        `supports every ${show(brand<"length">(spacing), "length", { units: at.units })}`,
        "ft",
      );
    if (found.concealed && depth !== undefined && (found.plated || (found.faceDepth ?? depth) < depth)) {
      const plate = valueAt(at, plateThickness, fuel);
      const overlap = valueAt(at, plateOverlap, fuel);
      if (!found.plated || (found.plateThickness ?? 0) < plate! || (found.plateOverlap ?? 0) < overlap!) {
        set("plated", true, "steel plates over the duct");
        change.push({ path: ["plateThickness"], value: plate, unit: "in" });
        change.push({ path: ["plateOverlap"], value: overlap, unit: "in" });
      }
    }
    if (found.alone === false) set("alone", true, "a duct of its own");
    if (found.fireDamper) set("fireDamper", false, "damper out of the duct");
    if (found.riser && found.cleanout === false) set("cleanout", true, "a cleanout at the riser");
    const proposals: Proposal<typeof remedies>[] = [];
    if (change.length > 0) proposals.push({ change, say: ["putRight", { what: what.join(", ") }] });
    return proposals;
  },
});
