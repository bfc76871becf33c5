import * as z from "zod";
import { brand, type Current } from "../core/quantity/index.js";
import { type At, defineRule, machineFacts, type Outcome, type Proposal, type Read } from "../core/rule/index.js";
import { necBasis, plateBasis, underNec } from "./basis.js";
import { circuitInput, circuitSizes, receptacleInput } from "./circuit.js";
import {
  type Ampacity,
  conductorAmpacity,
  mostOvercurrent,
  ratingAbove,
  ratingsIn,
  runOf,
  takenForGranted,
} from "./conductors.js";
import {
  laundryLeast,
  machineVoltageLeast,
  machineVoltageMost,
  ownCircuit,
  rangeLeast,
  sharedShare,
  unmarkedShare,
  unmarkedSmall,
} from "./limits.js";
import { circuitLoad } from "./load.js";
import { plateInput } from "./plate.js";
import { belongsBetween, nominalVoltage, systemInput } from "./system.js";
import { configurations } from "./tables/configurations.js";
import { severalReceptacles, unmarkedBound_A } from "./tables/receptacles.js";

export const circuitFoundInput = z.strictObject({
  kind: machineFacts.kind.optional(),
  plate: plateInput.optional().describe("What the machine's plate says of its electrics"),
  system: systemInput.optional(),
  circuit: circuitInput.optional().describe("The circuit from the panel to the receptacle"),
  receptacle: receptacleInput.optional().describe("The receptacle for the machine"),
  hardWired: z.boolean().optional().describe("Whether the machine is wired in without cord and plug"),
});

type Input = Read<z.output<typeof circuitFoundInput>>;
type Circuit = NonNullable<Input["circuit"]>;

/** The ampacity of a circuit's conductors as found; `undefined` where something is not known or has no value. */
function ampacityOf(circuit: Circuit, edition: number): Ampacity | undefined {
  const run = runOf(circuit, edition);
  return run && conductorAmpacity(run);
}

const governedBy: Record<Ampacity["governs"], string> = {
  insulation: "its insulation, corrected for heat and bundling",
  terminals: "the temperature of the terminals",
  cable: "the rule for its kind of cable",
};

const remedies = {
  otherBreaker: "Have the overcurrent device changed for one of {rating:current}.",
  twoPole: "Have the two breakers replaced by one two-pole breaker, or joined with a listed handle tie.",
  largerConductor: "Have the run replaced with {size:text} copper.",
  newCircuit: "Have a circuit of {rating:current} run in {size:text} copper.",
} as const;

/**
 * The circuit that is there serves the machine, and protects its own wire.
 *
 * A rule; its page is `docs/rules/electrical/circuit-found.md`.
 */
export const circuitFound = defineRule({
  id: "electrical/circuit-found",
  title: "The circuit that is there serves the machine, and protects its own wire",
  since: "0.1.0",
  input: circuitFoundInput,
  basis: [],
  limits: [
    machineVoltageLeast,
    machineVoltageMost,
    sharedShare,
    ownCircuit,
    laundryLeast,
    rangeLeast,
    unmarkedShare,
    unmarkedSmall,
  ],
  messages: {
    pass: {
      serves: "The {overcurrent:current} circuit serves the machine's {load:current}.",
      voltageSuits: "The circuit's {nominal:voltage} suits a machine made for {rated:voltage}.",
      protects: "The {overcurrent:current} device protects the {size:text} {metal:text} conductors.",
      carries: "The {size:text} {metal:text} conductors carry {ampacity:current}; the machine draws {load:current}.",
      notAboveMost: "The {overcurrent:current} device is no more than the {most:current} the machine allows.",
      largeEnough: "The {overcurrent:current} circuit is not below the {least:current} asked for.",
      receptacleFits: "The {amps:current} receptacle belongs on a {overcurrent:current} circuit.",
      shareWithin: "The machine takes {load:current} of a shared {overcurrent:current} circuit.",
    },
    fail: {
      voltageLow: "The circuit's {nominal:voltage} is too low for a machine made for {rated:voltage}.",
      voltageHigh: "The circuit's {nominal:voltage} is too high for a machine made for {rated:voltage}.",
      onePole: "A 240 V or 208 V machine needs both lines opened; this device opens one.",
      notThreePole: "A three-phase machine needs all three lines opened at once, by a three-pole device.",
      noThreePhase: "A three-phase machine cannot run on a 120/240 V single-phase supply.",
      notTied: "The two breakers of this circuit open one at a time; they must be tied or a two-pole one.",
      tooSmall: "The {overcurrent:current} circuit is too small: the machine asks for {need:current}.",
      overfused:
        "The {overcurrent:current} device does not protect the {size:text} {metal:text} conductors, which may have at most {most:current}. Do not use this circuit until it is put right.",
      conductorSmall:
        "The {size:text} {metal:text} conductors carry {ampacity:current}, decided by {governs:text}; the machine draws {load:current}.",
      aboveMost: "The {overcurrent:current} device is larger than the {most:current} the machine allows.",
      belowLeast: "The {overcurrent:current} circuit is below the {least:current} asked for.",
      receptacleSmall: "The {amps:current} receptacle does not belong on a {overcurrent:current} circuit.",
      mustBeAlone: "This machine must have a circuit of its own; this one serves other things too.",
      shouldBeAlone: "A 240 V machine should have a circuit of its own; this one serves other things too.",
      shareLarge:
        "The machine takes {load:current} of a shared {overcurrent:current} circuit, more than {most:current}.",
      deviceNotForAluminum: "The conductors are aluminum and the receptacle is not marked for it.",
    },
    review: {
      plateUnknown: "The machine's voltage, and its current or power, were not noted from its plate.",
      systemUnknown: "The supply system of the building is not known.",
      noCode: "The code adopted here has no ampacity table for these conductors; ask an electrician.",
      overcurrentUnknown: "The rating of the breaker or fuse was not read.",
      deviceUnknown: "Whether the breaker opens both lines was not noted.",
      conductorUnknown: "The size, metal and kind of the conductors were not read.",
      noAmpacity: "The ampacity table has no value for {size:text} {metal:text} run like this.",
      sharingUnknown: "Whether the circuit serves anything else was not looked at.",
      receptacleUnknown: "The receptacle was not identified.",
      aluminumUnknown: "The conductors are aluminum; whether the receptacle is marked for it was not looked at.",
    },
  },
  remedies,
  cautions: ["mains", "deferral"],
  examples: [
    {
      title: "Alder Row, laundry: the dryer's circuit",
      input: {
        kind: "dryer",
        plate: { voltage: "240 V", neutral: true, current: "23 A" },
        system: "120/240 V",
        circuit: {
          overcurrent: "30 A",
          device: "2-pole breaker",
          individual: true,
          isNew: true,
          size: "10 AWG",
          metal: "copper",
          wiring: "NM-B",
          terminals: "60 °C",
          ambient: "30 °C",
          carrying: 2,
        },
        receptacle: { configuration: "14-30", count: "single" },
      },
      gives: "serves",
    },
    ...(
      [
        ["voltageSuits", "The same, its voltage"],
        ["protects", "The same, breaker against wire"],
        ["carries", "The same, wire against load"],
        ["receptacleFits", "The same, its receptacle"],
        ["notAboveMost", "The same, against the largest breaker that the plate allows"],
      ] as const
    ).map(([gives, title]) => ({
      title,
      input: {
        kind: "dryer" as const,
        plate: { voltage: "240 V", neutral: true, current: "23 A", mostOvercurrent: "30 A" },
        system: "120/240 V" as const,
        circuit: {
          overcurrent: "30 A",
          device: "2-pole breaker" as const,
          individual: true,
          size: "10 AWG" as const,
          metal: "copper" as const,
          wiring: "NM-B" as const,
        },
        receptacle: { configuration: "14-30" as const, count: "single" as const },
      },
      gives,
    })),
    {
      title: "Number 9 Alder Row: 12 AWG wire behind a 30 A breaker",
      input: {
        kind: "dryer",
        plate: { voltage: "240 V", neutral: true, current: "18 A" },
        system: "120/240 V",
        circuit: {
          overcurrent: "30 A",
          device: "2-pole breaker",
          individual: true,
          size: "12 AWG",
          metal: "copper",
          wiring: "NM-B",
        },
        receptacle: { configuration: "14-30", count: "single" },
      },
      gives: "overfused",
    },
    {
      title: "Aluminum of the 1970s behind a dryer",
      input: {
        kind: "dryer",
        plate: { voltage: "240 V", neutral: true, current: "23 A" },
        system: "120/240 V",
        circuit: {
          overcurrent: "25 A",
          device: "2-pole breaker",
          individual: true,
          size: "10 AWG",
          metal: "aluminum",
          wiring: "NM",
        },
        receptacle: { configuration: "14-30", count: "single", aluminumRated: false },
      },
      gives: "deviceNotForAluminum",
    },
    {
      title: "The same, the receptacle not looked at",
      input: {
        kind: "dryer",
        plate: { voltage: "240 V", neutral: true, current: "23 A" },
        system: "120/240 V",
        circuit: {
          overcurrent: "25 A",
          device: "2-pole breaker",
          individual: true,
          size: "10 AWG",
          metal: "aluminum",
          wiring: "NM",
        },
        receptacle: { configuration: "14-30", count: "single" },
      },
      gives: "aluminumUnknown",
    },
    {
      title: "A 20 A circuit for a 23 A dryer",
      input: {
        kind: "dryer",
        plate: { voltage: "240 V", neutral: true, current: "23 A" },
        system: "120/240 V",
        circuit: {
          overcurrent: "20 A",
          device: "2-pole breaker",
          individual: true,
          size: "12 AWG",
          metal: "copper",
          wiring: "NM-B",
        },
        receptacle: { configuration: "14-30", count: "single" },
      },
      gives: "tooSmall",
    },
    {
      title: "Good wire in a hot attic among others",
      input: {
        kind: "dryer",
        plate: { voltage: "240 V", neutral: true, current: "23 A" },
        system: "120/240 V",
        circuit: {
          overcurrent: "25 A",
          device: "2-pole breaker",
          individual: true,
          size: "10 AWG",
          metal: "copper",
          wiring: "THHN",
          ambient: "125 °F",
          carrying: 8,
        },
        receptacle: { configuration: "14-30", count: "single" },
      },
      gives: "conductorSmall",
    },
    {
      title: "Two breakers that open one at a time",
      input: {
        kind: "dryer",
        plate: { voltage: "240 V", neutral: true, current: "23 A" },
        system: "120/240 V",
        circuit: {
          overcurrent: "30 A",
          device: "two 1-pole breakers, not tied",
          individual: true,
          size: "10 AWG",
          metal: "copper",
          wiring: "NM-B",
        },
        receptacle: { configuration: "14-30", count: "single" },
      },
      gives: "notTied",
    },
    {
      title: "One fuse for a machine on two lines",
      input: {
        kind: "dryer",
        plate: { voltage: "240 V", neutral: true, current: "23 A" },
        system: "120/240 V",
        circuit: { overcurrent: "30 A", device: "1 fuse", individual: true },
      },
      gives: "onePole",
    },
    {
      title: "A three-phase oven behind a two-pole breaker",
      input: {
        kind: "oven",
        plate: { voltage: "208 V", neutral: false, power: "9 kW", phases: "three" },
        system: "208Y/120 V",
        circuit: { overcurrent: "30 A", device: "2-pole breaker", individual: true },
        hardWired: true,
      },
      gives: "notThreePole",
    },
    {
      title: "A three-phase oven in a house",
      input: {
        kind: "oven",
        plate: { voltage: "240 V", neutral: false, power: "9 kW", phases: "three" },
        system: "120/240 V",
        circuit: { overcurrent: "30 A", device: "3-pole breaker", individual: true },
        hardWired: true,
      },
      gives: "noThreePhase",
    },
    {
      title: "Juniper Terrace, 208 V: a machine for 240 V alone",
      input: {
        kind: "dryer",
        plate: { voltage: "240 V", neutral: true, current: "23 A" },
        system: "208Y/120 V",
        circuit: { overcurrent: "30 A", device: "2-pole breaker", individual: true },
      },
      gives: "voltageLow",
    },
    {
      title: "A machine for 208 V alone on 240 V",
      input: { plate: { voltage: "208 V", neutral: true, current: "23 A" }, system: "120/240 V" },
      gives: "voltageHigh",
    },
    {
      title: "A machine that states a smaller largest breaker",
      input: {
        kind: "cooktop",
        plate: { voltage: "240 V", neutral: false, current: "14 A", mostOvercurrent: "20 A" },
        system: "120/240 V",
        circuit: {
          overcurrent: "30 A",
          device: "2-pole breaker",
          individual: true,
          size: "10 AWG",
          metal: "copper",
          wiring: "NM-B",
        },
        hardWired: true,
      },
      gives: "aboveMost",
    },
    {
      title: "A 12 kW range on its 40 A circuit",
      input: {
        kind: "range",
        plate: { voltage: "240 V", neutral: true, power: "12 kW" },
        system: "120/240 V",
        circuit: {
          overcurrent: "40 A",
          device: "2-pole breaker",
          individual: true,
          size: "8 AWG",
          metal: "copper",
          wiring: "NM-B",
        },
        receptacle: { configuration: "14-50", count: "single" },
      },
      gives: "largeEnough",
    },
    {
      title: "A 9 kW range on a 35 A circuit",
      input: {
        kind: "range",
        plate: { voltage: "240 V", neutral: true, power: "9 kW" },
        system: "120/240 V",
        circuit: {
          overcurrent: "35 A",
          device: "2-pole breaker",
          individual: true,
          size: "8 AWG",
          metal: "copper",
          wiring: "NM-B",
        },
        receptacle: { configuration: "14-50", count: "single" },
      },
      gives: "belowLeast",
    },
    {
      title: "A dryer receptacle on a 50 A circuit",
      input: {
        kind: "dryer",
        plate: { voltage: "240 V", neutral: true, current: "23 A" },
        system: "120/240 V",
        circuit: {
          overcurrent: "50 A",
          device: "2-pole breaker",
          individual: true,
          size: "6 AWG",
          metal: "copper",
          wiring: "NM-B",
        },
        receptacle: { configuration: "14-30", count: "single" },
      },
      gives: "receptacleSmall",
    },
    {
      title: "A dryer sharing its circuit",
      input: {
        kind: "dryer",
        plate: { voltage: "240 V", neutral: true, current: "23 A" },
        system: "120/240 V",
        circuit: {
          overcurrent: "30 A",
          device: "2-pole breaker",
          individual: false,
          size: "10 AWG",
          metal: "copper",
          wiring: "NM-B",
        },
        receptacle: { configuration: "14-30", count: "several" },
      },
      gives: "shouldBeAlone",
    },
    {
      title: "A hood on the kitchen's countertop circuit",
      input: {
        kind: "hood",
        plate: { voltage: "120 V", current: "3 A" },
        system: "120/240 V",
        circuit: {
          overcurrent: "20 A",
          device: "1-pole breaker",
          individual: false,
          size: "12 AWG",
          metal: "copper",
          wiring: "NM-B",
        },
        receptacle: { configuration: "5-20", count: "several" },
      },
      gives: "mustBeAlone",
    },
    {
      title: "A gas dryer and a washer on one laundry circuit",
      input: {
        kind: "dryer",
        plate: { voltage: "120 V", current: "6 A" },
        system: "120/240 V",
        circuit: {
          overcurrent: "20 A",
          device: "1-pole breaker",
          individual: false,
          size: "12 AWG",
          metal: "copper",
          wiring: "NM-B",
        },
        receptacle: { configuration: "5-15", count: "duplex" },
      },
      gives: "shareWithin",
    },
    {
      title: "A hungry machine on a shared 15 A circuit",
      input: {
        kind: "dishwasher",
        plate: { voltage: "120 V", current: "13 A" },
        system: "120/240 V",
        circuit: {
          overcurrent: "15 A",
          device: "1-pole breaker",
          individual: false,
          size: "14 AWG",
          metal: "copper",
          wiring: "NM-B",
        },
        receptacle: { configuration: "5-15", count: "duplex" },
      },
      gives: "shareLarge",
    },
    { title: "Plate not read", input: { system: "120/240 V" }, gives: "plateUnknown" },
    { title: "System not known", input: { plate: { voltage: "240 V", current: "23 A" } }, gives: "systemUnknown" },
    {
      title: "A house under another code",
      input: { plate: { voltage: "230 V", current: "10 A" }, system: "230/400 V" },
      at: { jurisdiction: { adopted: { iec60364: 2017 } } },
      gives: "noCode",
    },
    {
      title: "Breaker not read",
      input: { plate: { voltage: "240 V", current: "23 A" }, system: "120/240 V" },
      gives: "overcurrentUnknown",
    },
    {
      title: "Poles not noted",
      input: {
        plate: { voltage: "240 V", current: "23 A" },
        system: "120/240 V",
        circuit: { overcurrent: "30 A" },
      },
      gives: "deviceUnknown",
    },
    {
      title: "Conductors not read",
      input: {
        plate: { voltage: "240 V", current: "23 A" },
        system: "120/240 V",
        circuit: { overcurrent: "30 A", device: "2-pole breaker" },
      },
      gives: "conductorUnknown",
    },
    {
      title: "A size the table lacks",
      input: {
        plate: { voltage: "240 V", current: "12 A" },
        system: "120/240 V",
        circuit: {
          overcurrent: "15 A",
          device: "2-pole breaker",
          individual: true,
          size: "14 AWG",
          metal: "aluminum",
          wiring: "NM",
        },
        hardWired: true,
      },
      gives: "noAmpacity",
    },
    {
      title: "Sharing not looked at",
      input: {
        plate: { voltage: "240 V", current: "23 A" },
        system: "120/240 V",
        circuit: { overcurrent: "30 A", device: "2-pole breaker", size: "10 AWG", metal: "copper", wiring: "NM-B" },
        hardWired: true,
      },
      gives: "sharingUnknown",
    },
    {
      title: "Receptacle not identified",
      input: {
        plate: { voltage: "240 V", current: "23 A" },
        system: "120/240 V",
        circuit: {
          overcurrent: "30 A",
          device: "2-pole breaker",
          individual: true,
          size: "10 AWG",
          metal: "copper",
          wiring: "NM-B",
        },
      },
      gives: "receptacleUnknown",
    },
  ],
  check(input, ask) {
    const { kind, plate, system, circuit = {} as Circuit, receptacle, hardWired } = input;
    const { all, assume, at, formula, judge, limit, missing, rest, say } = ask;
    const rated = plate?.voltage;
    const known = plate && circuitLoad(kind, plate, at);
    if (plate === undefined || rated === undefined || known === undefined) {
      const unknown = [rated === undefined ? ["voltage"] : [], known === undefined ? ["current"] : []].flat();
      return missing(["plateUnknown"], ...unknown.map((name) => ["plate", name]));
    }
    if (system === undefined) return missing(["systemUnknown"], ["system"]);
    if (!underNec(at) || system === "230/400 V") return say("noCode");
    rest(plateBasis);
    const edition = at.adopted.nec!;
    const between = belongsBetween(system, rated);
    const nominal = nominalVoltage(system, between);
    const { load, basis, isLargeRange } = known;
    if (basis) rest(basis);
    if (plate.current === undefined && kind !== "range" && plate.phases !== "three") {
      formula("{load:current} = {power:power} / {voltage:voltage}", { load, power: plate.power!, voltage: rated });
    }
    const need = brand<"current">(Math.max(load, plate.leastCircuit ?? 0));

    const voltage = (): Outcome => {
      const low = judge({
        kind: "voltage",
        measured: nominal,
        limit: limit(machineVoltageLeast)!.value * rated,
        sense: "atLeast",
        pass: ["voltageSuits", { nominal, rated }],
        fail: ["voltageLow", { nominal, rated }],
      });
      const high = judge({
        kind: "voltage",
        measured: nominal,
        limit: limit(machineVoltageMost)!.value * rated,
        sense: "atMost",
        pass: ["voltageSuits", { nominal, rated }],
        fail: ["voltageHigh", { nominal, rated }],
      });
      return low.some(({ verdict }) => verdict !== "pass") ? low : high;
    };

    const overcurrent = circuit.overcurrent;
    if (overcurrent === undefined) return all(voltage(), missing(["overcurrentUnknown"], ["circuit", "overcurrent"]));

    const serving = (): Outcome =>
      judge({
        kind: "current",
        measured: overcurrent,
        limit: need,
        sense: "atLeast",
        pass: ["serves", { overcurrent, load }],
        fail: ["tooSmall", { overcurrent, need }],
      });

    const poles = (): Outcome | undefined => {
      if (between === "neutral") return undefined;
      if (plate.phases === "three" && system === "120/240 V") return say("noThreePhase");
      const { device } = circuit;
      if (device === undefined) return missing(["deviceUnknown"], ["circuit", "device"]);
      rest(
        necBasis(
          at,
          "240.15(B)(2)",
          "secondary",
          "Both lines of a machine are opened together: a two-pole breaker, or two tied.",
        ),
      );
      if (plate.phases === "three") return device === "3-pole breaker" ? undefined : say("notThreePole");
      if (device === "two 1-pole breakers, not tied") return say("notTied");
      return device === "1-pole breaker" || device === "1 fuse" ? say("onePole") : undefined;
    };

    const conductors = (): Outcome => {
      const { size, metal, wiring } = circuit;
      if (size === undefined || metal === undefined || wiring === undefined) {
        const unknown = Object.entries({ size, metal, wiring }).filter(([, value]) => value === undefined);
        return missing(["conductorUnknown"], ...unknown.map(([name]) => ["circuit", name]));
      }
      const found = ampacityOf(circuit, edition);
      if (!found) return say("noAmpacity", { size, metal });
      for (const taken of takenForGranted(circuit)) assume(taken);
      const table = edition >= 2020 ? "Table 310.16" : "Table 310.15(B)(16)";
      rest(necBasis(at, table, "seen", `${size} ${metal}, ${wiring}: ${found.table} A before any correction.`));
      const { corrected, ampacity, ambient, bundle } = found;
      formula("{corrected:current} = {table:current} * {ambient:ratio} * {bundle:ratio}", {
        corrected,
        table: found.table,
        ambient: brand<"ratio">(ambient),
        bundle: brand<"ratio">(bundle),
      });
      // a circuit of several receptacles may not round up to the next standard rating
      const nextUp = circuit.individual !== false && receptacle?.count !== "several";
      const most = mostOvercurrent(ampacity, size, metal, nextUp, edition);
      rest(necBasis(at, "240.4(B), 240.4(D)", "seen", "What may protect a conductor."));
      return all(
        judge({
          kind: "current",
          measured: overcurrent,
          limit: most,
          sense: "atMost",
          pass: ["protects", { overcurrent, size, metal }],
          fail: ["overfused", { overcurrent, size, metal, most }],
        }),
        judge({
          kind: "current",
          measured: ampacity,
          limit: load,
          sense: "atLeast",
          pass: ["carries", { size, metal, ampacity, load }],
          fail: ["conductorSmall", { size, metal, ampacity, load, governs: governedBy[found.governs] }],
        }),
      );
    };

    const most = (): Outcome | undefined => {
      const stated = plate.mostOvercurrent ?? mostUnmarked();
      if (stated === undefined) return undefined;
      return judge({
        kind: "current",
        measured: overcurrent,
        limit: stated,
        sense: "atMost",
        pass: ["notAboveMost", { overcurrent, most: stated }],
        fail: ["aboveMost", { overcurrent, most: stated }],
      });
    };

    const mostUnmarked = (): Current | undefined => {
      if (kind !== "oven" && kind !== "cooktop" && kind !== "range") return undefined;
      const drawn = plate.current ?? load;
      if (drawn <= unmarkedBound_A) {
        const small = limit(unmarkedSmall);
        return small && brand<"current">(small.value);
      }
      const share = limit(unmarkedShare);
      return share && ratingAbove(brand<"current">(share.value * drawn), edition);
    };

    const least = (): Outcome | undefined => {
      const laundry = kind === "washer" || kind === "stack" || kind === "dryer";
      const asked =
        isLargeRange || !laundry || between === "lines" || circuit.isNew !== true ? undefined : limit(laundryLeast);
      const governing = isLargeRange ? limit(rangeLeast) : asked;
      if (!governing) return undefined;
      const slots = { overcurrent, least: brand<"current">(governing.value) };
      return judge({
        kind: "current",
        measured: overcurrent,
        limit: governing,
        pass: ["largeEnough", slots],
        fail: ["belowLeast", slots],
      });
    };

    const sharing = (): Outcome | undefined => {
      const { individual } = circuit;
      if (individual === undefined) return missing(["sharingUnknown"], ["circuit", "individual"]);
      if (individual) return undefined;
      const alone = limit(ownCircuit, "none", { between, ...(kind === undefined ? {} : { kind }) });
      if (alone?.value === 1) return say(alone.origin === "practice" ? "shouldBeAlone" : "mustBeAlone");
      const share = limit(sharedShare);
      if (!share || hardWired) return undefined;
      const allowed = brand<"current">(share.value * overcurrent);
      return judge({
        kind: "current",
        measured: load,
        limit: allowed,
        sense: "atMost",
        pass: ["shareWithin", { load, overcurrent }],
        fail: ["shareLarge", { load, overcurrent, most: allowed }],
      });
    };

    const outlet = (): Outcome | undefined => {
      if (hardWired) return undefined;
      const configuration = receptacle?.configuration;
      if (configuration === undefined) return missing(["receptacleUnknown"], ["receptacle", "configuration"]);
      const amps = brand<"current">(configurations[configuration].amps);
      const slots = { amps, overcurrent };
      const several = circuit.individual === false || receptacle?.count === "several" || receptacle?.count === "duplex";
      rest(
        several
          ? necBasis(at, "Table 210.21(B)(3)", "seen", "Receptacles on a circuit with more than one of them.")
          : necBasis(
              at,
              "210.21(B)(1)",
              "seen",
              "A single receptacle on its own circuit is rated no less than the circuit.",
            ),
      );
      const rated = several
        ? say(severalReceptacles(overcurrent).includes(amps) ? "receptacleFits" : "receptacleSmall", slots)
        : judge({
            kind: "current",
            measured: amps,
            limit: overcurrent,
            sense: "atLeast",
            pass: ["receptacleFits", slots],
            fail: ["receptacleSmall", slots],
          });
      if (circuit.metal !== "aluminum") return rated;
      const marked = receptacle?.aluminumRated;
      if (marked === undefined) return all(rated, missing(["aluminumUnknown"], ["receptacle", "aluminumRated"]));
      return all(rated, marked ? undefined : say("deviceNotForAluminum"));
    };

    return all(serving(), voltage(), poles(), conductors(), most(), least(), sharing(), outlet());
  },
  mend: offers,
});

function offers({ kind, plate, circuit, receptacle, hardWired }: Input, at: At): Proposal<typeof remedies>[] {
  const known = plate && circuitLoad(kind, plate, at);
  const edition = at.adopted.nec;
  if (!known || !circuit || edition === undefined) return [];
  const proposals: Proposal<typeof remedies>[] = [];
  if (circuit.device === "two 1-pole breakers, not tied") {
    proposals.push({ change: [{ path: ["circuit", "device"], value: "2-pole breaker" }], say: ["twoPole"] });
  }
  const least = Math.max(known.load, plate.leastCircuit ?? 0);
  const amps = receptacle?.configuration && !hardWired ? configurations[receptacle.configuration].amps : undefined;
  const ratings = ratingsIn(edition).filter((rating) => rating >= least && rating <= Math.max(2 * least, 20));
  // the rating of the receptacle first, for then the receptacle can stay
  const ordered = amps === undefined ? ratings : ratings.toSorted((a, b) => Math.abs(a - amps) - Math.abs(b - amps));
  for (const rating of ordered.slice(0, 3)) {
    const value = brand<"current">(rating);
    const change = { path: ["circuit", "overcurrent"], value, unit: "A" as const };
    if (rating !== circuit.overcurrent) proposals.push({ change: [change], say: ["otherBreaker", { rating: value }] });
  }
  const sizes = circuitSizes.filter((size) => conductorFits(size, circuit, least, edition));
  const size = sizes[0];
  if (size === undefined) return proposals;
  const conductor = [
    { path: ["circuit", "size"], value: size },
    { path: ["circuit", "metal"], value: "copper" },
  ];
  proposals.push({ change: conductor, say: ["largerConductor", { size }] });
  for (const rating of ordered.slice(0, 3)) {
    const value = brand<"current">(rating);
    const wired = circuitSizes.find((one) => conductorFits(one, { ...circuit, overcurrent: value }, least, edition));
    if (wired === undefined) continue;
    proposals.push({
      change: [
        { path: ["circuit", "overcurrent"], value, unit: "A" },
        { path: ["circuit", "size"], value: wired },
        { path: ["circuit", "metal"], value: "copper" },
        { path: ["circuit", "individual"], value: true },
      ],
      say: ["newCircuit", { rating: value, size: wired }],
    });
  }
  return proposals;
}

/** Whether copper of a size, run the same way, carries the load and is protected by the device that is there. */
function conductorFits(size: NonNullable<Circuit["size"]>, circuit: Circuit, load: number, edition: number): boolean {
  const found = ampacityOf({ ...circuit, size, metal: "copper" }, edition);
  if (!found || found.ampacity < load || circuit.overcurrent === undefined) return false;
  const nextUp = circuit.individual !== false;
  return circuit.overcurrent <= mostOvercurrent(found.ampacity, size, "copper", nextUp, edition);
}
