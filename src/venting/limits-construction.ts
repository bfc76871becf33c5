/** What the venting texts ask of the make of a dryer's duct and of its transition duct, dated, one reference per value. */
import { type DatedValue, defineLimit } from "../core/basis/index.js";
import { habit, row } from "./dated.js";

/** Clauses on material, size and installation, one row a text and span, with the value that all of them share. */
function inEveryText(
  value: DatedValue["value"],
  rows: readonly (readonly [DatedValue["text"], number, number, string, DatedValue["confirmed"]])[],
): DatedValue[] {
  return rows.map(([text, from, to, section, confirmed]) => row(text as "irc", from, to, section, value, confirmed));
}

/** Smallest nominal diameter. Before 2009 the residential code left it to the listing. */
export const ductDiameterLeast = defineLimit({
  id: "venting/duct-construction.diameter-least",
  title: "Smallest nominal diameter of a dryer's duct",
  subject: "mechanical",
  kind: "inches",
  sense: "atLeast",
  maker: "tightens",
  values: inEveryText(
    [4, "in"],
    [
      ["irc", 2009, 2009, "M1502.4.1", "secondary"],
      ["irc", 2012, 2012, "M1502.4.1", "seen"],
      ["irc", 2015, 2021, "M1502.4.1", "secondary"],
      ["irc", 2024, 2024, "M1502.4.1", "memory"],
      ["ircFuelGas", 2006, 2006, "G2439.5", "seen"],
      ["ircFuelGas", 2009, 2012, "G2439.5.1", "memory"],
      ["ircFuelGas", 2015, 2024, "G2439.7.1", "memory"],
      ["imc", 2009, 2012, "504.6.1", "memory"],
      ["imc", 2015, 2018, "504.8.1", "secondary"],
      ["imc", 2021, 2021, "504.9.1", "secondary"],
      ["imc", 2024, 2024, "504.9.1", "memory"],
      ["ifgc", 2009, 2012, "614.6.1", "memory"],
      ["ifgc", 2015, 2015, "614.8.1", "memory"],
      ["ifgc", 2018, 2024, "614.9.1", "memory"],
      ["umc", 2006, 2006, "504.3.2", "secondary"],
      ["umc", 2009, 2012, "504.3.1", "seen"],
      ["umc", 2015, 2024, "504.4.2", "memory"],
    ],
  ),
});

/** Greatest nominal diameter: a wider duct slows the air and settles lint. The fuel-gas chapter only sets the least. */
export const ductDiameterMost = defineLimit({
  id: "venting/duct-construction.diameter-most",
  title: "Greatest nominal diameter of a dryer's duct",
  subject: "mechanical",
  kind: "inches",
  sense: "atMost",
  maker: "tightens",
  values: inEveryText(
    [4, "in"],
    [
      ["irc", 2009, 2009, "M1502.4.1", "secondary"],
      ["irc", 2012, 2012, "M1502.4.1", "seen"],
      ["irc", 2015, 2021, "M1502.4.1", "secondary"],
      ["irc", 2024, 2024, "M1502.4.1", "memory"],
      ["imc", 2009, 2012, "504.6.1", "memory"],
      ["imc", 2015, 2018, "504.8.1", "secondary"],
      ["imc", 2021, 2021, "504.9.1", "secondary"],
      ["imc", 2024, 2024, "504.9.1", "memory"],
    ],
  ),
});

/** Least thickness of the metal. The residential code's general chapter went from 0.016 in to 0.0157 in (28 gage) in 2012. */
export const ductThickness = defineLimit({
  id: "venting/duct-construction.thickness",
  title: "Least thickness of the metal of a dryer's duct",
  subject: "mechanical",
  kind: "thickness",
  sense: "atLeast",
  maker: "tightens",
  values: [
    row("irc", 2006, 2006, "M1502.5", [0.016, "in"], "seen"),
    row("irc", 2009, 2009, "M1502.4.1", [0.016, "in"], "seen"),
    row("irc", 2012, 2012, "M1502.4.1", [0.0157, "in"], "seen"),
    row("irc", 2015, 2021, "M1502.4.1", [0.0157, "in"], "secondary"),
    row("irc", 2024, 2024, "M1502.4.1", [0.0157, "in"], "memory"),
    ...inEveryText(
      [0.016, "in"],
      [
        ["ircFuelGas", 2009, 2012, "G2439.5.1", "memory"],
        ["ircFuelGas", 2015, 2024, "G2439.7.1", "memory"],
        ["imc", 2009, 2012, "504.6.1", "memory"],
        ["imc", 2015, 2018, "504.8.1", "secondary"],
        ["imc", 2021, 2021, "504.9.1", "secondary"],
        ["imc", 2024, 2024, "504.9.1", "memory"],
        ["ifgc", 2009, 2012, "614.6.1", "memory"],
        ["ifgc", 2015, 2015, "614.8.1", "memory"],
        ["ifgc", 2018, 2024, "614.9.1", "memory"],
      ],
    ),
  ],
});

/** Rows for what every text asks of material and inside face. */
const materialClauses: Parameters<typeof inEveryText>[1] = [
  ["irc", 2006, 2006, "M1502.5", "seen"],
  ["irc", 2009, 2012, "M1502.4.1", "seen"],
  ["irc", 2015, 2021, "M1502.4.1", "secondary"],
  ["irc", 2024, 2024, "M1502.4.1", "memory"],
  ["ircFuelGas", 2006, 2006, "G2439.5", "seen"],
  ["ircFuelGas", 2009, 2012, "G2439.5.1", "memory"],
  ["ircFuelGas", 2015, 2024, "G2439.7.1", "memory"],
  ["imc", 2009, 2012, "504.6.1", "memory"],
  ["imc", 2015, 2018, "504.8.1", "secondary"],
  ["imc", 2021, 2021, "504.9.1", "secondary"],
  ["imc", 2024, 2024, "504.9.1", "memory"],
  ["ifgc", 2009, 2012, "614.6.1", "memory"],
  ["ifgc", 2015, 2015, "614.8.1", "memory"],
  ["ifgc", 2018, 2024, "614.9.1", "memory"],
  ["umc", 2006, 2006, "504.3.2.1", "secondary"],
  ["umc", 2009, 2012, "504.3.1.1", "seen"],
  ["umc", 2015, 2024, "504.4.2", "memory"],
];

/** Rigid metal, the transition duct apart. */
export const ductMetal = defineLimit({
  id: "venting/duct-construction.metal",
  title: "A dryer's duct is rigid metal",
  subject: "mechanical",
  kind: "requirement",
  sense: "required",
  maker: "tightens",
  values: inEveryText(true, materialClauses),
});

/** Smooth inside. */
export const ductSmooth = defineLimit({
  id: "venting/duct-construction.smooth",
  title: "A dryer's duct is smooth inside",
  subject: "mechanical",
  kind: "requirement",
  sense: "required",
  maker: "tightens",
  values: inEveryText(true, materialClauses),
});

/** Rows for what every text asks of the joints. */
const jointClauses: Parameters<typeof inEveryText>[1] = [
  ["irc", 2006, 2006, "M1502.5", "seen"],
  ["irc", 2009, 2012, "M1502.4.2", "seen"],
  ["irc", 2015, 2021, "M1502.4.2", "secondary"],
  ["irc", 2024, 2024, "M1502.4.2", "memory"],
  ["ircFuelGas", 2009, 2012, "G2439.5.2", "secondary"],
  ["ircFuelGas", 2015, 2024, "G2439.7.2", "memory"],
  ["imc", 2009, 2012, "504.6.2", "memory"],
  ["imc", 2015, 2018, "504.8.2", "secondary"],
  ["imc", 2021, 2021, "504.9.2", "secondary"],
  ["imc", 2024, 2024, "504.9.2", "memory"],
  ["ifgc", 2009, 2012, "614.6.2", "memory"],
  ["ifgc", 2015, 2015, "614.8.2", "memory"],
  ["ifgc", 2018, 2024, "614.9.2", "memory"],
];

/** Each piece inserted into the next in the direction of the air, so that no edge catches lint. */
export const ductLaps = defineLimit({
  id: "venting/duct-construction.laps",
  title: "The inserted end of each piece points with the air",
  subject: "mechanical",
  kind: "requirement",
  sense: "required",
  maker: "tightens",
  values: [...inEveryText(true, jointClauses), habit(true)],
});

/** Joints sealed. */
export const ductSealed = defineLimit({
  id: "venting/duct-construction.sealed",
  title: "The joints are sealed",
  subject: "mechanical",
  kind: "requirement",
  sense: "required",
  maker: "tightens",
  values: [
    row("irc", 2012, 2012, "M1502.4.2", true, "seen"),
    row("irc", 2015, 2021, "M1502.4.2", true, "secondary"),
    row("irc", 2024, 2024, "M1502.4.2", true, "memory"),
    row("ircFuelGas", 2018, 2018, "G2439.3", true, "seen"),
    row("ircFuelGas", 2021, 2024, "G2439.3", true, "memory"),
    row("imc", 2015, 2018, "504.4", true, "memory"),
    row("imc", 2021, 2021, "504.4", true, "secondary"),
    row("imc", 2024, 2024, "504.4", true, "memory"),
    habit(true),
  ],
});

/** How far a screw or rivet may reach into the duct: not at all in the older texts, 1/8 in in the newer. */
export const fastenerReach = defineLimit({
  id: "venting/duct-construction.fastener-reach",
  title: "Furthest a fastener reaches into a dryer's duct",
  subject: "mechanical",
  kind: "inches",
  sense: "atMost",
  maker: "tightens",
  values: [
    row("irc", 2006, 2006, "M1502.5", [0, "in"], "seen"),
    row("irc", 2009, 2009, "M1502.4.2", [0, "in"], "seen"),
    row("irc", 2012, 2012, "M1502.4.2", [1 / 8, "in"], "seen"),
    row("irc", 2015, 2021, "M1502.4.2", [1 / 8, "in"], "secondary"),
    row("irc", 2024, 2024, "M1502.4.2", [1 / 8, "in"], "memory"),
    row("ircFuelGas", 2015, 2024, "G2439.7.2", [1 / 8, "in"], "secondary", {
      note: "The chapter also forbids any fastener that obstructs the flow (G2439.3).",
    }),
    row("imc", 2009, 2012, "504.4", [0, "in"], "secondary"),
    row("imc", 2015, 2018, "504.8.2", [1 / 8, "in"], "secondary"),
    row("imc", 2021, 2021, "504.9.2", [1 / 8, "in"], "secondary"),
    row("imc", 2024, 2024, "504.9.2", [1 / 8, "in"], "memory"),
    row("ifgc", 2015, 2015, "614.8.2", [1 / 8, "in"], "secondary"),
    row("ifgc", 2018, 2024, "614.9.2", [1 / 8, "in"], "memory"),
  ],
});

/** Widest spacing of supports: 12 ft in the residential code's general chapter since 2012, 4 ft in every other text. */
export const supportSpacing = defineLimit({
  id: "venting/duct-construction.support-spacing",
  title: "Widest spacing of the duct's supports",
  subject: "mechanical",
  kind: "length",
  sense: "atMost",
  maker: "tightens",
  values: [
    row("irc", 2009, 2009, "M1502.4.2", [4, "ft"], "seen"),
    row("irc", 2012, 2012, "M1502.4.2", [12, "ft"], "seen"),
    row("irc", 2015, 2018, "M1502.4.2", [12, "ft"], "memory"),
    row("irc", 2021, 2021, "M1502.4.2", [12, "ft"], "secondary"),
    row("irc", 2024, 2024, "M1502.4.2", [12, "ft"], "memory"),
    ...inEveryText(
      [4, "ft"],
      [
        ["ircFuelGas", 2009, 2012, "G2439.5.2", "secondary"],
        ["ircFuelGas", 2015, 2021, "G2439.7.2", "secondary"],
        ["ircFuelGas", 2024, 2024, "G2439.7.2", "memory"],
        ["imc", 2009, 2012, "504.6.2", "memory"],
        ["imc", 2015, 2018, "504.8.2", "secondary"],
        ["imc", 2021, 2021, "504.9.2", "secondary"],
        ["imc", 2024, 2024, "504.9.2", "memory"],
        ["ifgc", 2009, 2012, "614.6.2", "secondary"],
        ["ifgc", 2015, 2015, "614.8.2", "secondary"],
        ["ifgc", 2018, 2021, "614.9.2", "secondary"],
        ["ifgc", 2024, 2024, "614.9.2", "memory"],
      ],
    ),
  ],
});

/** Rows for protection plates. */
const plateClauses: Parameters<typeof inEveryText>[1] = [
  ["irc", 2009, 2021, "M1502.5", "secondary"],
  ["irc", 2024, 2024, "M1502.5", "memory"],
  ["ircFuelGas", 2009, 2012, "G2439.5.3", "memory"],
  ["ircFuelGas", 2015, 2024, "G2439.6", "memory"],
  ["imc", 2009, 2012, "504.6.7", "memory"],
  ["imc", 2015, 2018, "504.7", "memory"],
  ["imc", 2021, 2021, "504.8", "secondary"],
  ["imc", 2024, 2024, "504.8", "memory"],
  ["ifgc", 2009, 2012, "614.6.3", "memory"],
  ["ifgc", 2015, 2015, "614.7", "seen"],
  ["ifgc", 2018, 2024, "614.8", "memory"],
];

/** Depth behind the face of the framing from which a duct needs no plate. */
export const plateDepth = defineLimit({
  id: "venting/duct-construction.plate-depth",
  title: "Depth behind the framing's face from which a concealed duct needs no plate",
  subject: "mechanical",
  kind: "inches",
  sense: "atLeast",
  maker: "tightens",
  values: inEveryText([1.25, "in"], plateClauses),
});

/** Thickness of a protection plate's steel, 16 gage. */
export const plateThickness = defineLimit({
  id: "venting/duct-construction.plate-thickness",
  title: "Least thickness of a protection plate",
  subject: "mechanical",
  kind: "thickness",
  sense: "atLeast",
  maker: "tightens",
  values: inEveryText([0.062, "in"], plateClauses),
});

/** How far a protection plate runs past sole and top plates. */
export const plateOverlap = defineLimit({
  id: "venting/duct-construction.plate-overlap",
  title: "Least overlap of a protection plate beyond sole and top plates",
  subject: "mechanical",
  kind: "inches",
  sense: "atLeast",
  maker: "tightens",
  values: inEveryText([2, "in"], plateClauses),
});

/** The duct serves the dryer alone. */
export const ductAlone = defineLimit({
  id: "venting/duct-construction.alone",
  title: "Nothing shares a dryer's duct, and it joins no vent, chimney or plenum",
  subject: "mechanical",
  kind: "requirement",
  sense: "required",
  maker: "tightens",
  values: [
    row("irc", 2006, 2006, "M1502.1", true, "seen"),
    row("irc", 2009, 2009, "M1502.2", true, "seen"),
    row("irc", 2012, 2012, "M1502.2", true, "seen"),
    row("irc", 2015, 2021, "M1502.2", true, "secondary"),
    row("irc", 2024, 2024, "M1502.2", true, "memory"),
    row("ircFuelGas", 2006, 2015, "G2439.3", true, "memory"),
    row("ircFuelGas", 2018, 2018, "G2439.3", true, "seen"),
    row("ircFuelGas", 2021, 2024, "G2439.3", true, "memory"),
    row("imc", 2006, 2018, "504.4", true, "memory"),
    row("imc", 2021, 2021, "504.4", true, "secondary"),
    row("imc", 2024, 2024, "504.4", true, "memory"),
    row("ifgc", 2012, 2015, "614.4", true, "seen"),
    row("ifgc", 2018, 2024, "614.4", true, "memory"),
    row("umc", 2006, 2012, "504.3.1", true, "seen"),
    row("umc", 2015, 2024, "504.4.1", true, "memory"),
  ],
});

/** No fire or smoke damper in the duct: lint holds it shut or open. */
export const noFireDamper = defineLimit({
  id: "venting/duct-construction.no-fire-damper",
  title: "No fire or smoke damper is in a dryer's duct",
  subject: "mechanical",
  kind: "requirement",
  sense: "required",
  maker: "tightens",
  values: [
    row("ircFuelGas", 2018, 2018, "G2439.2", true, "seen"),
    row("ircFuelGas", 2021, 2024, "G2439.2", true, "memory"),
    row("imc", 2009, 2018, "504.2", true, "memory"),
    row("imc", 2021, 2021, "504.2", true, "secondary"),
    row("imc", 2024, 2024, "504.2", true, "memory"),
    habit(true, "A damper that lint can hold is kept out of a dryer's duct under every text."),
  ],
});

/** A way to clean out each vertical riser. Only the mechanical code asks for it. */
export const riserCleanout = defineLimit({
  id: "venting/duct-construction.riser-cleanout",
  title: "Each vertical riser can be cleaned out",
  subject: "mechanical",
  kind: "requirement",
  sense: "required",
  maker: "tightens",
  values: [
    row("imc", 2006, 2018, "504.3", true, "memory"),
    row("imc", 2021, 2021, "504.3", true, "secondary"),
    row("imc", 2024, 2024, "504.3", true, "memory"),
  ],
});

/** Rows for the transition duct. */
const transitionClauses: Parameters<typeof inEveryText>[1] = [
  ["irc", 2006, 2006, "M1502.4", "seen"],
  ["irc", 2009, 2012, "M1502.4.3", "secondary"],
  ["irc", 2015, 2018, "M1502.4.3", "memory"],
  ["irc", 2021, 2021, "M1502.4.3", "secondary"],
  ["irc", 2024, 2024, "M1502.4.3", "memory"],
  ["ircFuelGas", 2006, 2006, "G2439.5", "seen"],
  ["ircFuelGas", 2009, 2012, "G2439.5.4", "memory"],
  ["ircFuelGas", 2015, 2024, "G2439.7.3", "memory"],
  ["imc", 2009, 2012, "504.6.3", "memory"],
  ["imc", 2015, 2018, "504.8.3", "memory"],
  ["imc", 2021, 2021, "504.9.3", "secondary"],
  ["imc", 2024, 2024, "504.9.3", "memory"],
  ["ifgc", 2009, 2012, "614.6.4", "memory"],
  ["ifgc", 2015, 2015, "614.8.3", "memory"],
  ["ifgc", 2018, 2024, "614.9.3", "memory"],
];
const umcTransition = (value: DatedValue["value"]): DatedValue[] => [
  row("umc", 2006, 2006, "504.3.2.1", value, "secondary"),
  row("umc", 2009, 2012, "504.3.1.1", value, "seen"),
  row("umc", 2015, 2024, "504.4.2", value, "memory"),
];

/** Longest transition duct. */
export const transitionLength = defineLimit({
  id: "venting/transition-duct.length",
  title: "Longest transition duct",
  subject: "mechanical",
  kind: "length",
  sense: "atMost",
  maker: "tightens",
  values: [...inEveryText([8, "ft"], transitionClauses), ...umcTransition([6, "ft"])],
});

/** One length, not several joined. */
export const transitionPieces = defineLimit({
  id: "venting/transition-duct.pieces",
  title: "Lengths of duct in the transition",
  subject: "mechanical",
  kind: "count",
  sense: "atMost",
  maker: "tightens",
  values: [...inEveryText(1, transitionClauses), habit(1)],
});

/** Listed to UL 2158A. */
export const transitionListed = defineLimit({
  id: "venting/transition-duct.listed",
  title: "The transition duct is listed and labelled for dryers (UL 2158A)",
  subject: "mechanical",
  kind: "requirement",
  sense: "required",
  maker: "tightens",
  values: [...inEveryText(true, transitionClauses), ...umcTransition(true)],
});

/** Never inside a wall, floor or ceiling. */
export const transitionOpen = defineLimit({
  id: "venting/transition-duct.open",
  title: "The transition duct is not concealed in the construction",
  subject: "mechanical",
  kind: "requirement",
  sense: "required",
  maker: "tightens",
  values: [...inEveryText(true, transitionClauses), ...umcTransition(true)],
});

/** Neither crushed nor kinked once the machine stands in its place. */
export const transitionRound = defineLimit({
  id: "venting/transition-duct.round",
  title: "The transition duct is neither crushed nor kinked",
  subject: "mechanical",
  kind: "requirement",
  sense: "required",
  maker: "tightens",
  values: [habit(true)],
});
