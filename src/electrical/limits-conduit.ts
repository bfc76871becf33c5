/** How full the electrical texts let a raceway be, dated. */
import { type DatedValue, defineLimit } from "../core/basis/index.js";
import { nec } from "./dated.js";

/** How many conductors or cables share a raceway; `nipple` is a raceway of at most 24 in between boxes. */
export type FillCase = "one" | "two" | "several" | "nipple";

const share = (fill: FillCase, percent: number, section: string, note: string): DatedValue[] => {
  const more = { when: { fill }, note };
  return [
    nec(2014, 2014, section, [percent, "percent"], "secondary", more),
    nec(2017, 2017, section, [percent, "percent"], "seen", more),
    nec(2020, 2020, section, [percent, "percent"], "secondary", more),
    nec(2023, 2026, section, [percent, "percent"], "memory", more),
  ];
};

/** Share of a raceway's inside area that conductors may take. */
export const conduitShare = defineLimit({
  id: "electrical/conduit-fill.share",
  title: "Share of a raceway's inside area that its conductors may take",
  subject: "electrical",
  kind: "ratio",
  sense: "atMost",
  maker: "tightens",
  values: [
    ...share("one", 53, "Chapter 9, Table 1", "One conductor or cable."),
    ...share("two", 31, "Chapter 9, Table 1", "Two conductors or cables."),
    ...share("several", 40, "Chapter 9, Table 1", "Three or more conductors or cables."),
    ...share("nipple", 60, "Chapter 9, Table 1, note 4", "A nipple of at most 24 in between boxes."),
  ],
});
