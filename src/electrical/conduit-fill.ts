import * as z from "zod";
import { type Area, brand, type Length, si } from "../core/quantity/index.js";
import { type At, defineRule, type Proposal, quantity, type Read } from "../core/rule/index.js";
import { lookUp } from "../core/table/index.js";
import { gaugeNumber } from "./gauge.js";
import { conduitShare, type FillCase } from "./limits-conduit.js";
import { conductorArea, emtBores, roundsUpFrom } from "./tables/conduit-fill.js";

const sizes = ["14 AWG", "12 AWG", "10 AWG", "8 AWG", "6 AWG", "4 AWG"] as const;
const trades = Object.keys(emtBores) as [keyof typeof emtBores, ...(keyof typeof emtBores)[]];

export const conduitFillInput = z.strictObject({
  raceway: z
    .strictObject({
      emt: z.enum(trades).optional().describe("Trade size of electrical metallic tubing"),
      bore: quantity("length", { min: [5, "mm"], max: [200, "mm"] })
        .optional()
        .describe("Inside diameter of any other raceway"),
      nipple: z
        .boolean()
        .optional()
        .describe("Whether it is a nipple of at most 24 in between boxes; not one where left out"),
    })
    .optional()
    .describe("The conduit or tubing; leave out where the wiring is cable"),
  wires: z
    .array(
      z.strictObject({
        size: z.enum(sizes).optional().describe("Size of THHN or THWN-2 conductors, grounds among them"),
        diameter: quantity("length", { min: [1, "mm"], max: [100, "mm"] })
          .optional()
          .describe("Outside diameter of other conductors or of a cable; of a flat cable its width"),
        count: z.int().min(1).max(100).describe("How many of this kind"),
      }),
    )
    .min(1)
    .max(20)
    .optional()
    .describe("Conductors and cables in the raceway, grounding conductors counted in"),
});

type Input = Read<z.output<typeof conduitFillInput>>;

/** Area of a circle [m²]. */
const circle = (diameter: Length): Area => brand<"area">((Math.PI / 4) * diameter ** 2);

/** Which share counts for so many conductors. */
export const fillCase = (count: number, nipple: boolean): FillCase =>
  nipple ? "nipple" : count === 1 ? "one" : count === 2 ? "two" : "several";

/**
 * Most conductors of one size that a raceway takes, a whole number: allowed area over the area of one, the next whole
 * number from a part of 0.8 on; a single conductor must go in whole. The bore's area is not rounded first.
 *
 * @param bore - inside diameter of the raceway [m]
 * @param each - area of one conductor [m²], above 0
 * @param share - share of the bore's area that so many may take [-]
 * @basis NEC 2017, Chapter 9, Tables 1, 4, 5 and note 7
 * @example mostConductors(si(0.622, "in"), si(0.0133, "in2"), () => 0.4) // 9
 */
export function mostConductors(bore: Length, each: Area, share: (fill: FillCase) => number): number {
  const ratio = circle(bore) / each;
  const most = (fill: FillCase) => Math.floor(share(fill) * ratio + (1 - roundsUpFrom) + 1e-9);
  const several = most("several");
  if (several >= 3) return several;
  if (most("two") >= 2) return 2;
  return share("one") * ratio >= 1 - 1e-9 ? 1 : 0;
}

type Wire = NonNullable<Input["wires"]>[number];
/** Area of a wire [m²]: of its measured diameter, else from the table. */
const areaOf = ({ size, diameter }: Wire): Area | undefined => {
  if (diameter !== undefined) return circle(diameter);
  return size === undefined ? undefined : brand<"area">(lookUp(conductorArea, gaugeNumber(size))!);
};

const boreOf = (raceway: Input["raceway"]): Length | undefined =>
  raceway?.bore ?? (raceway?.emt === undefined ? undefined : si(emtBores[raceway.emt], "in"));

const remedies = {
  larger: "Use tubing of trade size {trade:text}.",
} as const;

/** The raceway is no fuller than allowed. A rule; its page is `docs/rules/electrical/conduit-fill.md`. */
export const conduitFill = defineRule({
  id: "electrical/conduit-fill",
  title: "The raceway is no fuller than allowed",
  since: "0.1.0",
  input: conduitFillInput,
  basis: [],
  limits: [conduitShare],
  messages: {
    pass: {
      fits: "{count:count} conductors of {kind:text} go into the raceway; it takes {most:count}.",
      within: "The wires take {taken:area}; {allowed:area} of the raceway may be filled.",
    },
    fail: {
      tooMany: "{count:count} conductors of {kind:text} are too many for the raceway; it takes {most:count}.",
      overfilled: "The wires take {taken:area}, {over:area} more than the {allowed:area} that may be filled.",
    },
    review: {
      boreUnknown: "The size of the raceway was not noted.",
      wiresUnknown: "The wires in the raceway were not counted.",
      sizeUnknown: "A wire in the raceway has neither a size nor a diameter.",
      noRule:
        "No text adopted here is known to set a fill by area; ask the local authority, and leave room to pull without force.",
    },
    notApplicable: { noRaceway: "No conduit or tubing was named; the wiring is cable." },
  },
  remedies,
  cautions: ["mains", "deferral"],
  examples: [
    {
      title: "A 20 A laundry circuit in half-inch tubing",
      input: { raceway: { emt: "1/2 in" }, wires: [{ size: "12 AWG", count: 3 }] },
      gives: "fits",
    },
    {
      title: "A range and a dryer in one tube",
      input: {
        raceway: { emt: "1 in" },
        wires: [
          { size: "6 AWG", count: 3 },
          { size: "10 AWG", count: 4 },
        ],
      },
      gives: "within",
    },
    {
      title: "Three circuits pulled into half-inch tubing",
      input: { raceway: { emt: "1/2 in" }, wires: [{ size: "10 AWG", count: 6 }] },
      gives: "tooMany",
    },
    {
      title: "The same two machines in a smaller tube",
      input: {
        raceway: { emt: "3/4 in" },
        wires: [
          { size: "6 AWG", count: 3 },
          { size: "10 AWG", count: 4 },
        ],
      },
      gives: "overfilled",
    },
    {
      title: "A flat cable in a short sleeve",
      input: { raceway: { bore: "0.8 in", nipple: true }, wires: [{ diameter: "0.41 in", count: 1 }] },
      gives: "fits",
    },
    {
      title: "Tubing not measured",
      input: { raceway: {}, wires: [{ size: "12 AWG", count: 3 }] },
      gives: "boreUnknown",
    },
    { title: "Wires not counted", input: { raceway: { emt: "1/2 in" } }, gives: "wiresUnknown" },
    {
      title: "A wire without a size",
      input: { raceway: { emt: "1/2 in" }, wires: [{ count: 3 }] },
      gives: "sizeUnknown",
    },
    {
      title: "A site under another code",
      input: { raceway: { bore: "16 mm" }, wires: [{ diameter: "3 mm", count: 3 }] },
      at: { jurisdiction: { adopted: { iec60364: 2017 } } },
      gives: "noRule",
    },
    { title: "Wiring in cable", input: {}, gives: "noRaceway" },
  ],
  check({ raceway, wires }, ask) {
    const { formula, judge, limit, missing, say } = ask;
    if (raceway === undefined) return say("noRaceway");
    if (wires === undefined) return missing(["wiresUnknown"], ["wires"]);
    const bore = boreOf(raceway);
    if (bore === undefined) return missing(["boreUnknown"], ["raceway", "emt"], ["raceway", "bore"]);
    const unsized = wires.findIndex((wire) => areaOf(wire) === undefined);
    if (unsized >= 0) return missing(["sizeUnknown"], ["wires", unsized, "size"], ["wires", unsized, "diameter"]);

    const nipple = raceway.nipple ?? false;
    const count = wires.reduce((sum, wire) => sum + wire.count, 0);
    const governing = limit(conduitShare, "none", { fill: fillCase(count, nipple) });
    if (!governing) return say("noRule");
    for (const wire of wires) {
      if (wire.diameter === undefined && wire.size !== undefined) {
        ask.lookUp(conductorArea, gaugeNumber(wire.size), "number", "area");
      }
    }
    const share = brand<"ratio">(governing.value);
    const allowed = brand<"area">(share * circle(bore));
    formula("{allowed:area} = {share:ratio} * pi / 4 * {bore:thickness}^2", { allowed, share, bore });

    const [first] = wires;
    const each = areaOf(first!)!;
    if (wires.every((wire) => areaOf(wire) === each)) {
      const kind = first!.size ?? "this kind";
      if (first!.diameter !== undefined) {
        formula("{each:area} = pi / 4 * {diameter:thickness}^2", { each, diameter: first!.diameter });
      }
      formula("{fits:number} = {allowed:area} / {each:area}", { fits: allowed / each, allowed, each });
      const most = mostConductors(bore, each, shareAt(ask.at, nipple));
      const slots = { count, kind, most };
      return judge({
        kind: "count",
        measured: count,
        limit: most,
        sense: "atMost",
        pass: ["fits", slots],
        fail: ["tooMany", slots],
      });
    }
    const taken = brand<"area">(wires.reduce((sum, wire) => sum + wire.count * areaOf(wire)!, 0));
    return judge({
      kind: "area",
      measured: taken,
      limit: allowed,
      sense: "atMost",
      pass: ["within", { taken, allowed }],
      fail: ["overfilled", { taken, allowed, over: brand<"area">(taken - allowed) }],
    });
  },
  mend({ raceway }) {
    return trades.slice(trades.indexOf(raceway?.emt ?? trades.at(-1)!) + 1).map(
      (trade): Proposal<typeof remedies> => ({
        change: [{ path: ["raceway", "emt"], value: trade }],
        say: ["larger", { trade }],
      }),
    );
  },
});

/** The shares at a place, for as many conductors as are tried. */
const shareAt =
  (at: At, nipple: boolean) =>
  (fill: FillCase): number =>
    at.governing(conduitShare, "none", { fill: nipple ? "nipple" : fill })?.value ?? 0;
