/** The numbers that the plumbing texts set for backflow protection, dated, one reference per value. */
import { type DatedValue, defineLimit, type Text } from "../core/basis/index.js";

/** Sizes of effective opening that the air-gap table has rows for [in]. */
export const gapOpenings_in = [0.5, 0.75, 1] as const;

const gapRows = (text: Text, section: string): DatedValue[] =>
  (
    [
      // The 1/2 in row was seen in a 2003 text, 3/4 in near a wall in an exam page; the 1 in row is from memory.
      [0.5, false, 1, "secondary"],
      [0.5, true, 1.5, "secondary"],
      [0.75, false, 1.5, "secondary"],
      [0.75, true, 2.5, "memory"],
      [1, false, 2, "memory"],
      [1, true, 3, "memory"],
    ] as const
  ).map(([opening, nearWall, inches, confirmed]) => ({
    text,
    from: 2006,
    section,
    value: [inches, "in"],
    when: { opening, nearWall },
    confirmed: text === "irc" ? confirmed : "memory",
  }));

/**
 * Least air gap above the flood rim by effective opening, freely standing and near a wall. Openings above 1 in: two and
 * three times the opening. The uniform code's table is from memory; for 3/4 in near a wall it may print 2 1/4 in, and the
 * stricter figure is used.
 */
export const airGapLeast = defineLimit({
  id: "plumbing/backflow.air-gap",
  title: "Least air gap above the flood rim",
  subject: "plumbing",
  kind: "inches",
  sense: "atLeast",
  maker: "tightens",
  values: [
    ...gapRows("irc", "Table P2902.3.1"),
    ...gapRows("ipc", "Table 608.15.1"),
    ...gapRows("upc", "Table 603.3.1"),
  ],
});

/** How far an atmospheric vacuum breaker stands above the highest flood rim it protects. */
export const breakerHeight = defineLimit({
  id: "plumbing/backflow.breaker-height",
  title: "Least height of an atmospheric vacuum breaker above the flood rim",
  subject: "plumbing",
  kind: "inches",
  sense: "atLeast",
  maker: "tightens",
  values: [
    { text: "irc", from: 2006, section: "P2902.3.2", value: [6, "in"], confirmed: "memory" },
    { text: "ipc", from: 2006, section: "608.13.6", value: [6, "in"], confirmed: "memory" },
    { text: "upc", from: 2006, section: "603.5.1", value: [6, "in"], confirmed: "memory" },
  ],
});
