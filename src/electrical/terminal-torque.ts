import * as z from "zod";
import type { Basis } from "../core/basis/index.js";
import { awgSizes, brand, inUnit, si, type Torque } from "../core/quantity/index.js";
import { defineCalculator, quantity, type Read } from "../core/rule/index.js";
import type { Table } from "../core/table/index.js";
import { underNec } from "./basis.js";
import { gaugeNumber } from "./gauge.js";
import { torqueMeans } from "./limits-torque.js";
import {
  acrossFlats,
  hexTorque,
  narrowSlotTorque,
  slotBounds,
  smallNarrowTorque,
  smallWideTorque,
  socketTorque,
  splitBoltTorque,
  toolBasis,
  toolDeviation,
  wideSlotTorque,
} from "./tables/torque.js";

/** What the maker printed beside the terminal. */
const markingBasis: Basis = {
  document: "Marking of the terminal or its maker's sheet",
  publisher: "",
  edition: "",
  section: "",
  force: "maker",
  confirmed: "stated",
};

/** Kinds of terminal screw that the tables know. */
export const terminalScrews = [
  "slotted, No. 10 or larger",
  "slotted, smaller than No. 10",
  "hexagon, split-bolt",
  "hexagon",
  "recessed hexagon or square",
] as const;

export const terminalTorqueInput = z.strictObject({
  stated: quantity("torque", { min: [1, "inlbf"], max: [2000, "inlbf"] })
    .optional()
    .describe("Torque printed beside the terminal, on the breaker's label or in the maker's sheet"),
  wire: z.enum(awgSizes).optional().describe("Size of the conductor in the terminal"),
  screw: z.enum(terminalScrews).optional().describe("Screw of the terminal; No. 10 has a 3/16 in (4.8 mm) shank"),
  slotWidth: quantity("length", { min: [0.1, "mm"], max: [10, "mm"] })
    .optional()
    .describe("Width of the screw's slot, where a blade fits"),
  slotLength: quantity("length", { min: [1, "mm"], max: [50, "mm"] })
    .optional()
    .describe("Length of the screw's slot, measured at its bottom"),
  flats: z
    .enum(Object.keys(acrossFlats) as [keyof typeof acrossFlats, ...(keyof typeof acrossFlats)[]])
    .optional()
    .describe("Width across the flats of the recess: the size of the key that fits"),
});

type Input = Read<z.output<typeof terminalTorqueInput>>;

/** A table of torques with the key to look under and how the key is shown. */
interface Place {
  readonly table: Table;
  readonly key: number;
  readonly keyKind: "number" | "inches";
}

/** Where the torque of a screw stands, or the names of what must be known first. */
function placeOf({ wire, screw, slotWidth, slotLength, flats }: Input): Place | readonly (keyof Input)[] {
  if (screw === undefined) return ["screw"];
  if (screw === "recessed hexagon or square") {
    if (flats === undefined) return ["flats"];
    return { table: socketTorque, key: si(acrossFlats[flats], "in"), keyKind: "inches" };
  }
  if (wire === undefined) return ["wire"];
  const at = { key: gaugeNumber(wire), keyKind: "number" } as const;
  if (screw === "hexagon") return { table: hexTorque, ...at };
  if (screw === "hexagon, split-bolt") return { table: splitBoltTorque, ...at };
  if (slotWidth === undefined || slotLength === undefined) {
    return (["slotWidth", "slotLength"] as const).filter((name) => ({ slotWidth, slotLength })[name] === undefined);
  }
  const width = inUnit(slotWidth, "in");
  if (screw === "slotted, No. 10 or larger") {
    const within = width <= slotBounds.width_in + 1e-9 && inUnit(slotLength, "in") <= slotBounds.length_in + 1e-9;
    return { table: within ? narrowSlotTorque : wideSlotTorque, ...at };
  }
  const table = width < slotBounds.width_in - 1e-9 ? smallNarrowTorque : smallWideTorque;
  return { table, key: slotLength, keyKind: "inches" };
}

/** Largest conductor under a screw smaller than No. 10, head of Table I.2. */
const SMALL_SCREW_LARGEST = 8;

/**
 * How far a hand torque tool may be off, as a share of the torque [-].
 *
 * @basis ISO 6789-1:2017, 5.1.5
 * @example toolShare(si(20, "inlbf")) // 0.06
 */
export const toolShare = (torque: Torque): number =>
  torque <= toolDeviation.upTo_Nm * (1 + 1e-9) ? toolDeviation.small : toolDeviation.large;

/** Torque for a terminal screw. A calculator; its page is `docs/rules/electrical/terminal-torque.md`. */
export const terminalTorque = defineCalculator({
  id: "electrical/terminal-torque",
  title: "Torque for a terminal screw",
  since: "0.1.0",
  input: terminalTorqueInput,
  outputs: {
    torque: { kind: "torque", what: "Torque" },
    inchPounds: { kind: "number", what: "In inch-pounds" },
    newtonMetres: { kind: "number", what: "In newton-metres" },
    least: { kind: "torque", what: "Least with a tool in tolerance" },
    most: { kind: "torque", what: "Most with a tool in tolerance" },
    origin: { kind: "text", what: "Stated by" },
    means: { kind: "text", what: "Reached with" },
  },
  basis: [toolBasis],
  limits: [torqueMeans],
  messages: {
    missing: {
      screwUnknown: "The terminal states no torque and its screw was not described.",
      wireUnknown: "The terminal states no torque; the size of its conductor is needed.",
      slotUnknown: "The terminal states no torque; the width and length of the screw's slot are needed.",
      flatsUnknown: "The terminal states no torque; the width across the flats of its recess is needed.",
      onlyStated:
        "Only the maker's torque counts here: the tables by conductor and screw belong to the National Electrical Code.",
    },
    impossible: {
      noRow: "The tables have no torque for this screw with this conductor; only the maker's figure will do.",
    },
  },
  cautions: ["mains", "deferral"],
  examples: [
    {
      title: "A slotted lug for 10 AWG without a marking",
      input: { wire: "10 AWG", screw: "slotted, No. 10 or larger", slotWidth: "0.04 in", slotLength: "1/4 in" },
      gives: "computed",
    },
    {
      title: "A breaker with its torque on the label",
      input: { stated: "36 in-lb", wire: "10 AWG" },
      gives: "computed",
    },
    {
      title: "A socket screw in a range's terminal block",
      input: { wire: "6 AWG", screw: "recessed hexagon or square", flats: "3/16 in" },
      gives: "computed",
    },
    { title: "A hexagon lug for 2 AWG", input: { wire: "2 AWG", screw: "hexagon" }, gives: "computed" },
    { title: "A split bolt for 4 AWG", input: { wire: "4 AWG", screw: "hexagon, split-bolt" }, gives: "computed" },
    {
      title: "A small receptacle screw",
      input: { wire: "12 AWG", screw: "slotted, smaller than No. 10", slotWidth: "0.05 in", slotLength: "9/32 in" },
      gives: "computed",
    },
    {
      title: "A narrow slot on a conductor that the table does not have for it",
      input: { wire: "1 AWG", screw: "slotted, No. 10 or larger", slotWidth: "0.04 in", slotLength: "1/4 in" },
      gives: "noRow",
    },
    {
      title: "A thick conductor under a small screw",
      input: { wire: "6 AWG", screw: "slotted, smaller than No. 10", slotWidth: "1 mm", slotLength: "5 mm" },
      gives: "noRow",
    },
    { title: "Nothing known of the terminal", input: {}, gives: "screwUnknown" },
    { title: "Conductor not known", input: { screw: "hexagon" }, gives: "wireUnknown" },
    {
      title: "Slot not measured",
      input: { wire: "10 AWG", screw: "slotted, No. 10 or larger", slotWidth: "1 mm" },
      gives: "slotUnknown",
    },
    { title: "Recess not measured", input: { screw: "recessed hexagon or square" }, gives: "flatsUnknown" },
    {
      title: "A terminal without a marking on a 230 V site",
      input: { wire: "10 AWG", screw: "hexagon" },
      at: { jurisdiction: { adopted: { iec60364: 2017 } } },
      gives: "onlyStated",
    },
  ],
  compute(input, { at, formula, impossible, limit, lookUp, missing, rest }) {
    const found = read();
    if (found === undefined || typeof found !== "number") return found ?? impossible(["noRow"]);
    const torque = brand<"torque">(found);
    const share = brand<"ratio">(toolShare(torque));
    const least = brand<"torque">(torque * (1 - share));
    const most = brand<"torque">(torque * (1 + share));
    formula("{least:torque} = {torque:torque} * (1 - {share:ratio})", { least, torque, share });
    formula("{most:torque} = {torque:torque} * (1 + {share:ratio})", { most, torque, share });
    const required = limit(torqueMeans);
    return {
      torque,
      inchPounds: inUnit(torque, "inlbf"),
      newtonMetres: torque,
      least,
      most,
      origin: input.stated === undefined ? "the table, since the maker states none" : "the maker",
      means: required?.value === 1 ? (required.basis.note ?? "") : "A torque tool, though no text here asks for it.",
    };

    /** The torque [N·m], `undefined` where the tables have none, or what is missing. */
    function read() {
      if (input.stated !== undefined) {
        rest(markingBasis);
        return input.stated;
      }
      if (!underNec(at)) return missing(["onlyStated"], ["stated"]);
      const place = placeOf(input);
      if ("table" in place) {
        const small = place.table === smallNarrowTorque || place.table === smallWideTorque;
        if (small && gaugeNumber(input.wire!) < SMALL_SCREW_LARGEST) return undefined;
        return lookUp(place.table, place.key, place.keyKind, "torque");
      }
      const paths = place.map((name) => [name]);
      const [first] = place;
      if (first === "screw") return missing(["screwUnknown"], ["screw"]);
      if (first === "wire") return missing(["wireUnknown"], ["wire"]);
      if (first === "flats") return missing(["flatsUnknown"], ["flats"]);
      return missing(["slotUnknown"], ...paths);
    }
  },
});
