import * as z from "zod";
import { brand, type Current, compareConductors } from "../core/quantity/index.js";
import { type At, defineRule, machineFacts, type Outcome, type Proposal, type Read } from "../core/rule/index.js";
import { necBasis, plateBasis, underNec } from "./basis.js";
import { circuitInput, cordInput, receptacleInput } from "./circuit.js";
import { cordLeast, cordMost, coveredNeutral, fourWire } from "./limits.js";
import { circuitLoad } from "./load.js";
import { plateInput } from "./plate.js";
import { belongsBetween, type System, systemInput } from "./system.js";
import { alsoTakes, type ConfigurationName, configurationBasis, configurations } from "./tables/configurations.js";
import { cordRows } from "./tables/cord-ampacity.js";
import { receptacleFamilies } from "./tables/receptacles.js";
import { socketAlsoTakes, socketBasis, sockets } from "./tables/sockets.js";
import { leastNeutral } from "./tables/three-wire.js";

export const cordMatchInput = z.strictObject({
  kind: machineFacts.kind.optional(),
  plate: plateInput.optional().describe("What the machine's plate says of its electrics"),
  system: systemInput.optional(),
  circuit: circuitInput.optional().describe("The circuit from the panel to the receptacle"),
  receptacle: receptacleInput.optional().describe("The receptacle for the machine"),
  cord: cordInput.optional().describe("The cord that is on the machine, or is to go on it"),
  hardWired: z.boolean().optional().describe("Whether the machine is wired in without cord and plug"),
});

type Input = Read<z.output<typeof cordMatchInput>>;
/** The conductors a machine works with, beside the ground: line and neutral, two lines, or two lines and neutral. */
type Works = "LN" | "LL" | "LLN";

/**
 * Whether a plug goes into a receptacle: the same configuration, or a 15 A plug in the 20 A receptacle that is slotted
 * for it. That it goes in does not mean it may.
 *
 * @example mates("5-15", "5-20") // true
 */
export function mates(plug: ConfigurationName, receptacle: ConfigurationName): boolean {
  return plug === receptacle || alsoTakes[receptacle] === plug;
}

/**
 * Ampacity of a cord's line conductors [A], or `undefined` for a size that the table lacks.
 *
 * @param size - size of the line conductors
 * @param carrying - conductors that carry current; a neutral counts on a 208Y/120 V supply, not on 120/240 V
 * @basis NEC 2017, Table 400.5(A)(1)
 * @example cordAmpacity("10 AWG", 2) // 30
 */
export function cordAmpacity(size: string, carrying: 2 | 3): Current | undefined {
  const row = cordRows.find((one) => one.size === size);
  return row && brand<"current">(carrying === 3 ? row.three_A : row.two_A);
}

const remedies = {
  straps: "{what:text} the bonding strap at the machine's terminal block.",
  otherCord: "Fit a listed {plug:text} cord of {size:text} in place of this one.",
  fourWireCircuit:
    "Have a new four-wire circuit run, with a {plug:text} receptacle and cord, and take the bonding strap off.",
} as const;

/**
 * Machine, cord and receptacle belong together, and the frame is grounded the right way.
 *
 * A rule; its page is `docs/rules/electrical/cord-match.md`.
 */
export const cordMatch = defineRule({
  id: "electrical/cord-match",
  title: "Machine, cord and receptacle belong together, and the frame is grounded the right way",
  since: "0.1.0",
  input: cordMatchInput,
  basis: [configurationBasis],
  limits: [fourWire, coveredNeutral, cordLeast, cordMost],
  messages: {
    pass: {
      fourWireFits:
        "The {plug:text} cord fits machine and receptacle. The two lines go to the outer terminals, white to the centre one, green to the green screw on the cabinet; the bonding strap is off the cabinet, under the centre screw with the white.",
      threeWireStays:
        "The old three-wire circuit may stay, as it meets every condition. The neutral goes to the centre terminal, the two others to the outer ones; the bonding strap stays between the centre terminal and the cabinet.",
      twoLinesFit:
        "The {plug:text} cord fits machine and receptacle. The two lines go to the line terminals, green to the green screw on the cabinet; there is no neutral.",
      wiredFour:
        "Four wires: the two lines go to the outer terminals, white to the centre one, the ground to the green screw on the cabinet; the bonding strap is off the cabinet.",
      wiredGround: "The ground in the box goes to the green screw on the cabinet; a white that is not used is capped.",
      neutralUnused: "The {plug:text} cord fits; this machine uses no neutral: cap the white, green to the cabinet.",
      lineAndNeutralFit: "The {plug:text} plug fits machine and receptacle.",
      plugEnough: "The {plug:text} plug is good for {amps:current}; the machine draws {load:current}.",
      socketFits: "The {plug:text} plug is good for {amps:current} at 230 V; the machine draws {load:current}.",
      cordEnough: "The {size:text} cord carries {amps:current}; the machine draws {load:current}.",
      lengthWithin: "The {length:length} cord is within the length that the rule for this machine sets.",
    },
    fail: {
      doesNotMate: "The {plug:text} plug does not go into the {receptacle:text} receptacle.",
      wrongVoltage: "The {receptacle:text} receptacle gives the wrong voltage for a {volts:voltage} machine.",
      noNeutral:
        "The {receptacle:text} receptacle has no neutral and this machine needs one. Never use the ground for it: the cabinet would carry current.",
      noGround: "The {receptacle:text} receptacle has no ground for the machine's frame.",
      groundMissing:
        "The {receptacle:text} receptacle has a ground contact, and there is no ground in the box behind it; have a grounded circuit run.",
      boxNoGround: "The box has no ground for the machine's frame.",
      threeWireNew:
        "The circuit is new, extended or moved, so it must have four wires: two lines, a neutral and a ground.",
      threeWireGrounded:
        "There is a ground in the outlet box, so the frame must be joined to it by four wires, not to the neutral.",
      threeWireBarred: "A three-wire circuit may not stay here.",
      neutralSmall: "The neutral is {size:text} {metal:text}; to ground a frame it must be at least {least:text}.",
      neutralBare:
        "The neutral is bare and neither part of SE cable from the service equipment nor otherwise allowed, so it may not ground a frame.",
      neutralNone: "The box has neither neutral nor ground for this machine.",
      strapMustGo:
        "With four wires the bonding strap must come off; left on, the cabinet carries part of the neutral's current.",
      strapMissing: "With three wires the bonding strap must be on; without it the cabinet is not grounded.",
      plugSmall: "The {plug:text} plug is good for {amps:current}; the machine draws {load:current}.",
      socketSmall: "The {plug:text} plug is good for {amps:current} at 230 V; the machine draws {load:current}.",
      otherStandard:
        "A {plug:text} plug does not belong in a {socket:text} socket; an adapter is not for this machine.",
      cordSmall: "The {size:text} cord carries {amps:current} here; the machine draws {load:current}.",
      cordShort: "The {length:length} cord is shorter than the {least:length} that the rule for this machine sets.",
      cordLong: "The {length:length} cord is longer than the {most:length} that the rule for this machine sets.",
    },
    review: {
      plateUnknown: "The voltage on the machine's plate was not noted, or whether it needs a neutral.",
      threePhase: "A three-phase machine takes plugs of other families, which are not matched here; its sheet decides.",
      systemUnknown: "The supply system of the building is not known.",
      socketUnknown: "The standards of plug and socket were not noted.",
      elsewhere:
        "Plugs for machines on two or three lines of a 230/400 V system are not matched here; the national rules decide.",
      noCode: "The code adopted here has no rule for these receptacles.",
      receptacleUnknown: "The receptacle was not identified.",
      cordUnknown: "There is no cord yet; the receptacle asks for a {plug:text} one.",
      loadUnknown: "The machine's current or power was not noted from its plate.",
      cordSizeUnknown: "The cord's conductor size was not noted.",
      circuitUnknown: "Whether the circuit is new, and whether there is a ground in the box, was not noted.",
      neutralUnknown: "The neutral of the old circuit was not looked at.",
      strapUnknown: "Nobody looked at the bonding strap.",
    },
  },
  remedies,
  cautions: ["mains", "deferral"],
  examples: [
    {
      title: "Alder Row, laundry: a new four-wire dryer circuit",
      input: {
        kind: "dryer",
        plate: { voltage: "240 V", neutral: true, current: "23 A" },
        system: "120/240 V",
        circuit: { isNew: true, ground: true },
        receptacle: { configuration: "14-30" },
        cord: { plug: "14-30", size: "10 AWG", length: "5 ft", strap: "removed" },
      },
      gives: "fourWireFits",
    },
    {
      title: "Number 12 Alder Row: the old three-wire circuit may stay",
      input: {
        kind: "dryer",
        plate: { voltage: "240 V", neutral: true, current: "23 A" },
        system: "120/240 V",
        circuit: {
          isNew: false,
          ground: false,
          startsAt: "service",
          metal: "copper",
          wiring: "SE",
          neutral: { size: "10 AWG", covering: "bare" },
        },
        receptacle: { configuration: "10-30" },
        cord: { plug: "10-30", size: "10 AWG", length: "5 ft", strap: "fitted" },
      },
      gives: "threeWireStays",
    },
    {
      title: "Number 15 Alder Row: a bare neutral from a subpanel may not",
      input: {
        kind: "dryer",
        plate: { voltage: "240 V", neutral: true, current: "23 A" },
        system: "120/240 V",
        circuit: {
          isNew: false,
          ground: false,
          startsAt: "subpanel",
          metal: "copper",
          wiring: "NM",
          neutral: { size: "10 AWG", covering: "bare" },
        },
        receptacle: { configuration: "10-30" },
        cord: { plug: "10-30", size: "10 AWG", length: "5 ft", strap: "fitted" },
      },
      gives: "neutralBare",
    },
    {
      title: "A three-wire receptacle on a new circuit",
      input: {
        plate: { voltage: "240 V", neutral: true, current: "23 A" },
        system: "120/240 V",
        circuit: { isNew: true, ground: false },
        receptacle: { configuration: "10-30" },
        cord: { plug: "10-30", size: "10 AWG", strap: "fitted" },
      },
      gives: "threeWireNew",
    },
    {
      title: "A three-wire receptacle on a box with a ground",
      input: {
        plate: { voltage: "240 V", neutral: true, current: "23 A" },
        system: "120/240 V",
        circuit: { isNew: false, ground: true },
        receptacle: { configuration: "10-30" },
        cord: { plug: "10-30", size: "10 AWG", strap: "fitted" },
      },
      gives: "threeWireGrounded",
    },
    {
      title: "A city that lets no three-wire circuit stay",
      input: {
        plate: { voltage: "240 V", neutral: true, current: "23 A" },
        system: "120/240 V",
        circuit: {
          isNew: false,
          ground: false,
          startsAt: "service",
          metal: "copper",
          neutral: { size: "10 AWG", covering: "insulated" },
        },
        receptacle: { configuration: "10-30" },
        cord: { plug: "10-30", size: "10 AWG", strap: "fitted" },
      },
      at: {
        jurisdiction: {
          local: [{ limit: "electrical/cord-match.four-wire", value: true, citation: { document: "City ordinance" } }],
        },
      },
      gives: "threeWireBarred",
    },
    {
      title: "A neutral too thin to ground a frame",
      input: {
        plate: { voltage: "240 V", neutral: true, current: "16 A" },
        system: "120/240 V",
        circuit: {
          isNew: false,
          ground: false,
          startsAt: "service",
          metal: "copper",
          neutral: { size: "12 AWG", covering: "insulated" },
        },
        receptacle: { configuration: "10-20" },
        cord: { plug: "10-20", size: "12 AWG", strap: "fitted" },
      },
      gives: "neutralSmall",
    },
    {
      title: "No neutral in the box at all",
      input: {
        plate: { voltage: "240 V", neutral: true, current: "23 A" },
        system: "120/240 V",
        circuit: {
          isNew: false,
          ground: false,
          startsAt: "service",
          metal: "copper",
          neutral: { covering: "none" },
        },
        receptacle: { configuration: "10-30" },
        cord: { plug: "10-30", size: "10 AWG", strap: "fitted" },
      },
      gives: "neutralNone",
    },
    {
      title: "Four wires and the strap still on",
      input: {
        plate: { voltage: "240 V", neutral: true, current: "23 A" },
        system: "120/240 V",
        receptacle: { configuration: "14-30" },
        cord: { plug: "14-30", size: "10 AWG", strap: "fitted" },
      },
      gives: "strapMustGo",
    },
    {
      title: "Three wires and the strap gone",
      input: {
        plate: { voltage: "240 V", neutral: true, current: "23 A" },
        system: "120/240 V",
        circuit: {
          isNew: false,
          ground: false,
          startsAt: "service",
          metal: "copper",
          neutral: { size: "10 AWG", covering: "insulated" },
        },
        receptacle: { configuration: "10-30" },
        cord: { plug: "10-30", size: "10 AWG", strap: "removed" },
      },
      gives: "strapMissing",
    },
    {
      title: "A compact machine for 240 V alone",
      input: {
        plate: { voltage: "240 V", neutral: false, current: "12 A" },
        system: "120/240 V",
        receptacle: { configuration: "6-20" },
        cord: { plug: "6-15", size: "14 AWG" },
      },
      gives: "twoLinesFit",
    },
    {
      title: "The same on a four-wire receptacle",
      input: {
        plate: { voltage: "240 V", neutral: false, current: "12 A" },
        system: "120/240 V",
        receptacle: { configuration: "14-30" },
        cord: { plug: "14-30", size: "10 AWG" },
      },
      gives: "neutralUnused",
    },
    {
      title: "The same on an old ungrounded one",
      input: {
        plate: { voltage: "240 V", neutral: false, current: "12 A" },
        system: "120/240 V",
        receptacle: { configuration: "10-30" },
        cord: { plug: "10-30", size: "10 AWG" },
      },
      gives: "noGround",
    },
    {
      title: "A gas dryer at a 20 A receptacle",
      input: {
        plate: { voltage: "120 V", current: "6 A" },
        system: "120/240 V",
        receptacle: { configuration: "5-20" },
        cord: { plug: "5-15", size: "16 AWG" },
      },
      gives: "lineAndNeutralFit",
    },
    {
      title: "The same, the plug's rating",
      input: {
        plate: { voltage: "120 V", current: "6 A" },
        system: "120/240 V",
        receptacle: { configuration: "5-20" },
        cord: { plug: "5-15", size: "16 AWG" },
      },
      gives: "plugEnough",
    },
    {
      title: "The same, the cord's ampacity",
      input: {
        plate: { voltage: "120 V", current: "6 A" },
        system: "120/240 V",
        receptacle: { configuration: "5-20" },
        cord: { plug: "5-15", size: "16 AWG" },
      },
      gives: "cordEnough",
    },
    {
      title: "A range plug at a dryer receptacle",
      input: {
        plate: { voltage: "240 V", neutral: true, current: "23 A" },
        system: "120/240 V",
        receptacle: { configuration: "14-30" },
        cord: { plug: "14-50", size: "6 AWG", strap: "removed" },
      },
      gives: "doesNotMate",
    },
    {
      title: "A 240 V machine at a 120 V receptacle",
      input: {
        plate: { voltage: "240 V", neutral: true, current: "23 A" },
        system: "120/240 V",
        receptacle: { configuration: "5-20" },
        cord: { plug: "5-20", size: "12 AWG" },
      },
      gives: "wrongVoltage",
    },
    {
      title: "A machine that needs a neutral at a receptacle without one",
      input: {
        plate: { voltage: "240 V", neutral: true, current: "23 A" },
        system: "120/240 V",
        receptacle: { configuration: "6-30" },
        cord: { plug: "6-30", size: "10 AWG" },
      },
      gives: "noNeutral",
    },
    {
      title: "A plug too small for the machine",
      input: {
        plate: { voltage: "240 V", neutral: true, power: "9.6 kW" },
        system: "120/240 V",
        receptacle: { configuration: "14-30" },
        cord: { plug: "14-30", size: "8 AWG", strap: "removed" },
      },
      gives: "plugSmall",
    },
    {
      title: "Juniper Terrace, 208Y/120 V: a cord that would do on 120/240 V",
      input: {
        plate: { voltage: "208 V", neutral: true, current: "27 A" },
        system: "208Y/120 V",
        receptacle: { configuration: "14-30" },
        cord: { plug: "14-30", size: "10 AWG", strap: "removed" },
      },
      gives: "cordSmall",
    },
    {
      title: "A dishwasher's cord",
      input: {
        kind: "dishwasher",
        plate: { voltage: "120 V", current: "10 A" },
        system: "120/240 V",
        receptacle: { configuration: "5-15" },
        cord: { plug: "5-15", size: "14 AWG", length: "5 ft" },
      },
      gives: "lengthWithin",
    },
    {
      title: "A dishwasher's cord too long",
      input: {
        kind: "dishwasher",
        plate: { voltage: "120 V", current: "10 A" },
        system: "120/240 V",
        receptacle: { configuration: "5-15" },
        cord: { plug: "5-15", size: "14 AWG", length: "8 ft" },
      },
      gives: "cordLong",
    },
    {
      title: "A hood's cord too short",
      input: {
        kind: "hood",
        plate: { voltage: "120 V", current: "3 A" },
        system: "120/240 V",
        receptacle: { configuration: "5-15" },
        cord: { plug: "5-15", size: "16 AWG", length: "12 in" },
      },
      gives: "cordShort",
    },
    { title: "Plate not read", input: { receptacle: { configuration: "14-30" } }, gives: "plateUnknown" },
    { title: "System not known", input: { plate: { voltage: "240 V", neutral: true } }, gives: "systemUnknown" },
    {
      title: "A house on 230 V",
      input: {
        plate: { voltage: "230 V", power: "2.4 kW" },
        system: "230/400 V",
        receptacle: { standard: "CEE 7" },
        cord: { plugStandard: "CEE 7" },
      },
      at: { jurisdiction: { adopted: { iec60364: 2017 } } },
      gives: "socketFits",
    },
    {
      title: "A hungry machine at a 10 A socket",
      input: {
        plate: { voltage: "230 V", power: "2.8 kW" },
        system: "230/400 V",
        receptacle: { standard: "AS/NZS 3112, 10 A" },
        cord: { plugStandard: "AS/NZS 3112, 10 A" },
      },
      gives: "socketSmall",
    },
    {
      title: "A machine from over the sea",
      input: {
        plate: { voltage: "230 V", power: "2.4 kW" },
        system: "230/400 V",
        receptacle: { standard: "BS 1363" },
        cord: { plugStandard: "CEE 7" },
      },
      gives: "otherStandard",
    },
    {
      title: "A house on 230 V, socket not looked at",
      input: { plate: { voltage: "230 V", power: "2.4 kW" }, system: "230/400 V" },
      gives: "socketUnknown",
    },
    {
      title: "A cooktop on 400 V",
      input: { plate: { voltage: "400 V", neutral: true, power: "7.2 kW" }, system: "230/400 V" },
      gives: "elsewhere",
    },
    {
      title: "A system of this kind under another code",
      input: {
        plate: { voltage: "240 V", neutral: true, current: "23 A" },
        system: "120/240 V",
        circuit: { isNew: false, ground: false },
        receptacle: { configuration: "10-30" },
        cord: { plug: "10-30", size: "10 AWG", strap: "fitted" },
      },
      at: { jurisdiction: { adopted: { iec60364: 2017 } } },
      gives: "noCode",
    },
    {
      title: "Receptacle not identified",
      input: { plate: { voltage: "240 V", neutral: true }, system: "120/240 V" },
      gives: "receptacleUnknown",
    },
    {
      title: "No cord yet",
      input: {
        plate: { voltage: "240 V", neutral: true, current: "23 A" },
        system: "120/240 V",
        receptacle: { configuration: "14-30" },
      },
      gives: "cordUnknown",
    },
    {
      title: "Current not noted",
      input: {
        plate: { voltage: "240 V", neutral: true },
        system: "120/240 V",
        receptacle: { configuration: "14-30" },
        cord: { plug: "14-30", size: "10 AWG", strap: "removed" },
      },
      gives: "loadUnknown",
    },
    {
      title: "Cord's size not noted",
      input: {
        plate: { voltage: "240 V", neutral: true, current: "23 A" },
        system: "120/240 V",
        receptacle: { configuration: "14-30" },
        cord: { plug: "14-30", strap: "removed" },
      },
      gives: "cordSizeUnknown",
    },
    {
      title: "Three wires, nothing else known",
      input: {
        plate: { voltage: "240 V", neutral: true, current: "23 A" },
        system: "120/240 V",
        receptacle: { configuration: "10-30" },
        cord: { plug: "10-30", size: "10 AWG", strap: "fitted" },
      },
      gives: "circuitUnknown",
    },
    {
      title: "Three wires, the neutral not looked at",
      input: {
        plate: { voltage: "240 V", neutral: true, current: "23 A" },
        system: "120/240 V",
        circuit: { isNew: false, ground: false, metal: "copper" },
        receptacle: { configuration: "10-30" },
        cord: { plug: "10-30", size: "10 AWG", strap: "fitted" },
      },
      gives: "neutralUnknown",
    },
    {
      title: "Strap not looked at",
      input: {
        plate: { voltage: "240 V", neutral: true, current: "23 A" },
        system: "120/240 V",
        receptacle: { configuration: "14-30" },
        cord: { plug: "14-30", size: "10 AWG" },
      },
      gives: "strapUnknown",
    },
    {
      title: "A four-wire receptacle fitted on an old ungrounded box",
      input: {
        plate: { voltage: "240 V", neutral: true, current: "23 A" },
        system: "120/240 V",
        circuit: { isNew: false, ground: false },
        receptacle: { configuration: "14-30" },
        cord: { plug: "14-30", size: "10 AWG", strap: "removed" },
      },
      gives: "groundMissing",
    },
    {
      title: "A three-phase machine",
      input: { plate: { voltage: "208 V", phases: "three", neutral: false, power: "9 kW" }, system: "208Y/120 V" },
      gives: "threePhase",
    },
    {
      title: "A range wired in with four wires",
      input: {
        kind: "range",
        plate: { voltage: "240 V", neutral: true, power: "12 kW" },
        system: "120/240 V",
        circuit: { isNew: true, ground: true },
        cord: { strap: "removed" },
        hardWired: true,
      },
      gives: "wiredFour",
    },
    {
      title: "An oven for 240 V alone, wired in",
      input: {
        kind: "oven",
        plate: { voltage: "240 V", neutral: false, power: "4.8 kW" },
        system: "120/240 V",
        circuit: { isNew: false, ground: true },
        hardWired: true,
      },
      gives: "wiredGround",
    },
    {
      title: "The same on a box without a ground",
      input: {
        kind: "oven",
        plate: { voltage: "240 V", neutral: false, power: "4.8 kW" },
        system: "120/240 V",
        circuit: { isNew: false, ground: false },
        hardWired: true,
      },
      gives: "boxNoGround",
    },
  ],
  check({ kind, plate = {} as NonNullable<Input["plate"]>, system, circuit, receptacle, cord, hardWired }, ask) {
    const { all, assume, judge, limit, missing, rest, say, at } = ask;
    const rated = plate.voltage;
    if (rated === undefined) return missing(["plateUnknown"], ["plate", "voltage"]);
    if (system === undefined) return missing(["systemUnknown"], ["system"]);
    if (plate.phases === "three") return say("threePhase");
    if (system === "230/400 V" && !hardWired) return abroad();
    const works = worksWith(system, plate);
    if (works === undefined) return missing(["plateUnknown"], ["plate", "neutral"]);
    rest(plateBasis);
    if (hardWired) return wiredIn();
    const found = receptacle?.configuration;
    if (found === undefined) return missing(["receptacleUnknown"], ["receptacle", "configuration"]);
    const { contacts } = configurations[found];
    const plug = cord?.plug;

    const grounding = (): Outcome => {
      const named = { receptacle: found };
      const high = contacts === "LLG" || contacts === "LLN" || contacts === "LLNG";
      if (high !== (works !== "LN")) return say("wrongVoltage", { ...named, volts: rated });
      const shown = plug ?? found;
      if (works === "LN")
        return contacts === "LNG" ? say("lineAndNeutralFit", { plug: shown }) : say("noGround", named);
      if (works === "LL") {
        if (contacts === "LLN") return say("noGround", named);
        return contacts === "LLG" ? say("twoLinesFit", { plug: shown }) : say("neutralUnused", { plug: shown });
      }
      if (contacts === "LLG") return say("noNeutral", named);
      return contacts === "LLNG" ? all(say("fourWireFits", { plug: shown }), strapState("removed")) : threeWires();
    };

    // a ground contact with nothing behind it is worse than none: it is trusted
    const groundBehind = (): Outcome | undefined => {
      if (!contacts.includes("G")) return undefined;
      if (circuit?.ground === undefined) {
        assume("The receptacle's ground contact is taken to be joined to a ground; a tester shows it.");
      }
      return circuit?.ground === false ? say("groundMissing", { receptacle: found }) : undefined;
    };

    const mating = (): Outcome | undefined => {
      if (plug === undefined) return missing(["cordUnknown", { plug: found }], ["cord", "plug"]);
      return mates(plug, found) ? undefined : say("doesNotMate", { plug, receptacle: found });
    };

    const rating = (): Outcome | undefined => {
      if (plug === undefined) return undefined;
      const known = circuitLoad(kind, plate, at);
      if (known === undefined) return missing(["loadUnknown"], ["plate", "current"]);
      const { load, basis } = known;
      if (basis) rest(basis);
      const amps = brand<"current">(configurations[plug].amps);
      const slots = { plug, amps, load };
      const plugged = judge({
        kind: "current",
        measured: load,
        limit: amps,
        sense: "atMost",
        pass: ["plugEnough", slots],
        fail: ["plugSmall", slots],
      });
      const size = cord?.size;
      if (size === undefined) return all(plugged, missing(["cordSizeUnknown"], ["cord", "size"]));
      const carrying = works === "LLN" && system === "208Y/120 V" && contacts === "LLNG" ? 3 : 2;
      const carries = cordAmpacity(size, carrying)!;
      rest(
        necBasis(
          at,
          "Table 400.5(A)(1)",
          "seen",
          carrying === 3
            ? "Column A: on 208Y/120 V the neutral carries current too."
            : "Column B: two conductors carry current; a neutral with only the unbalance does not count.",
        ),
      );
      const cordSlots = { size, amps: carries, load };
      return all(
        plugged,
        judge({
          kind: "current",
          measured: load,
          limit: carries,
          sense: "atMost",
          pass: ["cordEnough", cordSlots],
          fail: ["cordSmall", cordSlots],
        }),
      );
    };

    const lengths = (): Outcome | undefined => {
      const length = cord?.length;
      if (kind === undefined || length === undefined) return undefined;
      const least = limit(cordLeast, "none", { kind });
      const most = limit(cordMost, "none", { kind });
      return all(
        least &&
          judge({
            kind: "length",
            measured: length,
            limit: least,
            pass: ["lengthWithin", { length }],
            fail: ["cordShort", { length, least: brand<"length">(least.value) }],
          }),
        most &&
          judge({
            kind: "length",
            measured: length,
            limit: most,
            pass: ["lengthWithin", { length }],
            fail: ["cordLong", { length, most: brand<"length">(most.value) }],
          }),
      );
    };

    return all(grounding(), groundBehind(), mating(), rating(), lengths());

    /** What the strap must be, by how the frame is grounded. */
    function strapState(wanted: "fitted" | "removed"): Outcome | undefined {
      if (cord === undefined && !hardWired) return undefined;
      const strap = cord?.strap;
      if (strap === undefined) return missing(["strapUnknown"], ["cord", "strap"]);
      if (wanted === "removed") return strap === "fitted" ? say("strapMustGo") : undefined;
      return strap === "fitted" ? undefined : say("strapMissing");
    }

    /** A 230 V machine at a socket of a national standard. */
    function abroad(): Outcome {
      if (belongsBetween("230/400 V", rated!) === "lines") return say("elsewhere");
      const socket = receptacle?.standard;
      const name = cord?.plugStandard;
      if (socket === undefined || name === undefined) {
        const unknown = [
          socket === undefined ? [["receptacle", "standard"]] : [],
          name === undefined ? [["cord", "plugStandard"]] : [],
        ];
        return missing(["socketUnknown"], ...unknown.flat());
      }
      const known = circuitLoad(kind, plate, at);
      if (known === undefined) return missing(["loadUnknown"], ["plate", "current"]);
      rest(socketBasis(name));
      const amps = brand<"current">(sockets[name].amps);
      const slots = { plug: name, amps, load: known.load };
      const rated230 = judge({
        kind: "current",
        measured: known.load,
        limit: amps,
        sense: "atMost",
        pass: ["socketFits", slots],
        fail: ["socketSmall", slots],
      });
      const goesIn = name === socket || socketAlsoTakes[socket] === name;
      return all(rated230, goesIn ? undefined : say("otherStandard", { plug: name, socket }));
    }

    /** A machine without plug: the same wires, landed in a box. */
    function wiredIn(): Outcome {
      const ground = circuit?.ground;
      if (ground === undefined) return missing(["circuitUnknown"], ["circuit", "ground"]);
      if (works === "LLN") return ground ? all(say("wiredFour"), strapState("removed")) : threeWires();
      return ground ? say("wiredGround") : say("boxNoGround");
    }

    /** Whether an old three-wire circuit may stay. */
    function threeWires(): Outcome {
      if (!underNec(at)) return say("noCode");
      const { isNew, ground, metal, neutral, wiring, startsAt } = circuit ?? ({} as NonNullable<Input["circuit"]>);
      if (isNew === undefined || (!isNew && ground === undefined)) {
        const unknown = [isNew === undefined ? ["isNew"] : [], ground === undefined ? ["ground"] : []].flat();
        return missing(["circuitUnknown"], ...unknown.map((name) => ["circuit", name]));
      }
      const asked = limit(fourWire, "none", isNew ? { circuit: "new" } : { circuit: "existing", ground: ground! });
      if (asked?.value === 1) return say(isNew ? "threeWireNew" : ground ? "threeWireGrounded" : "threeWireBarred");
      const covering = neutral?.covering;
      if (covering === "none") return say("neutralNone");
      const unknown = [
        metal === undefined ? [["circuit", "metal"]] : [],
        neutral?.size === undefined ? [["circuit", "neutral", "size"]] : [],
        covering === undefined ? [["circuit", "neutral", "covering"]] : [],
        covering === "bare" && wiring === undefined ? [["circuit", "wiring"]] : [],
        covering === "bare" && startsAt === undefined ? [["circuit", "startsAt"]] : [],
      ].flat();
      if (unknown.length > 0) return missing(["neutralUnknown"], ...unknown);
      const least = leastNeutral[metal!];
      const size = neutral!.size!;
      const small = compareConductors(size, least) < 0 && say("neutralSmall", { size, metal: metal!, least });
      rest(
        necBasis(
          at,
          "250.140",
          "secondary",
          "The neutral's least size; insulated, or bare in SE cable from the service.",
        ),
      );
      const bare = covering === "bare" && !bareAllowed(wiring === "SE", startsAt === "service") && say("neutralBare");
      if (small || bare) return all(small || undefined, bare || undefined);
      return all(say("threeWireStays"), strapState("fitted"));

      function bareAllowed(isServiceCable: boolean, fromService: boolean): boolean {
        if (isServiceCable && fromService) return true;
        return limit(coveredNeutral)?.value === 0 && neutral?.covered === true;
      }
    }
  },
  mend: proposals,
});

/** The conductors the machine works with; `undefined` where the plate leaves it open. */
function worksWith(system: System, { voltage, neutral }: NonNullable<Input["plate"]>): Works | undefined {
  if (belongsBetween(system, voltage!) === "neutral") return "LN";
  return neutral === undefined ? undefined : neutral ? "LLN" : "LL";
}

/** The smallest plug of a family that carries a load. */
function plugFor(works: Works, load: number): ConfigurationName | undefined {
  const family: readonly ConfigurationName[] = receptacleFamilies[works];
  return family.find((name) => configurations[name].amps >= load);
}

/** The smallest cord of the table that carries what a plug is good for. */
const cordFor = (amps: number, carrying: 2 | 3) =>
  cordRows.find((row) => (carrying === 3 ? row.three_A : row.two_A) >= amps)?.size;

function proposals({ kind, plate, system, circuit, receptacle, cord }: Input, at: At): Proposal<typeof remedies>[] {
  const offers: Proposal<typeof remedies>[] = [];
  const load = plate && circuitLoad(kind, plate, at)?.load;
  const works = plate?.voltage === undefined || system === undefined ? undefined : worksWith(system, plate);
  if (cord?.strap === "fitted" || cord?.strap === "removed") {
    const [value, what] = cord.strap === "fitted" ? (["removed", "Take off"] as const) : (["fitted", "Fit"] as const);
    offers.push({ change: [{ path: ["cord", "strap"], value }], say: ["straps", { what }] });
  }
  const found = receptacle?.configuration;
  if (load === undefined || works === undefined) return offers;
  const carrying = works === "LLN" && system === "208Y/120 V" ? 3 : 2;
  if (found !== undefined && cord?.plug !== undefined) {
    const size = cordFor(Math.max(load, configurations[found].amps), carrying) ?? cordFor(load, carrying);
    if (size !== undefined) {
      offers.push({
        change: [
          { path: ["cord", "plug"], value: found },
          { path: ["cord", "size"], value: size },
        ],
        say: ["otherCord", { plug: found, size }],
      });
    }
  }
  const plug = plugFor(works, load);
  if (works === "LLN" && plug !== undefined && circuit !== undefined && cord !== undefined) {
    const size = cordFor(configurations[plug].amps, carrying) ?? cordFor(load, carrying);
    offers.push({
      change: [
        { path: ["circuit", "isNew"], value: true },
        { path: ["circuit", "ground"], value: true },
        { path: ["receptacle", "configuration"], value: plug },
        { path: ["cord", "plug"], value: plug },
        { path: ["cord", "size"], value: size },
        { path: ["cord", "strap"], value: "removed" },
      ],
      say: ["fourWireCircuit", { plug }],
    });
  }
  return offers;
}
