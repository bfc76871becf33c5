/** Every step of a job, each after the steps that must precede it. A step can name only steps made before it: no circles. */
import type { MachineKind } from "../../core/rule/index.js";
import { takesWater } from "../../plumbing/water.js";
import type { Survey } from "../survey.js";

/** What decides which steps a job has. */
export interface JobFacts {
  readonly kind: MachineKind;
  readonly burnsGas: boolean;
  readonly isElectric: boolean;
  readonly isHardWired: boolean;
  readonly hasDuct: boolean;
  /** A dryer that gives its water to a tank or a hose, not to a duct. */
  readonly condenses: boolean;
  readonly takesWater: boolean;
  readonly drains: boolean;
  readonly hasCord: boolean;
  /** A machine of a kind that comes with either, and nobody said whether by cord or by fixed wiring. */
  readonly isUnsaid: boolean;
  readonly isStack: boolean;
}

/** A hold point: work does not go on before a reading is taken, or somebody has said so. */
export interface HoldPoint {
  readonly kind: "measurement" | "word";
  readonly what: string;
}

/** A step as it is declared. */
export interface StepDeclaration {
  readonly id: string;
  readonly title: string;
  readonly what: string;
  /** Steps that come first; only steps declared before can stand here. */
  readonly after: readonly StepDeclaration[];
  readonly when: (facts: JobFacts) => boolean;
  readonly hold: HoldPoint | null;
  /** Rules that must hold before this step is begun. */
  readonly rules: readonly string[];
}

const wet: readonly MachineKind[] = ["washer", "stack", "dishwasher"];

/** The facts of a survey's machine. */
export function factsOf({ machine, electrical }: Survey): JobFacts {
  const { kind, fuel } = machine;
  const burnsGas = fuel === "naturalGas" || fuel === "propane";
  const isDryer = kind === "dryer" || kind === "stack";
  const isHardWired = electrical?.hardWired === true;
  return {
    kind,
    burnsGas,
    isElectric: !burnsGas,
    isHardWired,
    hasDuct: (isDryer && machine.exhaust !== "ventless") || kind === "hood",
    condenses: isDryer && machine.exhaust === "ventless",
    takesWater: takesWater(machine) === true,
    drains: wet.includes(kind),
    hasCord: electrical?.hardWired === false || (!isHardWired && !builtIn.includes(kind)),
    isUnsaid: electrical?.hardWired === undefined && builtIn.includes(kind),
    isStack: kind === "stack",
  };
}

/** Kinds that are as often on fixed wiring as on a cord (common practice, no source). */
const builtIn: readonly MachineKind[] = ["oven", "cooktop", "hood", "dishwasher"];

const always = (): boolean => true;

function step(
  id: string,
  title: string,
  what: string,
  after: readonly StepDeclaration[],
  more: Partial<Pick<StepDeclaration, "when" | "hold" | "rules">> = {},
): StepDeclaration {
  return { id, title, what, after, when: always, hold: null, rules: [], ...more };
}

const word = (what: string): HoldPoint => ({ kind: "word", what });
const measurement = (what: string): HoldPoint => ({ kind: "measurement", what });

// Common practice, no source, unless a rule is named: the order that keeps hands out of live terminals, gas joints in
// reach until they were tested, and the last connection the one that still has room.

const read = step(
  "read",
  "Read the sheet",
  "Read the maker's instructions and the plate; check that the parts are there.",
  [],
);
const settle = step(
  "settle",
  "Settle what is open",
  "Measure what the survey still lacks, and mend what fails.",
  [read],
  {
    hold: word("Nothing that a later step rests on fails or waits."),
  },
);
const way = step(
  "way",
  "Clear the way in",
  "Clear and cover the way; take doors off where they are too narrow.",
  [settle],
  {
    rules: ["placement/passage", "placement/tilt-headroom", "placement/handling"],
  },
);
const floor = step("floor", "Look at the floor", "Clear the spot; see that the floor carries the machine.", [settle], {
  rules: ["placement/floor"],
});
const deadPower = step(
  "dead-power",
  "Switch the power off",
  "Open the circuit, keep it open, and prove the place of work dead.",
  [settle],
  {
    hold: measurement("No voltage between any two conductors, nor to ground, with a meter tried before and after."),
  },
);
const gasOff = step("gas-off", "Shut the gas", "Shut the valve at the machine.", [settle], {
  when: ({ burnsGas }) => burnsGas,
  hold: word("The valve is shut and the flames are out."),
});
const waterOff = step(
  "water-off",
  "Shut the water",
  "Shut the valves and let the pressure off into a bucket.",
  [settle],
  {
    when: ({ takesWater }) => takesWater,
  },
);
const oldShut = step(
  "old-shut",
  "Shut what the old machine had",
  "Shut gas and water of whatever stands there now, whatever the new machine takes; let the pressure off.",
  [settle],
  { hold: word("Its gas and water are shut, and an outlet that stays unused is capped gas-tight.") },
);
const oldOut = step("old-out", "Take the old machine out", "Take off duct, hoses, connector and cord, then move it.", [
  way,
  deadPower,
  gasOff,
  waterOff,
  oldShut,
]);
const cleanDuct = step(
  "clean-duct",
  "Clean the duct",
  "Brush lint from the run to the hood; see that the damper moves.",
  [oldOut],
  {
    when: ({ hasDuct }) => hasDuct,
    rules: ["venting/duct-length", "venting/duct-construction", "venting/termination", "venting/hood-exhaust"],
  },
);
const bring = step(
  "bring",
  "Bring the machine in",
  "Carry or roll it to the spot, upright, with as many people as it asks for.",
  [oldOut, floor],
  { rules: ["placement/handling"] },
);
const bolts = step(
  "bolts",
  "Take out what held it on the way",
  "Take out transport bolts, blocks and tape; keep them.",
  [bring],
);
const feet = step("feet", "Put the feet on", "Thread every foot fully in before the machine stands on them.", [bolts], {
  when: ({ kind }) => kind !== "hood" && kind !== "cooktop" && kind !== "oven",
});
const stackUp = step(
  "stack-up",
  "Set the dryer on the washer",
  "Level the washer first; fix the dryer with the maker's kit.",
  [feet],
  {
    when: ({ isStack }) => isStack,
    rules: ["placement/stability"],
  },
);
const bracket = step(
  "bracket",
  "Fix the anti-tip bracket",
  "Fix it to floor or wall where the rear foot comes to stand.",
  [oldOut],
  {
    when: ({ kind }) => kind === "range",
  },
);
const cord = step(
  "cord",
  "Put the cord on",
  "Strain relief first, then conductors by their terminals, strap as the cord asks; not plugged in.",
  [bolts, deadPower],
  {
    when: ({ hasCord }) => hasCord,
    rules: ["electrical/cord-match", "electrical/strain-relief", "electrical/terminal-torque"],
    hold: measurement("Terminal screws at their torque; no continuity from a line to the cabinet."),
  },
);
const wire = step(
  "wire",
  "Join the fixed wiring",
  "Join conductors in the box, by a person who is licensed for it.",
  [bolts, deadPower],
  {
    when: ({ isHardWired }) => isHardWired,
    rules: ["electrical/branch-circuit", "electrical/disconnect"],
    hold: word("The licensed person says that the joints are made and the box is closed."),
  },
);
const unsaid = step(
  "join-power",
  "Join the power, cord or fixed wiring",
  "Find out which it is: a cord is fitted, fixed wiring is joined by a person who is licensed for it.",
  [bolts, deadPower],
  { when: ({ isUnsaid }) => isUnsaid, hold: word("It is said which, and the survey has it.") },
);
const hoses = step(
  "hoses",
  "Put the hoses on",
  "New washers; by hand until snug, then the part of a turn that the joint takes.",
  [bolts, waterOff],
  {
    when: ({ takesWater }) => takesWater,
    rules: ["plumbing/hose-reach", "plumbing/hose-condition", "plumbing/supply-pressure"],
  },
);
const waterOn = step(
  "water-on",
  "Turn the water on and look",
  "Open the valves; dry every joint and look again after some minutes.",
  [hoses],
  {
    when: ({ takesWater }) => takesWater,
    hold: word("No joint drips with the water on."),
  },
);
const drain = step("drain", "Put the drain hose in", "Fasten it at its height, with its air break.", [bolts], {
  when: ({ drains }) => drains,
  rules: ["plumbing/standpipe", "plumbing/dishwasher-drain"],
});
const condensate = step(
  "condensate",
  "Lead its condensate away",
  "Put the hose in at a drain, falling all the way, or see that the tank sits home.",
  [bolts],
  { when: ({ condenses }) => condenses },
);
const connector = step(
  "connector",
  "Join the gas",
  "A new connector, one only, no sealant on flares; valve still shut.",
  [bolts, gasOff],
  {
    when: ({ burnsGas }) => burnsGas,
    rules: ["plumbing/gas-connector", "plumbing/gas-pressure"],
  },
);
const leak = step(
  "leak",
  "Test for leaks",
  "Open the valve; test every joint that was touched, while it can be reached.",
  [connector],
  {
    when: ({ burnsGas }) => burnsGas,
    rules: ["plumbing/leak-test"],
    hold: measurement("No bubble at any joint, and no fall of pressure."),
  },
);
const hang = step(
  "hang",
  "Hang the hood",
  "Fix it with the screws that it came with, while somebody else holds it.",
  [bolts],
  {
    when: ({ kind }) => kind === "hood",
    hold: word("Every screw holds in what bears the hood, none in the board alone."),
  },
);
const duct = step(
  "duct",
  "Join the duct",
  "Join it while there is still room; foil tape or clamps, no screws into the air.",
  [cleanDuct, feet, stackUp, hang, cord, wire, unsaid, waterOn, drain, leak],
  { when: ({ hasDuct }) => hasDuct, rules: ["venting/transition-duct", "placement/connections-behind"] },
);
const slide = step(
  "slide",
  "Put it in its place",
  "Push or lower it home without crushing duct, hose or cord.",
  [duct, feet, stackUp, bracket, cord, wire, unsaid, waterOn, drain, condensate, leak],
  {
    when: ({ kind }) => kind !== "hood",
    rules: ["placement/clearances", "placement/door-swing"],
    hold: word("Looked behind: nothing is crushed, kinked or stood upon."),
  },
);
const level = step(
  "level",
  "Level it",
  "Turn the feet until it is level and all of them bear; lock the nuts.",
  [slide],
  {
    when: ({ kind }) => kind !== "hood" && kind !== "cooktop" && kind !== "oven",
    hold: measurement("The level's reading both ways, and no rock when a corner is pressed."),
  },
);
const inBracket = step(
  "in-bracket",
  "See the foot in the bracket",
  "Look, or tip it forward a little: the bracket must hold it.",
  [level],
  {
    when: ({ kind }) => kind === "range",
    hold: word("The rear foot is in the bracket."),
  },
);
const fasten = step(
  "fasten",
  "Fasten it",
  "Screw it to cabinet or counter where its sheet says, no longer than the wood is thick.",
  [level],
  {
    when: ({ kind }) => kind === "dishwasher" || kind === "oven" || kind === "cooktop",
    hold: word("It does not move when it is pulled, nor with its door open."),
  },
);
const leakAgain = step(
  "leak-again",
  "Test for leaks again",
  "The last push can strain what was tight: test each joint that can still be reached, the valve open.",
  [inBracket, fasten],
  {
    when: ({ burnsGas }) => burnsGas,
    hold: measurement("No bubble at any joint, and no fall of pressure, with the machine where it stays."),
  },
);
const alarm = step(
  "alarm",
  "Alarm and air before the first fire",
  "Try the carbon monoxide alarm; see that air for the flame comes in.",
  [settle, leak],
  {
    when: ({ burnsGas }) => burnsGas,
    rules: ["venting/combustion-air", "venting/makeup-air"],
    hold: word("The alarm answers its test, and nothing closes the openings for air."),
  },
);
const powerOn = step(
  "power-on",
  "Power last",
  "Close the circuit after everything else; a plug behind the machine goes in before the last push, the circuit still open.",
  [leakAgain, alarm],
  {
    rules: ["electrical/circuit-found", "electrical/receptacle-reach", "electrical/shock-and-arc-protection"],
  },
);
const run = step(
  "run",
  "Run it",
  "Run it through: heat, fill, drain, spin, air at the hood; take the readings as left.",
  [powerOn],
  {
    rules: ["electrical/supply-voltage", "venting/back-pressure-limit"],
    hold: measurement("Voltage under load; air at the hood; no drip, no smell of gas, no unusual noise."),
  },
);
const air = step("air", "Look at the flame", "Look at the flame; see that burnt gas leaves.", [run], {
  when: ({ burnsGas }) => burnsGas,
  hold: word("The flame is steady, and what it burns to leaves the room."),
});
const handOver = step(
  "hand-over",
  "Hand it over",
  "Show valves, circuit and lint filter; leave the sheet, the label and the record.",
  [run, air],
  {
    rules: ["venting/length-label"],
    hold: word("Whoever lives there has been shown how to shut it off."),
  },
);

/** The declared steps, in an order that respects them. */
export const declared: readonly StepDeclaration[] = [
  read,
  settle,
  way,
  floor,
  deadPower,
  gasOff,
  waterOff,
  oldShut,
  oldOut,
  cleanDuct,
  bring,
  bolts,
  feet,
  stackUp,
  bracket,
  cord,
  wire,
  unsaid,
  hoses,
  waterOn,
  drain,
  condensate,
  connector,
  leak,
  hang,
  duct,
  slide,
  level,
  inBracket,
  fasten,
  leakAgain,
  alarm,
  powerOn,
  run,
  air,
  handOver,
];
