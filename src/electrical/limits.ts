/** The numbers that the electrical texts set for supply, circuit, cord and receptacle, dated, one reference per value. */
import { defineLimit } from "../core/basis/index.js";
import { habit, nec } from "./dated.js";

/** Least voltage a machine is built for, as a share of the voltage on its plate. */
export const machineVoltageLeast = defineLimit({
  id: "electrical/supply-voltage.machine-least",
  title: "Least voltage at the machine, as a share of its rated voltage",
  subject: "electrical",
  kind: "ratio",
  sense: "atLeast",
  maker: "replaces",
  values: [habit([90, "percent"], { note: "Ten per cent either way unless the maker says otherwise." })],
});

/** Most voltage a machine is built for, as a share of the voltage on its plate. */
export const machineVoltageMost = defineLimit({
  id: "electrical/supply-voltage.machine-most",
  title: "Most voltage at the machine, as a share of its rated voltage",
  subject: "electrical",
  kind: "ratio",
  sense: "atMost",
  maker: "replaces",
  values: [habit([110, "percent"], { note: "Ten per cent either way unless the maker says otherwise." })],
});

/** Voltage lost between no load and full load, as a share of the nominal voltage. */
export const dropMost = defineLimit({
  id: "electrical/supply-voltage.drop",
  title: "Voltage lost when the machine runs, as a share of the nominal voltage",
  subject: "electrical",
  kind: "ratio",
  sense: "atMost",
  maker: "tightens",
  values: [
    nec(2014, 2014, "210.19(A), informational note", [5, "percent"], "secondary", {
      force: "advice",
      note: "Feeder and branch circuit together.",
    }),
    nec(2017, 2017, "210.19(A), informational note 4", [5, "percent"], "seen", {
      force: "advice",
      note: "Feeder and branch circuit together.",
    }),
    nec(2020, 2023, "210.19, informational note", [5, "percent"], "secondary", {
      force: "advice",
      note: "Feeder and branch circuit together.",
    }),
    nec(2026, 2026, "210.19, informational note", [5, "percent"], "memory", {
      force: "advice",
      note: "Feeder and branch circuit together.",
    }),
    {
      text: "iec60364",
      from: 2009,
      section: "Part 5-52, Table G.52.1",
      value: [5, "percent"],
      confirmed: "secondary",
      force: "advice",
      note: "Uses other than lighting, supplied from a public network.",
    },
  ],
});

const forLaundry = "A receptacle for one appliance, such as the laundry's.";
/** Distance from an appliance's place to its receptacle. */
export const receptacleDistance = defineLimit({
  id: "electrical/receptacle-reach.distance",
  title: "Distance from the machine's place to its receptacle",
  subject: "electrical",
  kind: "length",
  sense: "atMost",
  maker: "tightens",
  values: [
    nec(2014, 2014, "210.50(C)", [6, "ft"], "secondary", { note: forLaundry }),
    nec(2017, 2017, "210.50(C)", [6, "ft"], "seen", { note: forLaundry }),
    nec(2020, 2023, "210.50(C)", [6, "ft"], "secondary", { note: forLaundry }),
    nec(2026, 2026, "210.50(C)", [6, "ft"], "memory", { note: forLaundry }),
    habit([2, "ft"], { note: "Within 2 ft of either side of the machine." }),
  ],
});

/** Slack that a cord keeps once it is plugged in. */
export const cordSlack = defineLimit({
  id: "electrical/receptacle-reach.slack",
  title: "Slack of the cord beyond its path",
  subject: "electrical",
  kind: "length",
  sense: "atLeast",
  maker: "replaces",
  values: [habit([6, "in"], { note: "Enough that a tug does not reach the plug." })],
});

const fourWireNote =
  "A circuit for a 120/240 V machine carries an equipment grounding conductor; only an existing one without it may do without.";
/** Whether machine and circuit must have a separate equipment ground. */
export const fourWire = defineLimit({
  id: "electrical/cord-match.four-wire",
  title: "A grounding conductor of its own, beside the neutral",
  subject: "electrical",
  kind: "requirement",
  sense: "required",
  maker: "tightens",
  values: [
    ...[{ circuit: "new" }, { circuit: "existing", ground: true }].flatMap((when) => [
      nec(2014, 2014, "250.140", true, "secondary", { when, note: fourWireNote }),
      nec(2017, 2017, "250.140", true, "seen", { when, note: fourWireNote }),
      nec(2020, 2023, "250.140", true, "secondary", { when, note: fourWireNote }),
      nec(2026, 2026, "250.140", true, "memory", { when, note: fourWireNote }),
    ]),
    ...[{ circuit: "existing", ground: false }].flatMap((when) => [
      nec(2014, 2014, "250.140, exception", false, "secondary", { when }),
      nec(2017, 2017, "250.140, exception", false, "seen", { when }),
      nec(2020, 2020, "250.140, exception", false, "secondary", { when }),
      nec(2023, 2023, "250.140(B)", false, "secondary", { when }),
      nec(2026, 2026, "250.140(B)", false, "memory", { when }),
    ]),
  ],
});

/** Whether a bare neutral may ground a frame where the circuit does not start at the service. */
export const coveredNeutral = defineLimit({
  id: "electrical/cord-match.bare-neutral-from-service",
  title: "A bare neutral that grounds a frame starts at the service, covered or not",
  subject: "electrical",
  kind: "requirement",
  sense: "required",
  maker: "tightens",
  values: [
    nec(2014, 2014, "250.140, exception, item 3", true, "secondary"),
    nec(2017, 2017, "250.140, exception, item 3", true, "seen"),
    nec(2020, 2020, "250.140, exception, item 3", true, "secondary"),
    nec(2023, 2023, "250.140(B)", false, "secondary", {
      note: "Where it is covered with listed insulating material inside the enclosures.",
    }),
    nec(2026, 2026, "250.140(B)", false, "memory"),
  ],
});

const fromFace = "From the plug's face to the plane of the machine's back.";
/** Least length of the cord of a machine that has a rule of its own. */
export const cordLeast = defineLimit({
  id: "electrical/cord-match.length-least",
  title: "Least length of the machine's cord",
  subject: "electrical",
  kind: "length",
  sense: "atLeast",
  maker: "tightens",
  values: [
    nec(2014, 2014, "422.16(B)(2)", [3, "ft"], "secondary", { when: { kind: "dishwasher" }, note: fromFace }),
    nec(2017, 2017, "422.16(B)(2)", [3, "ft"], "seen", { when: { kind: "dishwasher" }, note: fromFace }),
    nec(2020, 2020, "422.16(B)(2)", [3, "ft"], "secondary", { when: { kind: "dishwasher" }, note: fromFace }),
    nec(2023, 2026, "422.16(B)(2)", [3, "ft"], "memory", { when: { kind: "dishwasher" }, note: fromFace }),
    nec(2014, 2014, "422.16(B)(4)", [18, "in"], "secondary", { when: { kind: "hood" } }),
    nec(2017, 2017, "422.16(B)(4)", [18, "in"], "seen", { when: { kind: "hood" } }),
    nec(2020, 2020, "422.16(B)(4)", [18, "in"], "secondary", { when: { kind: "hood" } }),
    nec(2023, 2026, "422.16(B)(4)", [18, "in"], "memory", { when: { kind: "hood" } }),
  ],
});

/** Most length of the cord of a machine that has a rule of its own. */
export const cordMost = defineLimit({
  id: "electrical/cord-match.length-most",
  title: "Most length of the machine's cord",
  subject: "electrical",
  kind: "length",
  sense: "atMost",
  maker: "tightens",
  values: [
    nec(2014, 2014, "422.16(B)(2)", [4, "ft"], "secondary", { when: { kind: "dishwasher" }, note: fromFace }),
    nec(2017, 2017, "422.16(B)(2)", [6.5, "ft"], "seen", { when: { kind: "dishwasher" }, note: fromFace }),
    nec(2020, 2020, "422.16(B)(2)", [6.5, "ft"], "secondary", { when: { kind: "dishwasher" }, note: fromFace }),
    nec(2023, 2026, "422.16(B)(2)", [6.5, "ft"], "memory", { when: { kind: "dishwasher" }, note: fromFace }),
    nec(2014, 2014, "422.16(B)(4)", [36, "in"], "secondary", { when: { kind: "hood" } }),
    nec(2017, 2017, "422.16(B)(4)", [4, "ft"], "seen", { when: { kind: "hood" } }),
    nec(2020, 2020, "422.16(B)(4)", [4, "ft"], "secondary", { when: { kind: "hood" } }),
    nec(2023, 2026, "422.16(B)(4)", [4, "ft"], "memory", { when: { kind: "hood" } }),
  ],
});

/** Load of one cord-connected machine on a circuit that serves other things too, as a share of the circuit's rating. */
export const sharedShare = defineLimit({
  id: "electrical/circuit-found.shared",
  title: "Share of a shared circuit that one cord-connected machine may take",
  subject: "electrical",
  kind: "ratio",
  sense: "atMost",
  maker: "tightens",
  values: [
    nec(2014, 2014, "210.23(A)(1)", [80, "percent"], "secondary"),
    nec(2017, 2017, "210.23(A)(1)", [80, "percent"], "seen"),
    nec(2020, 2020, "210.23(A)(1)", [80, "percent"], "secondary"),
    nec(2023, 2026, "210.23(B)(1)", [80, "percent"], "memory"),
  ],
});

/** Whether a machine must have a circuit of its own. */
export const ownCircuit = defineLimit({
  id: "electrical/circuit-found.individual",
  title: "A circuit for this machine alone",
  subject: "electrical",
  kind: "requirement",
  sense: "required",
  maker: "tightens",
  values: [
    nec(2014, 2014, "422.16(B)(4)", true, "secondary", { when: { kind: "hood" } }),
    nec(2017, 2017, "422.16(B)(4)", true, "seen", { when: { kind: "hood" } }),
    nec(2020, 2020, "422.16(B)(4)", true, "secondary", { when: { kind: "hood" } }),
    nec(2023, 2026, "422.16(B)(4)", true, "memory", { when: { kind: "hood" } }),
    habit(true, { when: { between: "lines" }, note: "A 240 V machine has a circuit of its own." }),
  ],
});

/** Least circuit for a laundry receptacle. */
export const laundryLeast = defineLimit({
  id: "electrical/circuit-found.laundry",
  title: "Least circuit for the laundry's receptacle",
  subject: "electrical",
  kind: "current",
  sense: "atLeast",
  maker: "tightens",
  values: [
    nec(2014, 2014, "210.11(C)(2)", [20, "A"], "secondary"),
    nec(2017, 2017, "210.11(C)(2)", [20, "A"], "seen"),
    nec(2020, 2023, "210.11(C)(2)", [20, "A"], "secondary"),
    nec(2026, 2026, "210.11(C)(2)", [20, "A"], "memory"),
  ],
});

/** Least circuit of a range of 8¾ kW or more. */
export const rangeLeast = defineLimit({
  id: "electrical/circuit-found.range",
  title: "Least circuit of a range of 8 3/4 kW or more",
  subject: "electrical",
  kind: "current",
  sense: "atLeast",
  maker: "tightens",
  values: [
    nec(2014, 2020, "210.19(A)(3)", [40, "A"], "secondary"),
    nec(2023, 2023, "210.19(C)", [40, "A"], "secondary"),
    nec(2026, 2026, "210.19(C)", [40, "A"], "memory"),
  ],
});

const unmarked = "Where the machine does not state one itself, and has no motor that matters.";
/** Most overcurrent protection of an unmarked heating appliance that draws more than 13.3 A, as a share of its current. */
export const unmarkedShare = defineLimit({
  id: "electrical/circuit-found.unmarked",
  title: "Most overcurrent protection of an unmarked heating appliance, as a share of its current",
  subject: "electrical",
  kind: "ratio",
  sense: "atMost",
  maker: "replaces",
  values: [
    nec(2014, 2014, "422.11(E)(3)", [150, "percent"], "secondary", { note: unmarked }),
    nec(2017, 2017, "422.11(E)(3)", [150, "percent"], "seen", { note: unmarked }),
    nec(2020, 2023, "422.11(E)(3)", [150, "percent"], "secondary", { note: unmarked }),
    nec(2026, 2026, "422.11(E)(3)", [150, "percent"], "memory", { note: unmarked }),
  ],
});

/** Most overcurrent protection of an unmarked heating appliance that draws 13.3 A or less. */
export const unmarkedSmall = defineLimit({
  id: "electrical/circuit-found.unmarked-small",
  title: "Most overcurrent protection of an unmarked heating appliance of 13.3 A or less",
  subject: "electrical",
  kind: "current",
  sense: "atMost",
  maker: "replaces",
  values: [
    nec(2014, 2014, "422.11(E)(2)", [20, "A"], "secondary", { note: unmarked }),
    nec(2017, 2017, "422.11(E)(2)", [20, "A"], "seen", { note: unmarked }),
    nec(2020, 2023, "422.11(E)(2)", [20, "A"], "secondary", { note: unmarked }),
    nec(2026, 2026, "422.11(E)(2)", [20, "A"], "memory", { note: unmarked }),
  ],
});
