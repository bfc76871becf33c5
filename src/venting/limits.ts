/** The lengths that the venting texts set for a dryer's duct, dated, one reference per value. */
import { type Confirmed, type DatedValue, defineLimit, type Text } from "../core/basis/index.js";
import { row } from "./dated.js";
import { elbowRows } from "./tables/elbows.js";

/** The fitting table under one text, section and span of editions. */
function elbowTable(text: Text, from: number, to: number, section: string, confirmed: Confirmed): DatedValue[] {
  return elbowRows.map(({ radius, angle, feet }) =>
    row(text, from, to, section, [feet, "ft"], confirmed, { when: { radius, angle } }),
  );
}

const UMC_NOTE =
  "14 ft of horizontal and vertical duct together, two 90° elbows in it; the maker's instructions may permit or require another length where the authority approves.";

/**
 * Longest developed length of a dryer exhaust duct, before fittings are deducted.
 * The uniform code's figure has two 90° elbows in it; see {@link elbowsIncluded}.
 */
export const ductBaseLength = defineLimit({
  id: "venting/duct-length.base",
  title: "Longest dryer exhaust duct before fittings are deducted",
  subject: "mechanical",
  kind: "length",
  sense: "atMost",
  maker: "replaces",
  values: [
    row("irc", 2006, 2006, "M1502.6", [25, "ft"], "seen"),
    row("irc", 2009, 2009, "M1502.4.4.1", [35, "ft"], "secondary", { note: "Some secondary pages still print 25 ft." }),
    row("irc", 2012, 2012, "M1502.4.4.1", [35, "ft"], "secondary"),
    row("irc", 2015, 2018, "M1502.4.5.1", [35, "ft"], "secondary"),
    row("irc", 2021, 2021, "M1502.4.6.1", [35, "ft"], "secondary"),
    row("irc", 2024, 2024, "M1502.4.6.1", [35, "ft"], "memory", { note: "Secondary pages disagree: 35 ft and 25 ft." }),
    row("ircFuelGas", 2009, 2012, "G2439.5.5.1", [35, "ft"], "memory"),
    row("ircFuelGas", 2015, 2024, "G2439.7.4.1", [35, "ft"], "memory"),
    row("imc", 2009, 2012, "504.6.4.1", [35, "ft"], "memory"),
    row("imc", 2015, 2018, "504.8.4.1", [35, "ft"], "secondary"),
    row("imc", 2021, 2021, "504.9.4.1", [35, "ft"], "secondary"),
    row("imc", 2024, 2024, "504.9.4.1", [35, "ft"], "memory"),
    row("ifgc", 2009, 2012, "614.6.5.1", [35, "ft"], "memory"),
    row("ifgc", 2015, 2015, "614.8.4.1", [35, "ft"], "memory"),
    row("ifgc", 2018, 2024, "614.9.4.1", [35, "ft"], "memory"),
    row("umc", 2006, 2006, "504.3.2.2", [14, "ft"], "seen", { note: UMC_NOTE }),
    row("umc", 2009, 2012, "504.3.1.2", [14, "ft"], "seen", { note: UMC_NOTE }),
    row("umc", 2015, 2024, "504.4.2.1", [14, "ft"], "memory", { note: UMC_NOTE }),
  ],
});

/** The uniform code's deduction, and the habit for the angle that it does not name. */
const umcElbows = (from: number, to: number, section: string, confirmed: Confirmed): DatedValue[] => [
  row("umc", from, to, section, [2, "ft"], confirmed, { when: { angle: 90 } }),
  {
    ...row("umc", from, to, section, [2, "ft"], "practice", {
      when: { angle: 45 },
      note: "The text names 90° elbows only; a 45° elbow is deducted like one.",
    }),
    force: "practice",
  },
];

/**
 * Length to deduct for one fitting. From 2009 a table by radius and angle; before, 2.5 ft for 45° and 5 ft for 90°
 * whatever the radius. The table has no other angles; taking the next larger row is common practice.
 */
export const elbowAllowance = defineLimit({
  id: "venting/duct-length.elbow",
  title: "Length to deduct for one elbow",
  subject: "mechanical",
  kind: "length",
  sense: "atLeast",
  maker: "replaces",
  values: [
    row("irc", 2006, 2006, "M1502.6", [2.5, "ft"], "seen", { when: { angle: 45 } }),
    row("irc", 2006, 2006, "M1502.6", [5, "ft"], "seen", { when: { angle: 90 } }),
    ...elbowTable("irc", 2009, 2012, "Table M1502.4.4.1", "secondary"),
    ...elbowTable("irc", 2015, 2015, "Table M1502.4.5.1", "seen"),
    ...elbowTable("irc", 2018, 2018, "Table M1502.4.5.1", "secondary"),
    ...elbowTable("irc", 2021, 2021, "Table M1502.4.6.1", "secondary"),
    ...elbowTable("irc", 2024, 2024, "Table M1502.4.6.1", "memory"),
    ...elbowTable("ircFuelGas", 2009, 2012, "Table G2439.5.5.1", "memory"),
    ...elbowTable("ircFuelGas", 2015, 2024, "Table G2439.7.4.1", "memory"),
    ...elbowTable("imc", 2009, 2012, "Table 504.6.4.1", "memory"),
    ...elbowTable("imc", 2015, 2018, "Table 504.8.4.1", "memory"),
    ...elbowTable("imc", 2021, 2021, "Table 504.9.4.1", "secondary"),
    ...elbowTable("imc", 2024, 2024, "Table 504.9.4.1", "memory"),
    ...elbowTable("ifgc", 2009, 2012, "Table 614.6.5.1", "memory"),
    ...elbowTable("ifgc", 2015, 2015, "Table 614.8.4.1", "memory"),
    ...elbowTable("ifgc", 2018, 2024, "Table 614.9.4.1", "memory"),
    ...umcElbows(2006, 2006, "504.3.2.2", "seen"),
    ...umcElbows(2009, 2012, "504.3.1.2", "seen"),
    ...umcElbows(2015, 2024, "504.4.2.1", "memory"),
  ],
});

/** Elbows that the base length already has in it; none where no text says so. */
export const elbowsIncluded = defineLimit({
  id: "venting/duct-length.elbows-included",
  title: "90° elbows already in the base length",
  subject: "mechanical",
  kind: "count",
  sense: "atMost",
  maker: "replaces",
  values: [
    row("umc", 2006, 2006, "504.3.2.2", 2, "seen"),
    row("umc", 2009, 2012, "504.3.1.2", 2, "seen"),
    row("umc", 2015, 2024, "504.4.2.1", 2, "memory"),
  ],
});

/** Whether a listed dryer exhaust duct power ventilator may set the length by its own instructions. */
export const ventilatorTaken = defineLimit({
  id: "venting/duct-length.ventilator",
  title: "A listed dryer exhaust duct power ventilator sets the length by its own instructions",
  subject: "mechanical",
  kind: "requirement",
  sense: "required",
  maker: "tightens",
  values: [
    row("irc", 2015, 2018, "M1502.4.4", true, "secondary"),
    row("irc", 2021, 2021, "M1502.4.4", true, "secondary"),
    row("irc", 2024, 2024, "M1502.4.4", true, "memory"),
    row("ircFuelGas", 2015, 2015, "G2439.4", true, "memory"),
    row("ircFuelGas", 2018, 2018, "G2439.4", true, "seen"),
    row("ircFuelGas", 2021, 2024, "G2439.4", true, "memory"),
    row("imc", 2015, 2018, "504.5", true, "memory"),
    row("imc", 2021, 2021, "504.5", true, "secondary"),
    row("imc", 2024, 2024, "504.5", true, "memory"),
    row("ifgc", 2015, 2015, "614.5", true, "seen", { note: "Seen in a state text built on the 2015 edition." }),
    row("ifgc", 2018, 2024, "614.5", true, "memory"),
  ],
});
