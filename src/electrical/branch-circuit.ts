import * as z from "zod";
import { brand, type ConductorSize, type Current, compareConductors, type Power, si } from "../core/quantity/index.js";
import { defineCalculator, machineFacts } from "../core/rule/index.js";
import { necBasis, plateBasis } from "./basis.js";
import { type Circuit, circuitInput, circuitSizes } from "./circuit.js";
import {
  type Ampacity,
  conductorAmpacity,
  mostOvercurrent,
  ratingAbove,
  runOf,
  takenForGranted,
} from "./conductors.js";
import { enlargedGround, groundFor } from "./grounding.js";
import { laundryLeast, rangeLeast, unmarkedShare, unmarkedSmall } from "./limits.js";
import { continuousShare, motorShare, rangeNeutral, usualDryer } from "./limits-branch.js";
import { branchDrop } from "./limits-drop.js";
import { circuitLoad } from "./load.js";
import { lineCurrent, plateInput } from "./plate.js";
import { voltageDropOf } from "./resistance.js";
import { impedanceOf, runInput, runTaken } from "./run.js";
import { belongsBetween, nominalVoltage, systemInput } from "./system.js";
import { configurations } from "./tables/configurations.js";
import { receptacleFamilies, unmarkedBound_A } from "./tables/receptacles.js";

export const branchCircuitInput = z.strictObject({
  kind: machineFacts.kind.optional(),
  plate: plateInput.optional().describe("What the machine's plate says of its electrics"),
  system: systemInput.optional(),
  circuit: circuitInput
    .optional()
    .describe("How the new circuit is to be run; its breaker and size are what is worked out here"),
  run: runInput.optional().describe("Make-up and surroundings of the run's conductors"),
  continuous: z
    .boolean()
    .optional()
    .describe("Whether the machine draws its full current for three hours or more; household machines cycle"),
});

type Size = NonNullable<Circuit["size"]>;

/** Why a step asked for the size that was chosen. */
const reasons = {
  load: "the load",
  protection: "the overcurrent device",
  terminals: "the load at the temperature of the terminals",
  drop: "the voltage lost over the length",
} as const;
type Reason = keyof typeof reasons;

/**
 * A complete circuit for the machine, from its load to its receptacle.
 *
 * A calculator; its page is `docs/rules/electrical/branch-circuit.md`.
 */
export const branchCircuit = defineCalculator({
  id: "electrical/branch-circuit",
  title: "A complete circuit for the machine, from its load to its receptacle",
  since: "0.1.0",
  input: branchCircuitInput,
  outputs: {
    load: { kind: "current", what: "Load" },
    need: { kind: "current", what: "Least circuit" },
    overcurrent: { kind: "current", what: "Breaker or fuses" },
    most: { kind: "current", what: "Largest device that the machine allows" },
    size: { kind: "text", what: "Line conductors" },
    governs: { kind: "text", what: "Their size was decided by" },
    ampacity: { kind: "current", what: "Ampacity as run" },
    ground: { kind: "text", what: "Equipment grounding conductor" },
    neutral: { kind: "text", what: "Neutral" },
    receptacle: { kind: "text", what: "Receptacle" },
    drop: { kind: "voltage", what: "Voltage lost" },
    share: { kind: "ratio", what: "Share of the nominal voltage" },
  },
  basis: [plateBasis],
  limits: [
    continuousShare,
    motorShare,
    rangeNeutral,
    usualDryer,
    branchDrop,
    laundryLeast,
    rangeLeast,
    unmarkedShare,
    unmarkedSmall,
  ],
  messages: {
    missing: {
      loadUnknown: "The machine's voltage, and its current or power, are needed from its plate.",
      systemUnknown: "The supply system of the building is not known.",
      wiringUnknown: "The cable type or insulation for the new circuit is needed.",
      neutralUnknown: "Whether the machine needs a neutral is needed from its plate.",
    },
    impossible: {
      noCode: "This way of sizing belongs to the National Electrical Code, which is not adopted here.",
      elsewhere: "Conductors in gauge sizes are not used on a 230 V system; give the circuit to a designer there.",
      aboveMost: "The machine asks for {need:current} and allows at most {most:current}; look at the plate again.",
      noSize: "No size of the table carries this as it is run; part the conductors or run them cooler.",
    },
  },
  cautions: ["mains", "deferral"],
  examples: [
    {
      title: "Alder Row: a new circuit for a 5.6 kW dryer",
      input: {
        kind: "dryer",
        plate: { voltage: "240 V", neutral: true, power: "5.6 kW" },
        system: "120/240 V",
        circuit: {
          metal: "copper",
          wiring: "NM-B",
          terminals: "60 °C",
          ambient: "30 °C",
          carrying: 2,
          length: "40 ft",
        },
      },
      gives: "computed",
    },
    {
      title: "Number 21 Alder Row: a long run that needs a larger conductor",
      input: {
        kind: "dryer",
        plate: { voltage: "240 V", neutral: true, power: "5.6 kW" },
        system: "120/240 V",
        circuit: { metal: "copper", wiring: "NM-B", length: "165 ft" },
      },
      gives: "computed",
    },
    {
      title: "A 12 kW range on aluminum SE cable",
      input: {
        kind: "range",
        plate: { voltage: "240 V", neutral: true, power: "12 kW" },
        system: "120/240 V",
        circuit: { metal: "aluminum", wiring: "SE", terminals: "75 °C" },
      },
      gives: "computed",
    },
    {
      title: "A washer's circuit",
      input: {
        kind: "washer",
        plate: { voltage: "120 V", current: "10 A" },
        system: "120/240 V",
        circuit: { wiring: "NM-B" },
      },
      gives: "computed",
    },
    {
      title: "Motor and element given apart",
      input: {
        kind: "dryer",
        plate: { voltage: "240 V", neutral: true, element: "5.2 kW", motor: "4 A" },
        system: "120/240 V",
        circuit: { wiring: "NM-B" },
      },
      gives: "computed",
    },
    {
      title: "A load that runs for hours, in a hot attic among others",
      input: {
        plate: { voltage: "240 V", neutral: false, power: "4.5 kW" },
        system: "120/240 V",
        circuit: { wiring: "THWN-2", terminals: "75 °C", ambient: "50 °C", carrying: 6 },
        continuous: true,
      },
      gives: "computed",
    },
    { title: "Plate not read", input: { system: "120/240 V" }, gives: "loadUnknown" },
    { title: "System not known", input: { plate: { voltage: "240 V", power: "5.6 kW" } }, gives: "systemUnknown" },
    {
      title: "Wiring not chosen",
      input: { plate: { voltage: "240 V", power: "5.6 kW", neutral: true }, system: "120/240 V" },
      gives: "wiringUnknown",
    },
    {
      title: "Neutral not known",
      input: { plate: { voltage: "240 V", power: "5.6 kW" }, system: "120/240 V", circuit: { wiring: "NM-B" } },
      gives: "neutralUnknown",
    },
    {
      title: "A plate that contradicts itself",
      input: {
        plate: { voltage: "240 V", neutral: true, power: "5.6 kW", mostOvercurrent: "20 A" },
        system: "120/240 V",
        circuit: { wiring: "NM-B" },
      },
      gives: "aboveMost",
    },
    {
      title: "Far too many conductors in far too hot a place",
      input: {
        plate: { voltage: "240 V", neutral: true, power: "40 kW" },
        system: "120/240 V",
        circuit: { wiring: "TW", ambient: "54 °C", carrying: 50 },
      },
      gives: "noSize",
    },
    {
      title: "A house on 230 V",
      input: { plate: { voltage: "230 V", power: "2.4 kW" }, system: "230/400 V" },
      gives: "elsewhere",
    },
    {
      title: "A building under another code",
      input: { plate: { voltage: "240 V", power: "5.6 kW" }, system: "120/240 V" },
      at: { jurisdiction: { adopted: { iec60364: 2017 } } },
      gives: "noCode",
    },
  ],
  compute(input, { assume, at, formula, impossible, limit, missing, rest }) {
    const { kind, plate, system, circuit = {} as Circuit, run = {} as NonNullable<typeof input.run> } = input;
    const edition = at.adopted.nec;
    if (edition === undefined) return impossible(["noCode"]);
    const rated = plate?.voltage;
    if (plate === undefined || rated === undefined) return missing(["loadUnknown"], ["plate", "voltage"]);
    const phases = plate.phases ?? "one";
    const parts = motorAndElement();
    const known = circuitLoad(kind, plate, at);
    const load = known?.load ?? parts?.load;
    if (load === undefined) return missing(["loadUnknown"], ["plate", "current"], ["plate", "power"]);
    if (system === undefined) return missing(["systemUnknown"], ["system"]);
    if (system === "230/400 V") return impossible(["elsewhere"]);
    const between = belongsBetween(system, rated);
    const { wiring, metal = "copper" } = circuit;
    if (wiring === undefined) return missing(["wiringUnknown"], ["circuit", "wiring"]);
    if (between === "lines" && plate.neutral === undefined) return missing(["neutralUnknown"], ["plate", "neutral"]);
    if (circuit.metal === undefined) assume("The conductors are taken as copper.");
    for (const taken of takenForGranted(circuit)) assume(taken);
    if (input.continuous === undefined) {
      assume("The machine is taken to cycle: it does not draw its full current for three hours.");
    }
    if (known?.basis) rest(known.basis);

    // the least circuit: the load, enlarged where it is continuous or has a motor apart, and what the plate asks for
    const share = limit(continuousShare);
    const factor = brand<"ratio">(input.continuous === true ? (share?.value ?? 1) : 1);
    const bare = known === undefined ? parts!.need : load;
    const wanted = brand<"current">(factor * bare);
    if (known !== undefined)
      formula("{need:current} = {factor:ratio} * {load:current}", { need: wanted, factor, load });
    const need = brand<"current">(Math.max(wanted, plate.leastCircuit ?? 0));

    const most = plate.mostOvercurrent ?? mostUnmarked();
    const overcurrent = usualRating(ratingFor(need));
    if (overcurrent === undefined || (most !== undefined && overcurrent > most * (1 + 1e-9))) {
      return impossible(overcurrent === undefined ? ["noSize"] : ["aboveMost", { need, most: most! }]);
    }
    rest(necBasis(at, "240.4(B), 240.4(D), 240.6(A)", "seen", "Standard ratings, and what protects a conductor."));

    const base = smallest();
    if (base === undefined) return impossible(["noSize"]);
    const { length } = circuit;
    const nominal = nominalVoltage(system, between);
    const allowed = limit(branchDrop);
    let chosen = base;
    let drop = null;
    if (length !== undefined) {
      for (const taken of runTaken(run, base.size)) assume(taken);
      rest(necBasis(at, "chapter 9, Table 8 with note 2", "seen", "Resistance of conductors."));
      const lost = (size: Size) => voltageDropOf(impedanceOf(run, size, metal).impedance, length, load, phases);
      const larger = circuitSizes.slice(circuitSizes.indexOf(base.size));
      const enough = larger.find((size) => lost(size) <= (allowed?.value ?? 1) * nominal * (1 + 1e-9));
      if (enough === undefined) return impossible(["noSize"]);
      if (enough !== base.size) chosen = { size: enough, reason: "drop", found: ampacityOf(enough)! };
      drop = lost(chosen.size);
    }
    const { size, reason, found } = chosen;
    formula("{corrected:current} = {table:current} * {ambient:ratio} * {bundle:ratio}", {
      corrected: found.corrected,
      table: found.table,
      ambient: brand<"ratio">(found.ambient),
      bundle: brand<"ratio">(found.bundle),
    });
    const dropShare = drop === null ? null : brand<"ratio">(drop / nominal);
    if (drop !== null && dropShare !== null) {
      formula("{share:ratio} = {drop:voltage} / {nominal:voltage}", { share: dropShare, drop, nominal });
    }
    return {
      load,
      need,
      overcurrent,
      most: most ?? null,
      size: `${size} ${metal}`,
      governs: reasons[reason],
      ampacity: found.ampacity,
      ground: groundText(size),
      neutral: neutralText(size),
      receptacle: receptacleText(),
      drop,
      share: dropShare,
    };

    /** Load and least circuit where the plate gives motor and element only. */
    function motorAndElement(): { load: Current; need: Current } | undefined {
      const { motor, element } = plate!;
      if (motor === undefined || element === undefined || plate!.current !== undefined || plate!.power !== undefined) {
        return undefined;
      }
      const heating = lineCurrent(element, rated!, phases);
      const motorFactor = brand<"ratio">(limit(motorShare)?.value ?? 1);
      const need = brand<"current">(motorFactor * motor + heating);
      formula("{need:current} = {factor:ratio} * {motor:current} + {heating:current}", {
        need,
        factor: motorFactor,
        motor,
        heating,
      });
      return { load: brand<"current">(motor + heating), need };
    }

    /** The standard rating for a least circuit, no less than the rules for this kind of machine. */
    function ratingFor(least: Current): Current | undefined {
      const floor = known?.isLargeRange
        ? limit(rangeLeast)?.value
        : isLaundry()
          ? limit(laundryLeast)?.value
          : undefined;
      // the 10 A circuits of 2023 are not for appliances
      return ratingAbove(brand<"current">(Math.max(least, floor ?? 0, 15)), edition!);
    }

    /** The usual 30 A of a dryer with a neutral, where the machine allows it. */
    function usualRating(rating: Current | undefined): Current | undefined {
      if (rating === undefined || kind !== "dryer" || plate!.neutral !== true) return rating;
      const usual = limit(usualDryer);
      if (usual === undefined || usual.value <= rating || usual.value > (most ?? usual.value)) return rating;
      return ratingAbove(brand<"current">(usual.value), edition!);
    }

    function isLaundry(): boolean {
      return between === "neutral" && (kind === "washer" || kind === "dryer" || kind === "stack");
    }

    function mostUnmarked(): Current | undefined {
      if (kind !== "oven" && kind !== "cooktop" && kind !== "range") return undefined;
      const drawn = plate!.current ?? powerCurrent() ?? load!;
      if (drawn <= unmarkedBound_A) {
        const small = limit(unmarkedSmall);
        return small && brand<"current">(small.value);
      }
      const greatest = limit(unmarkedShare)?.value;
      return greatest === undefined ? undefined : ratingAbove(brand<"current">(greatest * drawn), edition!);
    }

    function powerCurrent(): Current | undefined {
      const power: Power | undefined = plate!.power;
      return power === undefined ? undefined : lineCurrent(power, rated!, phases);
    }

    function ampacityOf(size: Size): Ampacity | undefined {
      const conductor = runOf({ ...circuit, size, metal, wiring: wiring! }, edition!);
      return conductor && conductorAmpacity(conductor);
    }

    /** The smallest size that passes every step, with the step that asked for it. */
    function smallest(): { size: Size; reason: Reason; found: Ampacity } | undefined {
      let reason: Reason = "load";
      for (const size of circuitSizes) {
        const amps = ampacityOf(size);
        if (amps === undefined) continue;
        const blocked = blockedBy(amps, size);
        if (blocked === undefined) return { size, reason, found: amps };
        reason = blocked;
      }
      return undefined;
    }

    /** The step that a size does not pass; `undefined` where it passes all. */
    function blockedBy(amps: Ampacity, size: Size): Reason | undefined {
      const { ampacity, atTerminals, atCable, table } = amps;
      // before correction it carries the enlarged load, after correction the load itself
      if (Math.min(atTerminals, atCable ?? table, table) < need * (1 - 1e-9)) return "terminals";
      if (ampacity < load! * (1 - 1e-9)) return "load";
      return mostOvercurrent(ampacity, size, metal, true, edition!) < overcurrent! * (1 - 1e-9)
        ? "protection"
        : undefined;
    }

    /** The ground by the table; enlarged with the lines where the edition says so. */
    function groundText(size: Size): string {
      const table = groundFor(overcurrent!, metal);
      if (table === undefined) return "above the table";
      const least = leastFor(reason);
      const ground = least === undefined ? table : enlargedGround(table, least, size);
      rest(
        necBasis(
          at,
          "250.122, Table 250.122",
          "seen",
          least === undefined ? "By the device." : "In proportion to the lines.",
        ),
      );
      return `${smaller(ground, size)} ${metal}`;
    }

    /** The size that the lines would have had without what enlarged them for this edition's rule. */
    function leastFor(cause: Reason): Size | undefined {
      if (edition! >= 2020 || edition! < 2017) return cause === "drop" ? base!.size : undefined;
      const plain = circuitSizes.find((size) => {
        const conductor = runOf({ wiring: wiring!, metal, size, ambient: si(30, "degC"), carrying: 3 }, edition!);
        const amps = conductor && conductorAmpacity(conductor);
        return amps !== undefined && blockedBy(amps, size) === undefined;
      });
      if (plain === undefined || plain === size) return undefined;
      assume("Sources disagree on 250.122(B) in this edition; the reading that gives the larger ground is taken.");
      return plain;
    }

    function neutralText(size: Size): string {
      if (between === "neutral") return `${size} ${metal}`;
      if (plate!.neutral !== true) return "none";
      const least = known?.isLargeRange ? limit(rangeNeutral) : undefined;
      if (least === undefined) return `${size} ${metal}`;
      const enough = circuitSizes.find((one) => {
        const amps = ampacityOf(one);
        return (
          compareConductors(one, "10 AWG") >= 0 && amps !== undefined && amps.ampacity >= least.value * overcurrent!
        );
      });
      return `${smaller(enough ?? size, size)} ${metal} at least`;
    }

    function receptacleText(): string {
      const family = receptacleFamilies[between === "neutral" ? "LN" : plate!.neutral === true ? "LLN" : "LL"];
      const name = family.find((one) => configurations[one].amps >= overcurrent!);
      return name ?? "none of this rating; wired in";
    }
  },
});

/** The smaller of two sizes. */
const smaller = (a: ConductorSize, b: ConductorSize): ConductorSize => (compareConductors(a, b) <= 0 ? a : b);
