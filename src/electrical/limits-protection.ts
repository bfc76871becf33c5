/** Where the electrical texts ask for protection against shock and arcs, dated. */
import { type Confirmed, type DatedValue, defineLimit } from "../core/basis/index.js";
import { nec } from "./dated.js";

/** Places in a home that the lists of the code tell apart. */
export const places = [
  "laundry area",
  "kitchen",
  "bathroom",
  "garage",
  "unfinished basement",
  "finished basement",
  "crawl space",
  "outdoors",
  "closet or hallway",
  "living space",
] as const;
/** A place in a home. */
export type ProtectedPlace = (typeof places)[number];

/** Circuits that the list tells apart: 120 V of 15 or 20 A, and any other single-phase one up to 150 V to ground. */
export type ProtectedSupply = "120 V, 15 or 20 A" | "other single-phase";

/** Editions of one span with how sure their lists are; numbers of items moved in 2023. */
const spans: readonly (readonly [from: number, to: number, confirmed: Confirmed])[] = [
  [2014, 2014, "secondary"],
  [2017, 2017, "seen"],
  [2020, 2020, "secondary"],
  [2023, 2023, "memory"],
  [2026, 2026, "memory"],
];

/** For each place the item of 210.8(A) up to 2020 and from 2023, and the first edition whose list names it. */
const items: readonly (readonly [place: ProtectedPlace, until2020: string, from2023: string, since: number])[] = [
  ["laundry area", "(10)", "(11)", 2014],
  // a receptacle for a large machine; those for the countertop are named in every edition
  ["kitchen", "(6)", "(6)", 2023],
  ["bathroom", "(1)", "(1)", 2014],
  ["garage", "(2)", "(2)", 2014],
  ["unfinished basement", "(5)", "(5)", 2014],
  ["finished basement", "(5)", "(5)", 2020],
  ["crawl space", "(4)", "(4)", 2014],
  ["outdoors", "(3)", "(3)", 2014],
  ["closet or hallway", "", "", Number.POSITIVE_INFINITY],
  ["living space", "", "", Number.POSITIVE_INFINITY],
];

/** First edition whose list of receptacles goes beyond 125 V and 20 A. */
const ANY_RATING_SINCE = 2020;
/** Values that a page was seen for although the rest of their edition's list is from memory. */
const seenLater = (place: ProtectedPlace, from: number, confirmed: Confirmed): Confirmed =>
  place === "kitchen" && from === 2023 ? "secondary" : confirmed;

const locationValues: DatedValue[] = items.flatMap(([place, until2020, from2023, since]) =>
  spans.flatMap(([from, to, confirmed]) => {
    const section = `210.8(A)${from < 2023 ? until2020 : from2023}`;
    const value = (supply: ProtectedSupply, truth: boolean) =>
      nec(from, to, section, truth, seenLater(place, from, confirmed), { when: { place, supply } });
    return [
      value("120 V, 15 or 20 A", from >= since),
      value("other single-phase", from >= Math.max(since, ANY_RATING_SINCE)),
    ];
  }),
);

/** Whether a receptacle in a place must be protected against shock. */
export const shockByPlace = defineLimit({
  id: "electrical/shock-and-arc-protection.place",
  title: "GFCI protection of a receptacle for its place",
  subject: "electrical",
  kind: "requirement",
  sense: "required",
  maker: "tightens",
  values: locationValues,
});

/** Highest voltage to ground that the list of receptacles is about. */
export const toGround = defineLimit({
  id: "electrical/shock-and-arc-protection.to-ground",
  title: "Highest voltage to ground that the list of receptacles is about",
  subject: "electrical",
  kind: "voltage",
  sense: "atMost",
  maker: "tightens",
  values: [
    nec(2014, 2014, "210.8(A)", [125, "V"], "secondary", { note: "Receptacles of 125 V." }),
    nec(2017, 2017, "210.8(A)", [125, "V"], "seen", { note: "Receptacles of 125 V." }),
    nec(2020, 2023, "210.8(A)", [150, "V"], "secondary"),
    nec(2026, 2026, "210.8(A)", [150, "V"], "memory"),
  ],
});

/** NEC 210.8(A) and 210.12: ratings of the 120 V circuits that the lists are about [A]. */
export const smallCircuits_A: readonly number[] = [15, 20];

const bySink = (from: number, to: number, section: string, confirmed: Confirmed, note: string): DatedValue =>
  nec(from, to, section, [6, "ft"], confirmed, { note });
const BOWL = "From the top inside edge of the bowl, along the shortest path a cord would take.";

/** Distance to a sink within which a receptacle must be protected. */
export const sinkWithin = defineLimit({
  id: "electrical/shock-and-arc-protection.sink",
  title: "Distance to a sink within which a receptacle has GFCI protection",
  subject: "electrical",
  kind: "length",
  sense: "atLeast",
  maker: "tightens",
  values: [
    bySink(2014, 2014, "210.8(A)(7)", "secondary", "From the outside edge of the sink."),
    bySink(2017, 2017, "210.8(A)(7)", "seen", BOWL),
    bySink(2020, 2020, "210.8(A)(7)", "secondary", BOWL),
    bySink(2023, 2026, "210.8(A)(8)", "memory", BOWL),
  ],
});

/** Whether a kind of machine must be protected against shock, wherever it stands and however it is joined. */
export const shockByMachine = defineLimit({
  id: "electrical/shock-and-arc-protection.machine",
  title: "GFCI protection of a machine, on a cord or wired in",
  subject: "electrical",
  kind: "requirement",
  sense: "required",
  maker: "tightens",
  values: [
    nec(2014, 2014, "210.8(D)", true, "secondary", { when: { kind: "dishwasher" } }),
    nec(2017, 2017, "210.8(D)", true, "seen", { when: { kind: "dishwasher" } }),
    nec(2020, 2020, "422.5(A)(7) by 210.8(D)", true, "secondary", { when: { kind: "dishwasher" } }),
    ...(["dishwasher", "range", "oven", "cooktop", "dryer"] as const).flatMap((kind) => [
      nec(2023, 2023, "210.8(D)", true, "secondary", { when: { kind } }),
      nec(2026, 2026, "210.8(D)", true, "memory", { when: { kind } }),
    ]),
    nec(2023, 2026, "210.8(D)", true, "memory", {
      when: { kind: "stack" },
      note: "A washer with a dryer on top is read as a clothes dryer.",
    }),
  ],
});

/** Largest circuit that the list of machines is about. */
export const machineCircuit = defineLimit({
  id: "electrical/shock-and-arc-protection.machine-circuit",
  title: "Largest circuit that the list of machines is about",
  subject: "electrical",
  kind: "current",
  sense: "atMost",
  maker: "tightens",
  values: [nec(2023, 2023, "210.8(D)", [60, "A"], "secondary"), nec(2026, 2026, "210.8(D)", [60, "A"], "memory")],
});

/** Places whose 120 V circuits must be protected against arcs. */
const arcPlaces: readonly (readonly [ProtectedPlace, boolean])[] = [
  ["laundry area", true],
  ["kitchen", true],
  ["closet or hallway", true],
  ["living space", true],
  ["finished basement", true],
  ["bathroom", false],
  ["garage", false],
  ["unfinished basement", false],
  ["crawl space", false],
  ["outdoors", false],
];
const arcNote = (place: ProtectedPlace): { readonly note?: string } =>
  place === "finished basement" ? { note: "As a recreation room or a similar one." } : {};

/** Whether a 120 V circuit of 15 or 20 A to a place must be protected against arcs. */
export const arcByPlace = defineLimit({
  id: "electrical/shock-and-arc-protection.arc",
  title: "AFCI protection of a 120 V circuit of 15 or 20 A",
  subject: "electrical",
  kind: "requirement",
  sense: "required",
  maker: "tightens",
  values: arcPlaces.flatMap(([place, truth]) => {
    // that a place is not on the list is from memory throughout
    const sure = (confirmed: Confirmed): Confirmed => (truth && place !== "finished basement" ? confirmed : "memory");
    const more = { when: { place }, ...arcNote(place) };
    return [
      nec(2014, 2014, "210.12(A)", truth, sure("secondary"), more),
      nec(2017, 2017, "210.12(A)", truth, sure("seen"), more),
      nec(2020, 2020, "210.12(A)", truth, sure("secondary"), more),
      nec(2023, 2023, "210.12(B)", truth, sure("secondary"), more),
      nec(2026, 2026, "210.12(B)", truth, "memory", more),
    ];
  }),
});

/** Whether a receptacle that is only replaced must be protected as a new one would be. */
export const whenReplaced = defineLimit({
  id: "electrical/shock-and-arc-protection.replaced",
  title: "A replaced receptacle is protected as a new one would be",
  subject: "electrical",
  kind: "requirement",
  sense: "required",
  maker: "tightens",
  values: [
    nec(2014, 2023, "406.4(D)(3)", true, "secondary", { when: { against: "shock" } }),
    nec(2026, 2026, "406.4(D)(3)", true, "memory", { when: { against: "shock" } }),
    nec(2014, 2017, "406.4(D)(4)", true, "secondary", { when: { against: "arc" } }),
    nec(2020, 2026, "406.4(D)(4)", true, "memory", { when: { against: "arc" } }),
  ],
});

/** Largest socket-outlet circuit that must have a residual-current device of 30 mA. */
export const rcdSocket = defineLimit({
  id: "electrical/shock-and-arc-protection.rcd-socket",
  title: "Largest socket-outlet that has a residual-current device of at most 30 mA",
  subject: "electrical",
  kind: "current",
  sense: "atMost",
  maker: "tightens",
  values: [
    {
      text: "iec60364",
      from: 2005,
      to: 2009,
      section: "Part 4-41, 411.3.3",
      value: [20, "A"],
      confirmed: "secondary",
      note: "For general use by ordinary persons; one that is marked for a single machine may do without.",
    },
    {
      text: "iec60364",
      from: 2017,
      to: 2017,
      section: "Part 4-41, 411.3.3",
      value: [32, "A"],
      confirmed: "secondary",
      note: "The figures were seen in national wiring rules that follow the standard.",
    },
  ],
});
