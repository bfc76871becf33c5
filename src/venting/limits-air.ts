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
