import * as z from "zod";
import { burns } from "../core/basis/index.js";
import { atMost, brand, inUnit, same } from "../core/quantity/index.js";
import {
  defineRule,
  type MachineKind,
  machineFacts,
  type Outcome,
  type Proposal,
  quantity,
} from "../core/rule/index.js";
import { underNec } from "./basis.js";
import { circuitInput } from "./circuit.js";
import {
  arcByPlace,
  machineCircuit,
  type ProtectedPlace,
  type ProtectedSupply,
  places,
  rcdSocket,
  shockByMachine,
  shockByPlace,
  sinkWithin,
  smallCircuits_A,
  toGround,
  whenReplaced,
} from "./limits-protection.js";
import { plateInput } from "./plate.js";
import { belongsBetween, nominalVoltage, systemInput } from "./system.js";

export const shockAndArcProtectionInput = z.strictObject({
  kind: machineFacts.kind.optional(),
  fuel: machineFacts.fuel.optional(),
  plate: plateInput.optional().describe("What the machine's plate says of its electrics"),
  system: systemInput.optional(),
  circuit: circuitInput.optional().describe("The circuit from the panel to the receptacle"),
  hardWired: z.boolean().optional().describe("Whether the machine is wired in without cord and plug"),
  place: z.enum(places).optional().describe("Where the receptacle or outlet is; a laundry closet is a laundry area"),
  sharedRoom: z
    .boolean()
    .optional()
    .describe("Whether the room serves several homes, such as a common laundry; not shared where left out"),
  noSink: z.boolean().optional().describe("Whether there is no sink near by, behind no door either"),
  sinkDistance: quantity("length", { max: [100, "ft"] })
    .optional()
    .describe(
      "From the top inside edge of the nearest sink's bowl to the receptacle, along the shortest path of a cord",
    ),
  replaced: z.boolean().optional().describe("Whether the receptacle is replaced in this job"),
  gfci: z
    .boolean()
    .optional()
    .describe(
      "Whether breaker, receptacle or another device ahead is a GFCI, or an RCD of at most 30 mA, tested by its button",
    ),
  afci: z.boolean().optional().describe("Whether the breaker, or a device at the first outlet, is an AFCI"),
});

const inPlace: Record<ProtectedPlace, string> = {
  "laundry area": "in a laundry area",
  kitchen: "in a kitchen",
  bathroom: "in a bathroom",
  garage: "in a garage",
  "unfinished basement": "in an unfinished basement",
  "finished basement": "in a basement",
  "crawl space": "in a crawl space",
  outdoors: "outdoors",
  "closet or hallway": "in a closet or hallway",
  "living space": "in a living space",
};
const listed: Partial<Record<MachineKind, string>> = {
  dishwasher: "a dishwasher",
  range: "an electric range",
  oven: "a wall oven",
  cooktop: "a cooktop",
  dryer: "a clothes dryer",
  stack: "a washer with a dryer on top",
};
/** Kinds that the list names only where electricity heats them. */
const COOKING: readonly MachineKind[] = ["range", "oven", "cooktop"];

/** Exactly on the distance is within it; a comparison that is to hold beyond only must not hold there. */
const BEYOND = 1 - 1e-8;

const remedies = {
  gfci: "Fit a GFCI breaker, or a GFCI receptacle of the circuit's rating.",
  afci: "Fit an AFCI breaker.",
  both: "Fit a breaker that is GFCI and AFCI in one.",
} as const;

const washer = {
  kind: "washer",
  plate: { voltage: "120 V", current: "10 A" },
  system: "120/240 V",
  circuit: { overcurrent: "20 A", isNew: true },
  hardWired: false,
  place: "laundry area",
  gfci: true,
  afci: true,
} as const;
const dryer = {
  kind: "dryer",
  plate: { voltage: "240 V", power: "5400 W" },
  system: "120/240 V",
  circuit: { overcurrent: "30 A", isNew: true },
  hardWired: false,
  place: "laundry area",
  gfci: false,
} as const;
const range = { ...dryer, kind: "range", circuit: { overcurrent: "40 A", isNew: true }, place: "kitchen" } as const;
const edition = (nec: 2014 | 2017 | 2020 | 2023) => ({ jurisdiction: { adopted: { nec } } });
const abroad = { jurisdiction: { adopted: { iec60364: 2017 } } } as const;
const socket = {
  kind: "washer",
  plate: { voltage: "230 V", power: "2200 W" },
  system: "230/400 V",
  circuit: { overcurrent: "16 A", isNew: true },
  hardWired: false,
} as const;

/**
 * The outlet has the protection against shock and arcs that its place and machine call for.
 *
 * A rule; its page is `docs/rules/electrical/shock-and-arc-protection.md`.
 */
export const shockAndArcProtection = defineRule({
  id: "electrical/shock-and-arc-protection",
  title: "The outlet has the protection against shock and arcs that its place and machine call for",
  since: "0.1.0",
  input: shockAndArcProtectionInput,
  basis: [],
  limits: [shockByPlace, toGround, sinkWithin, shockByMachine, machineCircuit, arcByPlace, whenReplaced, rcdSocket],
  messages: {
    pass: {
      shockFitted: "GFCI protection is called for and fitted: {why:text}.",
      shockFittedAnyway: "GFCI protection is fitted, whether or not an item of the list calls for it here.",
      shockNotListed: "No item of the list calls for GFCI protection here.",
      sinkFar:
        "The nearest sink is {distance:length} away, beyond {most:length}, and no other item of the list calls for GFCI protection here.",
      circuitLarger: "The list of machines ends at {most:current}; this circuit has {rating:current}.",
      arcFitted: "AFCI protection is called for and fitted: a 120 V circuit with an outlet {place:text}.",
      arcNotListed: "No AFCI protection is called for here.",
      rcdFitted: "The residual-current device that the socket-outlet calls for is fitted.",
      rcdLarger: "The rule for socket-outlets ends at {most:current}; this circuit has {rating:current}.",
    },
    fail: {
      shockMissing: "GFCI protection is called for and not fitted: {why:text}.",
      sinkNear: "GFCI protection is called for and not fitted: a sink {distance:length} away, within {most:length}.",
      machineListed: "GFCI protection is called for and not fitted: {why:text}, on a circuit of {rating:current}.",
      arcMissing: "AFCI protection is called for and not fitted: a 120 V circuit with an outlet {place:text}.",
      rcdMissing:
        "A socket-outlet of at most {most:current} calls for a residual-current device of at most 30 mA; none is fitted.",
    },
    review: {
      shockUnknown: "GFCI protection is called for, {why:text}; whether it is fitted was not noted.",
      arcUnknown: "AFCI protection is called for; whether it is fitted was not noted.",
      workUnknown: "Whether the circuit is new or the receptacle is replaced was not noted; old work is left as it is.",
      wiringUnknown: "Whether the machine is on a cord or wired in was not noted.",
      placeUnknown: "The place of the outlet was not noted.",
      kindUnknown: "The kind of machine was not noted.",
      supplyUnknown: "The voltage of the machine or the system of the building was not noted.",
      ratingUnknown: "The rating of the circuit's breaker was not noted.",
      sinkUnknown: "Whether a sink is near by was not measured.",
      notDwelling:
        "This rule knows the lists for homes only; a shared or commercial room has another one (NEC 210.8(B)).",
      rcdUnknown: "A residual-current device of at most 30 mA is called for; whether it is fitted was not noted.",
      rcdWired:
        "Whether a machine that is wired in calls for a residual-current device here is not known to this rule; ask the local authority.",
    },
    notApplicable: {
      unchanged:
        "Neither the circuit is new nor the receptacle replaced, so the present lists do not reach it; the protection is worth having all the same.",
    },
  },
  remedies,
  cautions: ["mains", "deferral"],
  examples: [
    { title: "A washer's new circuit at Alder Row", input: washer, gives: "shockFitted" },
    { title: "The same, against arcs", input: washer, gives: "arcFitted" },
    { title: "A new dryer circuit in a laundry area, under 2020", input: dryer, gives: "shockMissing" },
    { title: "The same under 2017", input: dryer, at: edition(2017), gives: "shockNotListed" },
    {
      title: "The same, against arcs, of which 240 V have none",
      input: dryer,
      at: edition(2017),
      gives: "arcNotListed",
    },
    {
      title: "A wired-in cooktop under 2023",
      input: { ...range, kind: "cooktop", hardWired: true },
      at: edition(2023),
      gives: "machineListed",
    },
    {
      title: "The same on a circuit larger than the list has",
      input: { ...range, kind: "oven", hardWired: true, circuit: { overcurrent: "70 A", isNew: true } },
      at: edition(2023),
      gives: "circuitLarger",
    },
    { title: "A range beside the sink, under 2020", input: { ...range, sinkDistance: "4 ft" }, gives: "sinkNear" },
    { title: "A range across the kitchen, under 2020", input: { ...range, sinkDistance: "9 ft" }, gives: "sinkFar" },
    {
      title: "Protection that nobody asked for",
      input: { ...dryer, place: "closet or hallway", noSink: true, gfci: true },
      gives: "shockFittedAnyway",
    },
    { title: "A washer without arc protection", input: { ...washer, afci: false }, gives: "arcMissing" },
    {
      title: "A receptacle that is only replaced",
      input: { ...washer, circuit: { overcurrent: "20 A", isNew: false }, replaced: true, gfci: false },
      gives: "shockMissing",
    },
    {
      title: "Old work that stays",
      input: { ...washer, circuit: { overcurrent: "20 A", isNew: false }, replaced: false },
      gives: "unchanged",
    },
    {
      title: "Protection not looked at",
      input: { ...washer, gfci: undefined, afci: undefined } as never,
      gives: "shockUnknown",
    },
    {
      title: "The same, against arcs",
      input: { ...washer, gfci: undefined, afci: undefined } as never,
      gives: "arcUnknown",
    },
    { title: "Job not known", input: { kind: "washer" }, gives: "workUnknown" },
    { title: "Cord or not", input: { kind: "dryer", circuit: { isNew: true } }, gives: "wiringUnknown" },
    { title: "Place not noted", input: { ...dryer, place: undefined } as never, gives: "placeUnknown" },
    { title: "Machine not noted", input: { ...dryer, kind: undefined } as never, gives: "kindUnknown" },
    { title: "Building's system not noted", input: { ...dryer, system: undefined } as never, gives: "supplyUnknown" },
    { title: "Breaker not read", input: { ...dryer, circuit: { isNew: true } }, gives: "ratingUnknown" },
    { title: "Sink not measured", input: range, gives: "sinkUnknown" },
    {
      title: "The common laundry of Juniper Terrace",
      input: { ...washer, sharedRoom: true },
      at: { jurisdiction: { building: "multifamily" } },
      gives: "notDwelling",
    },
    { title: "A socket-outlet on a 230 V site", input: { ...socket, gfci: true }, at: abroad, gives: "rcdFitted" },
    { title: "The same without its device", input: { ...socket, gfci: false }, at: abroad, gives: "rcdMissing" },
    { title: "The same, not looked at", input: socket, at: abroad, gives: "rcdUnknown" },
    {
      title: "A large socket-outlet on a 230 V site",
      input: { ...socket, circuit: { overcurrent: "63 A", isNew: true }, gfci: false },
      at: abroad,
      gives: "rcdLarger",
    },
    {
      title: "A wired-in oven on a 230 V site",
      input: { ...socket, kind: "oven", hardWired: true },
      at: abroad,
      gives: "rcdWired",
    },
  ],
  check(input, ask) {
    const { all, assume, at, judge, limit, missing, say } = ask;
    const {
      kind,
      fuel,
      plate,
      system,
      circuit,
      hardWired,
      place,
      sharedRoom,
      noSink,
      sinkDistance,
      replaced,
      gfci,
      afci,
    } = input;
    const isNew = circuit?.isNew;
    if (isNew !== true && replaced !== true) {
      if (isNew === false && replaced === false) return say("unchanged");
      return missing(["workUnknown"], ...(isNew === undefined ? [["circuit", "isNew"]] : []), ["replaced"]);
    }
    if (hardWired === undefined) return missing(["wiringUnknown"], ["hardWired"]);
    const rating = circuit?.overcurrent;
    if (!underNec(at)) return residualCurrent();

    if (sharedRoom || at.building === "commercial") return say("notDwelling");
    if (sharedRoom === undefined && at.building === "multifamily") {
      assume("The room is taken to belong to one home.");
    }
    if (kind === undefined) return missing(["kindUnknown"], ["kind"]);
    if (place === undefined) return missing(["placeUnknown"], ["place"]);
    const rated = plate?.voltage;
    if (rated === undefined || system === undefined) {
      return missing(
        ["supplyUnknown"],
        ...(rated === undefined ? [["plate", "voltage"]] : []),
        ...(system === undefined ? [["system"]] : []),
      );
    }
    if (rating === undefined) return missing(["ratingUnknown"], ["circuit", "overcurrent"]);
    const toNeutral = belongsBetween(system, rated) === "neutral" && plate?.neutral !== true;
    const small = toNeutral && smallCircuits_A.some((amps) => same(inUnit(rating, "A"), amps));
    const supply: ProtectedSupply | undefined =
      plate?.phases === "three" || !atMost(nominalVoltage(system, "neutral"), limit(toGround)?.value ?? 0)
        ? undefined
        : small
          ? "120 V, 15 or 20 A"
          : "other single-phase";
    /** Work that is only a replacement counts where the text says so. */
    const reaches = (against: "shock" | "arc"): boolean =>
      isNew === true || limit(whenReplaced, "none", { against })?.value === 1;

    return all(shock(), arc());

    function shock(): Outcome {
      if (supply === undefined || !reaches("shock")) return say("shockNotListed");
      const machine = heated() && limit(shockByMachine, "none", { kind: kind! })?.value === 1;
      const byPlace = !hardWired && limit(shockByPlace, "none", { place: place!, supply })?.value === 1;
      // the sink's item is about the same circuits as the places
      const takesSink = !byPlace && !hardWired && (supply === "120 V, 15 or 20 A" || sinkForAnyRating());
      const sink = takesSink ? limit(sinkWithin) : undefined;
      if (byPlace) return fitted(`a receptacle ${inPlace[place!]}`);
      if (machine) return byMachine(sink);
      return sink ? bySink(sink) : fitted(undefined);
    }

    /** Whether the list of machines can be about this one: of cooking machines it names the electric ones. */
    function heated(): boolean {
      if (!COOKING.includes(kind!)) return true;
      if (fuel === undefined) assume("The fuel was not given: the machine is taken to heat by electricity.");
      return fuel === undefined || !burns(fuel);
    }

    /** Whether the list reaches circuits other than small 120 V ones: it does in one place where it does in all. */
    function sinkForAnyRating(): boolean {
      return at.governing(shockByPlace, "none", { place: "bathroom", supply: "other single-phase" })?.value === 1;
    }

    function fitted(why: string | undefined): Outcome {
      if (why === undefined) return gfci ? say("shockFittedAnyway") : say("shockNotListed");
      if (gfci === undefined) return missing(["shockUnknown", { why }], ["gfci"]);
      return gfci ? say("shockFitted", { why }) : say("shockMissing", { why });
    }

    function byMachine(sink: ReturnType<typeof limit>): Outcome {
      const why = `${listed[kind!]} is on the list of machines, on a cord or wired in`;
      const most = limit(machineCircuit);
      if (!most || gfci !== false) return fitted(why);
      const slots = { rating: rating!, most: brand<"current">(most.value) };
      const larger = judge({
        kind: "current",
        measured: rating! * BEYOND,
        limit: most,
        sense: "atLeast",
        pass: ["circuitLarger", slots],
        fail: ["machineListed", { why, rating: rating! }],
      });
      return sink && larger.every(({ verdict }) => verdict === "pass") ? all(larger, bySink(sink)) : larger;
    }

    function bySink(sink: NonNullable<ReturnType<typeof limit>>): Outcome {
      if (noSink || gfci) return fitted(undefined);
      if (sinkDistance === undefined) return missing(["sinkUnknown"], ["noSink"], ["sinkDistance"]);
      const most = brand<"length">(sink.value);
      const slots = { distance: sinkDistance, most };
      const far = judge({
        kind: "length",
        measured: sinkDistance * BEYOND,
        limit: sink,
        sense: "atLeast",
        pass: ["sinkFar", slots],
        fail: ["sinkNear", slots],
      });
      const near = far.some(({ verdict }) => verdict === "fail");
      return near && gfci === undefined ? missing(["shockUnknown", { why: "a sink is near by" }], ["gfci"]) : far;
    }

    function arc(): Outcome {
      if (!small || supply === undefined || !reaches("arc")) return say("arcNotListed");
      if (limit(arcByPlace, "none", { place: place! })?.value !== 1) return say("arcNotListed");
      if (afci === undefined) return missing(["arcUnknown"], ["afci"]);
      return afci ? say("arcFitted", { place: inPlace[place!] }) : say("arcMissing", { place: inPlace[place!] });
    }

    function residualCurrent(): Outcome {
      if (hardWired) return say("rcdWired");
      if (gfci) {
        limit(rcdSocket);
        return say("rcdFitted");
      }
      if (rating === undefined) return missing(["ratingUnknown"], ["circuit", "overcurrent"]);
      const most = limit(rcdSocket);
      if (!most) return say("rcdWired");
      const slots = { rating, most: brand<"current">(most.value) };
      const larger = judge({
        kind: "current",
        measured: rating * BEYOND,
        limit: most,
        sense: "atLeast",
        pass: ["rcdLarger", slots],
        fail: ["rcdMissing", slots],
      });
      const called = larger.some(({ verdict }) => verdict === "fail");
      return called && gfci === undefined ? missing(["rcdUnknown"], ["gfci"]) : larger;
    }
  },
  mend(input, at) {
    const proposals: Proposal<typeof remedies>[] = [];
    const shock = { path: ["gfci"], value: true };
    const arc = { path: ["afci"], value: true };
    const passes = (change: object) => shockAndArcProtection.run({ ...input, ...change }, at, []).verdict === "pass";
    if (passes({ gfci: true })) proposals.push({ change: [shock], say: ["gfci"] });
    else if (passes({ afci: true })) proposals.push({ change: [arc], say: ["afci"] });
    else proposals.push({ change: [shock, arc], say: ["both"] });
    return proposals;
  },
});
