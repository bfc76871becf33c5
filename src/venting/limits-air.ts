/** What the texts ask of the air for a dryer, dated, one reference per value. */
import { defineLimit } from "../core/basis/index.js";
import { habit, row } from "./dated.js";

/** Opening for a closet made for a dryer. The residential code's general chapter has no figure. */
export const closetOpening = defineLimit({
  id: "venting/closet-air.opening",
  title: "Least free area of the openings of a closet made for a dryer",
  subject: "mechanical",
  kind: "area",
  sense: "atLeast",
  maker: "replaces",
  values: [
    row("ircFuelGas", 2009, 2012, "G2439.4.1", [100, "in2"], "memory"),
    row("ircFuelGas", 2015, 2024, "G2439.5.1", [100, "in2"], "memory"),
    row("imc", 2009, 2012, "504.5.1", [100, "in2"], "memory"),
    row("imc", 2015, 2018, "504.6.1", [100, "in2"], "memory"),
    row("imc", 2021, 2021, "504.7.1", [100, "in2"], "secondary"),
    row("imc", 2024, 2024, "504.7.1", [100, "in2"], "memory"),
    row("ifgc", 2009, 2012, "614.5.1", [100, "in2"], "memory"),
    row("ifgc", 2015, 2015, "614.6.1", [100, "in2"], "seen", {
      note: "Seen in a state text built on the 2015 edition.",
    }),
    row("ifgc", 2018, 2024, "614.7.1", [100, "in2"], "memory"),
    row("umc", 2006, 2006, "504.3.2", [100, "in2"], "seen"),
    row("umc", 2009, 2012, "504.3.1", [100, "in2"], "seen"),
    row("umc", 2015, 2024, "504.4.2", [100, "in2"], "memory"),
    habit(
      [100, "in2"],
      "The figure of the mechanical and fuel-gas texts, taken where the residential code's general chapter says nothing.",
    ),
  ],
});

/** Exhaust above which make-up air is called for. The model residential code's general chapter has no such figure. */
export const makeupThreshold = defineLimit({
  id: "venting/makeup-air.threshold",
  title: "Dryer exhaust above which make-up air is called for",
  subject: "mechanical",
  kind: "volumeFlow",
  sense: "atMost",
  maker: "tightens",
  values: [
    row("ircFuelGas", 2009, 2012, "G2439.4", [200, "cfm"], "memory"),
    row("ircFuelGas", 2015, 2024, "G2439.5", [200, "cfm"], "memory"),
    row("imc", 2009, 2012, "504.5", [200, "cfm"], "memory"),
    row("imc", 2015, 2018, "504.6", [200, "cfm"], "memory"),
    row("imc", 2021, 2021, "504.7", [200, "cfm"], "secondary"),
    row("imc", 2024, 2024, "504.7", [200, "cfm"], "memory"),
    row("ifgc", 2009, 2012, "614.5", [200, "cfm"], "memory"),
    row("ifgc", 2015, 2015, "614.6", [200, "cfm"], "memory", {
      note: "A state text built on this edition has the closet opening here but not this sentence.",
    }),
    row("ifgc", 2018, 2024, "614.7", [200, "cfm"], "memory"),
  ],
});

/** Exhaust of a kitchen hood above which the residential code asks for make-up air: more than 400 cfm, not 400. */
export const hoodThreshold = defineLimit({
  id: "venting/hood-exhaust.threshold",
  title: "Hood exhaust above which make-up air is called for",
  subject: "mechanical",
  kind: "volumeFlow",
  sense: "atMost",
  maker: "tightens",
  values: [
    row("irc", 2009, 2012, "M1503.4", [400, "cfm"], "seen"),
    row("irc", 2015, 2015, "M1503.4", [400, "cfm"], "seen"),
    row("irc", 2018, 2021, "M1503.6", [400, "cfm"], "secondary"),
    row("irc", 2024, 2024, "M1503.6", [400, "cfm"], "memory"),
    row("imc", 2009, 2012, "505.2", [400, "cfm"], "memory"),
    row("imc", 2015, 2024, "505.4", [400, "cfm"], "memory", {
      note: "Seen as 505.4 in a city text built on the code.",
    }),
  ],
});

/** From 2018 the residential code asks only where an appliance inside could spill its flue gas. */
export const hoodNeedsSpill = defineLimit({
  id: "venting/hood-exhaust.only-with-open-flue",
  title: "Make-up air is called for only where an appliance inside could spill its flue gas",
  subject: "mechanical",
  kind: "requirement",
  sense: "required",
  maker: "tightens",
  values: [row("irc", 2018, 2021, "M1503.6", true, "secondary"), row("irc", 2024, 2024, "M1503.6", true, "memory")],
});

/** Rows for the hood's discharge. */
const hoodClauses = [
  row("irc", 2006, 2015, "M1503.1", true, "secondary"),
  row("irc", 2018, 2021, "M1503.3", true, "seen"),
  row("irc", 2024, 2024, "M1503.3", true, "memory"),
  row("imc", 2009, 2024, "505.1", true, "memory"),
];

/** The hood's duct ends outdoors. */
export const hoodOutdoors = defineLimit({
  id: "venting/hood-exhaust.outdoors",
  title: "A kitchen hood's duct ends outdoors",
  subject: "mechanical",
  kind: "requirement",
  sense: "required",
  maker: "tightens",
  values: hoodClauses,
});

/** Smooth inside, airtight, with a back-draught damper, and alone. */
export const hoodDuct = defineLimit({
  id: "venting/hood-exhaust.duct",
  title: "A kitchen hood's duct is smooth, airtight, damped and serves nothing else",
  subject: "mechanical",
  kind: "requirement",
  sense: "required",
  maker: "tightens",
  values: hoodClauses,
});

/** Galvanized steel, stainless steel or copper. */
export const hoodMetal = defineLimit({
  id: "venting/hood-exhaust.metal",
  title: "A kitchen hood's duct is galvanized steel, stainless steel or copper",
  subject: "mechanical",
  kind: "requirement",
  sense: "required",
  maker: "tightens",
  values: [
    row("irc", 2006, 2015, "M1503.2", true, "secondary"),
    row("irc", 2018, 2021, "M1503.4", true, "secondary"),
    row("irc", 2024, 2024, "M1503.4", true, "memory"),
    row("imc", 2009, 2024, "505.1", true, "memory"),
  ],
});

/** Metal of an open-top broiler unit's hood, 28 gage. */
export const broilerMetal = defineLimit({
  id: "venting/hood-exhaust.broiler-metal",
  title: "Least thickness of the hood of an open-top broiler",
  subject: "mechanical",
  kind: "thickness",
  sense: "atLeast",
  maker: "tightens",
  values: [
    row("irc", 2018, 2021, "M1503.2.1", [0.0157, "in"], "seen"),
    row("irc", 2024, 2024, "M1503.2.1", [0.0157, "in"], "memory"),
  ],
});
