import * as z from "zod";
import { burns } from "../core/basis/index.js";
import { type Area, brand, type Power, si, type Volume } from "../core/quantity/index.js";
import { defineRule, machineFacts, type Outcome, quantity, type RuleExample } from "../core/rule/index.js";
import { airChangeBounds, dryerLeftOut } from "./basis.js";
import {
  changedVolumeFan,
  changedVolumeOther,
  indoorOpening,
  indoorOpeningLeast,
  mechanicalSupply,
  outdoorLevelPair,
  outdoorPair,
  outdoorSingle,
  roomVolume,
  storeyOpening,
} from "./limits-combustion.js";
import { allGood } from "./lookup.js";

/** How an appliance gets its flue gas out. */
export const draughts = ["natural", "fan-assisted", "direct-vent"] as const;
/** Ways to bring combustion air in. */
export const airWays = [
  "two openings to a room on the same storey",
  "openings to another storey",
  "two openings outdoors or upright ducts",
  "two level ducts outdoors",
  "one opening outdoors",
  "mechanical supply",
] as const;
type AirWay = (typeof airWays)[number];

const applianceInput = z.strictObject({
  what: z.string().min(1).max(100).describe("What it is, for example water heater"),
  input: quantity("power", { max: [1_000_000, "Btu/h"] }).describe("Input rate from its plate"),
  draught: z.enum(draughts).describe("How its flue gas leaves; direct-vent takes its air from outdoors"),
});

export const combustionAirInput = z.strictObject({
  kind: machineFacts.kind.optional(),
  fuel: machineFacts.fuel,
  heatInput: machineFacts.heatInput,
  madeUp: z
    .boolean()
    .optional()
    .describe("Whether make-up air comes to the dryer as its own section asks, so that it is left out of the sum"),
  others: z
    .array(applianceInput)
    .max(20)
    .optional()
    .describe("Other fuel-burning appliances in the same space; an empty list where there are none"),
  volume: quantity("volume", { max: [1_000_000, "ft3"] })
    .optional()
    .describe("Volume of the room with every room that joins it through openings without doors"),
  airChange: z
    .number()
    .min(0.01)
    .max(20)
    .optional()
    .describe("Air changes an hour, where a test has found them; leave out where not known"),
  way: z.enum(airWays).optional().describe("How combustion air is brought in from elsewhere"),
  freeArea: quantity("area", { max: [10_000, "in2"] })
    .optional()
    .describe("Free area of the opening, of the smaller one where there are two"),
  connectors: quantity("area", { max: [10_000, "in2"] })
    .optional()
    .describe("Areas of all vent connectors in the space together; for the one opening outdoors"),
  supply: quantity("volumeFlow", { max: [100_000, "cfm"] })
    .optional()
    .describe("Air that the mechanical supply brings"),
});

/** Air changes an hour above which no more are counted, and below which they must be used where known. */
const MOST_CHANGES = 0.6;
const FEWEST_CHANGES = 0.4;

/**
 * Room volume that appliances need at a known air change [m³].
 *
 * V = ( 21 ft³·I_other + 15 ft³·I_fan )/( n·1000 Btu/h ), with n at most 0.60 an hour.
 *
 * @param natural - input of appliances without a fan [W]
 * @param fan - input of fan-assisted appliances [W]
 * @param changes - n, air changes an hour, above 0
 * @param each - volumes for each 1000 Btu/h at one change an hour, 21 and 15 ft³ as the texts print them [m³]
 * @basis NFPA 54, 9.3.2.2; IFGC 304.5.2
 * @example volumeAtChange(si(30000, "Btu/h"), si(0, "Btu/h"), 0.5, { natural: si(21, "ft3"), fan: si(15, "ft3") }) // 35.679
 */
export function volumeAtChange(
  natural: Power,
  fan: Power,
  changes: number,
  each: { readonly natural: Volume; readonly fan: Volume },
): Volume {
  const thousand = si(1000, "Btu/h");
  const sum = (each.natural * natural + each.fan * fan) / thousand;
  return brand<"volume">(sum / Math.min(changes, MOST_CHANGES));
}

/** The limit on the area of each way, for each 1000 Btu/h. */
const areaOf: Record<Exclude<AirWay, "mechanical supply">, typeof outdoorPair> = {
  "two openings to a room on the same storey": indoorOpening,
  "openings to another storey": storeyOpening,
  "two openings outdoors or upright ducts": outdoorPair,
  "two level ducts outdoors": outdoorLevelPair,
  "one opening outdoors": outdoorSingle,
};

/**
 * The gas appliances in the space get the air they burn.
 *
 * A rule; its page is `docs/rules/venting/combustion-air.md`.
 */
export const combustionAir = defineRule({
  id: "venting/combustion-air",
  title: "The gas appliances in the space get the air they burn",
  since: "0.1.0",
  input: combustionAirInput,
  basis: [],
  limits: [
    roomVolume,
    changedVolumeOther,
    changedVolumeFan,
    indoorOpening,
    indoorOpeningLeast,
    storeyOpening,
    outdoorPair,
    outdoorLevelPair,
    outdoorSingle,
    mechanicalSupply,
  ],
  messages: {
    pass: {
      roomy: "The space of {volume:volume} is at least the {need:volume} that {input:heatRate} need.",
      leftOut:
        "Nothing here burns the room's air: what is left out are dryers with make-up air and direct-vent appliances.",
      openEnough: "Each opening passes {free:area}, at least the {need:area} that {input:heatRate} need.",
      overLeast: "Each opening passes {free:area}, at least {need:area} whatever the input.",
      overConnectors: "The opening passes {free:area}, at least the {need:area} of the vent connectors.",
      supplied: "The mechanical supply brings {supply:volumeFlow}, at least {need:volumeFlow}.",
    },
    fail: {
      tooSmall: "The space of {volume:volume} is less than the {need:volume} that {input:heatRate} need; bring air in.",
      tooTight: "The opening passes {free:area}; {input:heatRate} need {need:area}, each opening where there are two.",
      underLeast: "Each opening passes {free:area}; it must be at least {need:area} whatever the input.",
      underConnectors: "The opening passes {free:area}, less than the {need:area} of the vent connectors.",
      undersupplied: "The mechanical supply brings {supply:volumeFlow}; {need:volumeFlow} are needed.",
    },
    review: {
      inputUnknown: "The input rate of this machine is needed, from its plate.",
      makeupUnknown: "Whether make-up air comes to the dryer decides whether it counts.",
      othersUnknown: "The other fuel-burning appliances in the space were not listed.",
      volumeUnknown: "The volume of the space was not measured.",
      areaUnknown: "The free area of the opening was not measured.",
      connectorsUnknown: "The areas of the vent connectors are needed for the one opening outdoors.",
      supplyUnknown: "The air of the mechanical supply was not measured.",
      noLimit: "No fuel-gas text adopted here gives a figure; the appliances' sheets decide.",
    },
    notApplicable: { noFlame: "Nothing here burns fuel." },
  },
  cautions: ["carbonMonoxide", "gas", "deferral"],
  examples: ((): RuleExample<z.input<typeof combustionAirInput>>[] => {
    const heater = { what: "water heater", input: "40000 Btu/h", draught: "natural" } as const;
    const good: z.input<typeof combustionAirInput> = {
      kind: "dryer",
      fuel: "naturalGas",
      heatInput: "22000 Btu/h",
      madeUp: true,
      others: [heater],
      volume: "2400 ft3",
    };
    const tight = { ...good, volume: "900 ft3" };
    const indoors = { ...tight, way: "two openings to a room on the same storey" as const };
    const single = { ...tight, way: "one opening outdoors" as const };
    return [
      { title: "A dryer with make-up air beside a water heater", input: good, gives: "roomy" },
      {
        title: "The same room where the dryer counts as well",
        input: { ...good, madeUp: false },
        gives: "tooSmall",
      },
      { title: "A dryer with make-up air on its own", input: { ...good, others: [] }, gives: "leftOut" },
      {
        title: "A small room with two openings outdoors",
        input: { ...tight, way: "two openings outdoors or upright ducts", freeArea: "12 in2" },
        gives: "openEnough",
      },
      {
        title: "Two level ducts that are too narrow",
        input: { ...tight, way: "two level ducts outdoors", freeArea: "12 in2" },
        gives: "tooTight",
      },
      { title: "Openings to the next room", input: { ...indoors, freeArea: "110 in2" }, gives: "openEnough" },
      {
        title: "Openings to the next room below 100 in²",
        input: { ...indoors, freeArea: "60 in2" },
        gives: "underLeast",
      },
      {
        title: "One opening outdoors",
        input: { ...single, freeArea: "14 in2", connectors: "12.6 in2" },
        gives: "openEnough",
      },
      {
        title: "One opening smaller than the vent connector",
        input: { ...single, freeArea: "14 in2", connectors: "28 in2" },
        gives: "underConnectors",
      },
      {
        title: "A fan that brings enough",
        input: { ...tight, way: "mechanical supply", supply: "20 cfm" },
        gives: "supplied",
      },
      {
        title: "A fan that brings too little",
        input: { ...tight, way: "mechanical supply", supply: "10 cfm" },
        gives: "undersupplied",
      },
      { title: "Input not read", input: { kind: "dryer", fuel: "naturalGas" }, gives: "inputUnknown" },
      {
        title: "Make-up air not looked at",
        input: { kind: "dryer", fuel: "naturalGas", heatInput: "22000 Btu/h" },
        gives: "makeupUnknown",
      },
      {
        title: "Other appliances not listed",
        input: { kind: "dryer", fuel: "naturalGas", heatInput: "22000 Btu/h", madeUp: true },
        gives: "othersUnknown",
      },
      {
        title: "Room not measured",
        input: { kind: "range", fuel: "naturalGas", heatInput: "60000 Btu/h", others: [] },
        gives: "volumeUnknown",
      },
      { title: "Opening not measured", input: indoors, gives: "areaUnknown" },
      { title: "Connectors not measured", input: { ...single, freeArea: "14 in2" }, gives: "connectorsUnknown" },
      { title: "Supply not measured", input: { ...tight, way: "mechanical supply" }, gives: "supplyUnknown" },
      {
        title: "A house under the uniform codes alone",
        input: good,
        at: { jurisdiction: { adopted: { umc: 2021, upc: 2021 } } },
        gives: "noLimit",
      },
      { title: "An electric dryer alone", input: { kind: "dryer", fuel: "electric", others: [] }, gives: "noFlame" },
    ];
  })(),
  check(found, { limit, rest, formula, judge, missing, say, all, assume }) {
    const { kind, fuel, heatInput, madeUp, others, volume, airChange, way } = found;
    const own = burns(fuel);
    if (!own && (others === undefined || others.length === 0)) return say("noFlame");
    const isDryer = kind === undefined || kind === "dryer" || kind === "stack";
    if (own && heatInput === undefined) return missing(["inputUnknown"], ["heatInput"]);
    if (own && isDryer && madeUp === undefined) return missing(["makeupUnknown"], ["madeUp"]);
    if (others === undefined) return missing(["othersUnknown"], ["others"]);

    // The dryer with make-up air and what takes its air from outdoors are left out of the sum.
    const counted = others.filter(({ draught }) => draught !== "direct-vent");
    const ownCounts = own && !(isDryer && madeUp);
    if (own && isDryer && madeUp) rest(dryerLeftOut);
    const natural = brand<"power">(
      (ownCounts ? heatInput! : 0) + counted.reduce((sum, one) => sum + (one.draught === "natural" ? one.input : 0), 0),
    );
    const fan = brand<"power">(counted.reduce((sum, one) => sum + (one.draught === "fan-assisted" ? one.input : 0), 0));
    const input = brand<"power">(natural + fan);
    if (input === 0) return say("leftOut");

    const fuelOrGas = own ? fuel : "naturalGas";
    const plain = limit(roomVolume, fuelOrGas);
    if (!plain) return say("noLimit");
    const thousand = si(1000, "Btu/h");

    const room = (): Outcome => {
      if (volume === undefined) return missing(["volumeUnknown"], ["volume"]);
      let need = brand<"volume">((plain.value * input) / thousand);
      if (airChange !== undefined) {
        const other = limit(changedVolumeOther, fuelOrGas);
        const assisted = limit(changedVolumeFan, fuelOrGas);
        if (!other || !assisted) return say("noLimit");
        const each = { natural: brand<"volume">(other.value), fan: brand<"volume">(assisted.value) };
        rest(airChangeBounds);
        const changes = Math.min(airChange, MOST_CHANGES);
        if (airChange > MOST_CHANGES) assume(`No more than ${MOST_CHANGES} air changes an hour are counted.`);
        const byChange = volumeAtChange(natural, fan, airChange, each);
        // Below 0.40 an hour the plain rule must not be used; above it either may be.
        if (airChange < FEWEST_CHANGES || byChange <= need) {
          need = byChange;
          formula(
            "{need:volume} = ({other:volume} * {natural:heatRate} + {fan:volume} * {assisted:heatRate}) / ({changes:number} * (1000 BTU / hour))",
            { need, other: each.natural, natural, fan: each.fan, assisted: fan, changes },
          );
        }
      }
      if (airChange === undefined) assume("The house is of ordinary tightness: its air change is not known.");
      if (need === (plain.value * input) / thousand) {
        formula("{need:volume} = {each:volume} * {input:heatRate} / (1000 BTU / hour)", {
          need,
          each: brand<"volume">(plain.value),
          input,
        });
      }
      const slots = { volume, need, input };
      return judge({
        kind: "volume",
        measured: volume,
        limit: need,
        sense: "atLeast",
        pass: ["roomy", slots],
        fail: ["tooSmall", slots],
      });
    };

    const brought = (): Outcome => {
      if (way === "mechanical supply") {
        const each = limit(mechanicalSupply, fuelOrGas);
        if (!each) return say("noLimit");
        const need = brand<"volumeFlow">((each.value * input) / thousand);
        const { supply } = found;
        if (supply === undefined) return missing(["supplyUnknown"], ["supply"]);
        formula("{need:volumeFlow} = {each:volumeFlow} * {input:heatRate} / (1000 BTU / hour)", {
          need,
          each: brand<"volumeFlow">(each.value),
          input,
        });
        return judge({
          kind: "volumeFlow",
          measured: supply,
          limit: need,
          sense: "atLeast",
          pass: ["supplied", { supply, need }],
          fail: ["undersupplied", { supply, need }],
        });
      }
      const each = limit(areaOf[way!], fuelOrGas);
      if (!each) return say("noLimit");
      const { freeArea: free, connectors } = found;
      if (free === undefined) return missing(["areaUnknown"], ["freeArea"]);
      const need = brand<"area">((each.value * input) / thousand);
      formula("{need:area} = {each:area} * {input:heatRate} / (1000 BTU / hour)", {
        need,
        each: brand<"area">(each.value),
        input,
      });
      const byInput = judge({
        kind: "area",
        measured: free,
        limit: need,
        sense: "atLeast",
        pass: ["openEnough", { free, need, input }],
        fail: ["tooTight", { free, need, input }],
      });
      const atLeastArea = (least: Area, pass: "overLeast" | "overConnectors", fail: "underLeast" | "underConnectors") =>
        judge({
          kind: "area",
          measured: free,
          limit: least,
          sense: "atLeast",
          pass: pass === "overLeast" ? ["overLeast", { free, need: least }] : ["overConnectors", { free, need: least }],
          fail:
            fail === "underLeast" ? ["underLeast", { free, need: least }] : ["underConnectors", { free, need: least }],
        });
      if (way === "two openings to a room on the same storey") {
        const least = limit(indoorOpeningLeast, fuelOrGas);
        if (!least) return all(byInput, say("noLimit"));
        return all(byInput, atLeastArea(brand<"area">(least.value), "overLeast", "underLeast"));
      }
      if (way !== "one opening outdoors") return byInput;
      if (connectors === undefined) return all(byInput, missing(["connectorsUnknown"], ["connectors"]));
      return all(byInput, atLeastArea(connectors, "overConnectors", "underConnectors"));
    };

    if (way === undefined) return room();
    if (volume !== undefined) {
      const alone = room();
      if (allGood(alone)) return alone;
    }
    return brought();
  },
});
