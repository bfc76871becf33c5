/** What the venting texts ask of the outlet of a dryer's duct, dated, one reference per value. */
import { defineLimit } from "../core/basis/index.js";
import { habit, row } from "./dated.js";

/** The duct ends outdoors: not in an attic, crawl space, soffit, garage, chimney or room. */
export const endsOutdoors = defineLimit({
  id: "venting/termination.outdoors",
  title: "A dryer's duct ends outdoors",
  subject: "mechanical",
  kind: "requirement",
  sense: "required",
  maker: "tightens",
  values: [
    row("irc", 2006, 2006, "M1502.2", true, "seen"),
    row("irc", 2009, 2012, "M1502.3", true, "seen"),
    row("irc", 2015, 2021, "M1502.3", true, "secondary"),
    row("irc", 2024, 2024, "M1502.3", true, "memory"),
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

/** A back-draught damper at the outlet. */
export const backdraftDamper = defineLimit({
  id: "venting/termination.damper",
  title: "A back-draught damper is at the outlet",
  subject: "mechanical",
  kind: "requirement",
  sense: "required",
  maker: "tightens",
  values: endsOutdoors.values,
});

/** No screen at the outlet: lint closes it. */
export const noScreen = defineLimit({
  id: "venting/termination.no-screen",
  title: "No screen is at the outlet",
  subject: "mechanical",
  kind: "requirement",
  sense: "required",
  maker: "tightens",
  values: endsOutdoors.values,
});

/** Distance to openings that the 2006 residential code asks for whatever the maker says. */
export const openingAlways = defineLimit({
  id: "venting/termination.opening-always",
  title: "Least distance to any opening into the building, whatever the maker says",
  subject: "mechanical",
  kind: "length",
  sense: "atLeast",
  maker: "tightens",
  values: [row("irc", 2006, 2006, "M1502.2", [3, "ft"], "seen")],
});

/** Distance to openings since 2009: only where the maker's instructions are silent. */
export const openingDistance = defineLimit({
  id: "venting/termination.opening",
  title: "Least distance to any opening into the building, where the maker gives none",
  subject: "mechanical",
  kind: "length",
  sense: "atLeast",
  maker: "replaces",
  values: [
    row("irc", 2009, 2012, "M1502.3", [3, "ft"], "seen"),
    row("irc", 2015, 2021, "M1502.3", [3, "ft"], "secondary"),
    row("irc", 2024, 2024, "M1502.3", [3, "ft"], "memory"),
    row("imc", 2015, 2018, "504.4.1", [3, "ft"], "memory"),
    row("imc", 2021, 2021, "504.4.1", [3, "ft"], "secondary"),
    row("imc", 2024, 2024, "504.4.1", [3, "ft"], "memory"),
    habit([3, "ft"], "The figure of the residential code, taken where the adopted text gives none."),
  ],
});

/** Distance to a vented soffit: an opening by the texts of 2021; before, a habit of those who have seen damp attics. */
export const soffitDistance = defineLimit({
  id: "venting/termination.soffit",
  title: "Least distance to a vented soffit, where the maker gives none",
  subject: "mechanical",
  kind: "length",
  sense: "atLeast",
  maker: "replaces",
  values: [
    row("irc", 2021, 2021, "M1502.3", [3, "ft"], "secondary"),
    row("irc", 2024, 2024, "M1502.3", [3, "ft"], "memory"),
    row("imc", 2021, 2021, "504.4.1", [3, "ft"], "secondary"),
    row("imc", 2024, 2024, "504.4.1", [3, "ft"], "memory"),
    habit(
      [3, "ft"],
      "Texts before 2021 do not name the vented soffit; it draws the moist air into the attic all the same.",
    ),
  ],
});

/** Distance to a mechanical air intake, from the clause on exhaust in general. */
export const intakeDistance = defineLimit({
  id: "venting/termination.intake",
  title: "Least distance to a mechanical air intake",
  subject: "mechanical",
  kind: "length",
  sense: "atLeast",
  maker: "tightens",
  values: [
    row("irc", 2021, 2021, "M1504.3", [10, "ft"], "secondary", { note: "The clause on exhaust in general." }),
    row("irc", 2024, 2024, "M1504.3", [10, "ft"], "memory", { note: "The clause on exhaust in general." }),
    row("imc", 2009, 2024, "501.3.1", [10, "ft"], "memory", { note: "The clause on exhaust in general." }),
    habit([10, "ft"], "The figure of the 2021 residential code, taken where the adopted text gives none."),
  ],
});

/** Distance to the property line, from the clause on exhaust in general. */
export const propertyLineDistance = defineLimit({
  id: "venting/termination.property-line",
  title: "Least distance to the property line",
  subject: "mechanical",
  kind: "length",
  sense: "atLeast",
  maker: "tightens",
  values: [
    row("irc", 2021, 2021, "M1504.3", [3, "ft"], "secondary", { note: "The clause on exhaust in general." }),
    row("irc", 2024, 2024, "M1504.3", [3, "ft"], "memory", { note: "The clause on exhaust in general." }),
    row("imc", 2009, 2024, "501.3.1", [3, "ft"], "memory", { note: "The clause on exhaust in general." }),
  ],
});

/** Height over the ground: no model code, the usual maker's rule. */
export const heightAboveGround = defineLimit({
  id: "venting/termination.height",
  title: "Least height of the outlet above the ground",
  subject: "mechanical",
  kind: "length",
  sense: "atLeast",
  maker: "replaces",
  values: [habit([12, "in"], "No model code gives a height; most makers ask for this one. Mind the depth of snow.")],
});

/** Open area of the outlet. A 4 in circle has 12.57 in², so nothing may narrow it. */
export const outletArea = defineLimit({
  id: "venting/termination.open-area",
  title: "Least open area of the outlet's passage",
  subject: "mechanical",
  kind: "area",
  sense: "atLeast",
  maker: "tightens",
  values: [
    row("irc", 2018, 2021, "M1502.3.1", [12.5, "in2"], "secondary"),
    row("irc", 2024, 2024, "M1502.3.1", [12.5, "in2"], "memory"),
    row("ircFuelGas", 2018, 2018, "G2439.3.1", [12.5, "in2"], "seen"),
    row("ircFuelGas", 2021, 2024, "G2439.3.1", [12.5, "in2"], "memory"),
    row("imc", 2018, 2018, "504.4.2", [12.5, "in2"], "memory"),
    row("imc", 2021, 2021, "504.4.2", [12.5, "in2"], "secondary"),
    row("imc", 2024, 2024, "504.4.2", [12.5, "in2"], "memory"),
    row("ifgc", 2018, 2018, "614.4.1", [12.5, "in2"], "secondary"),
    row("ifgc", 2021, 2024, "614.4.1", [12.5, "in2"], "memory"),
  ],
});

/** The hood opens down or out, so that rain and snow stay out and the flap falls shut. */
export const hoodFacing = defineLimit({
  id: "venting/termination.facing",
  title: "The hood opens down or away from the wall",
  subject: "mechanical",
  kind: "requirement",
  sense: "required",
  maker: "tightens",
  values: [habit(true)],
});
