/** What the electrical texts advise on voltage drop, dated. */
import { defineLimit } from "../core/basis/index.js";
import { nec } from "./dated.js";

const advice = (note: string) => ({ force: "advice", note }) as const;
const BRANCH = "Advice, not a rule: at the farthest outlet of a branch circuit.";

/** Voltage lost in a branch circuit, as a share of its nominal voltage. */
export const branchDrop = defineLimit({
  id: "electrical/voltage-drop.branch",
  title: "Voltage lost in a branch circuit, as a share of its nominal voltage",
  subject: "electrical",
  kind: "ratio",
  sense: "atMost",
  maker: "tightens",
  values: [
    nec(2014, 2014, "210.19(A), informational note 4", [3, "percent"], "secondary", advice(BRANCH)),
    nec(2017, 2017, "210.19(A), informational note 4", [3, "percent"], "seen", advice(BRANCH)),
    nec(2020, 2023, "210.19, informational note", [3, "percent"], "secondary", advice(BRANCH)),
    nec(2026, 2026, "210.19, informational note", [3, "percent"], "memory", advice(BRANCH)),
    {
      text: "iec60364",
      from: 2009,
      section: "Part 5-52, Table G.52.1",
      value: [5, "percent"],
      confirmed: "secondary",
      ...advice("From the origin of the installation, for uses other than lighting, on a public network."),
    },
  ],
});
