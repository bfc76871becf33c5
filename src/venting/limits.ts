/** The numbers that the venting texts set, dated, one reference per value. */
import { type Confirmed, type DatedValue, defineLimit, type Text } from "../core/basis/index.js";
import { elbowRows } from "./tables/elbows.js";

/** The fitting table under one text, section and span of editions. */
function elbowTable(text: Text, from: number, to: number, section: string, confirmed: Confirmed): DatedValue[] {
  return elbowRows.map(({ radius, angle, feet }) => ({
    text,
    from,
    to,
    section,
    value: [feet, "ft"],
    when: { radius, angle },
    confirmed,
  }));
}

/**
 * Longest developed length of a dryer exhaust duct, before fittings are deducted.
 * The uniform code's figure has two 90° elbows in it; see `ductElbowsIncluded`.
 */
export const ductBaseLength = defineLimit({
  id: "venting/duct-length.base",
  title: "Longest dryer exhaust duct before fittings are deducted",
  subject: "mechanical",
  kind: "length",
  sense: "atMost",
  maker: "replaces",
  values: [
    { text: "irc", from: 2006, to: 2006, section: "M1502.6", value: [25, "ft"], confirmed: "seen" },
    { text: "irc", from: 2009, to: 2009, section: "M1502.4.4.1", value: [35, "ft"], confirmed: "secondary" },
    { text: "irc", from: 2012, to: 2012, section: "M1502.4.4.1", value: [35, "ft"], confirmed: "seen" },
    { text: "irc", from: 2015, to: 2018, section: "M1502.4.5.1", value: [35, "ft"], confirmed: "secondary" },
    { text: "irc", from: 2021, to: 2021, section: "M1502.4.6.1", value: [35, "ft"], confirmed: "secondary" },
    { text: "irc", from: 2024, section: "M1502.4.6.1", value: [35, "ft"], confirmed: "memory" },
    { text: "ircFuelGas", from: 2009, section: "G2439.7.4.1", value: [35, "ft"], confirmed: "memory" },
    { text: "imc", from: 2009, to: 2012, section: "504.6.4.1", value: [35, "ft"], confirmed: "memory" },
    { text: "imc", from: 2015, to: 2018, section: "504.8.4.1", value: [35, "ft"], confirmed: "secondary" },
    { text: "imc", from: 2021, section: "504.9.4.1", value: [35, "ft"], confirmed: "secondary" },
    { text: "ifgc", from: 2009, to: 2012, section: "614.6.5.1", value: [35, "ft"], confirmed: "memory" },
    { text: "ifgc", from: 2015, to: 2015, section: "614.8.4.1", value: [35, "ft"], confirmed: "memory" },
    { text: "ifgc", from: 2018, section: "614.9.4.1", value: [35, "ft"], confirmed: "memory" },
    { text: "umc", from: 2006, section: "504.4.2.1", value: [14, "ft"], confirmed: "seen" },
  ],
});

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
    {
      text: "irc",
      from: 2006,
      to: 2006,
      section: "M1502.6",
      value: [2.5, "ft"],
      when: { angle: 45 },
      confirmed: "seen",
    },
    { text: "irc", from: 2006, to: 2006, section: "M1502.6", value: [5, "ft"], when: { angle: 90 }, confirmed: "seen" },
    ...elbowTable("irc", 2009, 2012, "Table M1502.4.4.1", "secondary"),
    ...elbowTable("irc", 2015, 2018, "Table M1502.4.5.1", "seen"),
    ...elbowTable("irc", 2021, 2021, "Table M1502.4.6.1", "secondary"),
    ...elbowTable("irc", 2024, 2024, "Table M1502.4.6.1", "memory"),
    ...elbowTable("ircFuelGas", 2009, 2024, "Table G2439.7.4.1", "memory"),
    ...elbowTable("imc", 2009, 2012, "Table 504.6.4.1", "memory"),
    ...elbowTable("imc", 2015, 2018, "Table 504.8.4.1", "memory"),
    ...elbowTable("imc", 2021, 2024, "Table 504.9.4.1", "secondary"),
    ...elbowTable("ifgc", 2009, 2012, "Table 614.6.5.1", "memory"),
    ...elbowTable("ifgc", 2015, 2015, "Table 614.8.4.1", "memory"),
    ...elbowTable("ifgc", 2018, 2024, "Table 614.9.4.1", "memory"),
    { text: "umc", from: 2006, section: "504.4.2.1", value: [2, "ft"], when: { angle: 90 }, confirmed: "seen" },
    {
      text: "umc",
      from: 2006,
      section: "504.4.2.1",
      value: [2, "ft"],
      when: { angle: 45 },
      confirmed: "practice",
      force: "practice",
      note: "The text names 90° elbows only; a 45° elbow is counted as one.",
    },
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
  values: [{ text: "umc", from: 2006, section: "504.4.2.1", value: 2, confirmed: "seen" }],
});
