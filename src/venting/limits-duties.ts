/** When a label is called for and when a fan in the duct is forbidden, dated, one reference per value. */
import { type DatedValue, defineLimit } from "../core/basis/index.js";
import { habit, row } from "./dated.js";

/** The older trigger of the length label: the duct is concealed, whatever its length. */
export const labelWhereConcealed = defineLimit({
  id: "venting/length-label.where-concealed",
  title: "A label is called for wherever the dryer's duct is concealed",
  subject: "mechanical",
  kind: "requirement",
  sense: "required",
  maker: "tightens",
  values: [
    row("irc", 2009, 2012, "M1502.4.5", true, "secondary"),
    row("ircFuelGas", 2009, 2012, "G2439.5.6", true, "memory"),
    row("imc", 2009, 2012, "504.6.5", true, "secondary"),
    row("ifgc", 2009, 2012, "614.6.6", true, "memory"),
  ],
});

/** The newer trigger: an equivalent length above 35 ft by the code's reckoning. */
export const labelFromLength = defineLimit({
  id: "venting/length-label.from-length",
  title: "Equivalent length above which a label is called for",
  subject: "mechanical",
  kind: "length",
  sense: "atMost",
  maker: "tightens",
  values: [
    row("irc", 2015, 2018, "M1502.4.6", [35, "ft"], "secondary"),
    row("irc", 2021, 2021, "M1502.4.7", [35, "ft"], "secondary", { note: "One page numbers it M1502.4.6." }),
    row("irc", 2024, 2024, "M1502.4.7", [35, "ft"], "memory"),
    row("ircFuelGas", 2015, 2024, "G2439.7.5", [35, "ft"], "memory"),
    row("imc", 2015, 2018, "504.8.5", [35, "ft"], "secondary"),
    row("imc", 2021, 2021, "504.9.5", [35, "ft"], "secondary"),
    row("imc", 2024, 2024, "504.9.5", [35, "ft"], "memory"),
    row("ifgc", 2015, 2015, "614.8.5", [35, "ft"], "memory"),
    row("ifgc", 2018, 2024, "614.9.5", [35, "ft"], "memory"),
  ],
});

/** Where the label hangs. */
export const labelWithin = defineLimit({
  id: "venting/length-label.within",
  title: "Furthest place of the label from the duct's connection",
  subject: "mechanical",
  kind: "length",
  sense: "atMost",
  maker: "tightens",
  values: [
    ...[...labelWhereConcealed.values, ...labelFromLength.values].map(
      (value): DatedValue => ({ ...value, value: [6, "ft"] }),
    ),
    habit([6, "ft"], "The figure of the texts that ask for a label, taken where one is asked for elsewhere."),
  ],
});

/** Booster fans in a dryer's duct are forbidden by name since 2021. */
export const boosterForbidden = defineLimit({
  id: "venting/booster-fan.forbidden",
  title: "No booster fan is in the dryer's duct",
  subject: "mechanical",
  kind: "requirement",
  sense: "required",
  maker: "tightens",
  values: [
    row("irc", 2021, 2021, "M1502.4.5", true, "secondary"),
    row("irc", 2024, 2024, "M1502.4.5", true, "memory"),
    row("imc", 2021, 2021, "504.6", true, "secondary"),
    row("imc", 2024, 2024, "504.6", true, "memory"),
  ],
});
