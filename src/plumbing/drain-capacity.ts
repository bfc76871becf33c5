import * as z from "zod";
import { brand, type Length, si, type Volume } from "../core/quantity/index.js";
import { defineRule, type Outcome, type Proposal, quantity } from "../core/rule/index.js";
import { circleArea, drainDepth, drainFlow } from "../physics/index.js";
import { manningBasis } from "./basis.js";
import { branchUnits, type DrainSize, drainSizes, drainSlope, trapArm, washerUnits } from "./limits-drain.js";
import { standpipeInput } from "./standpipe.js";
import { drainBores_in, drainNominal_in, drainRoughness } from "./tables/drain.js";

export const drainCapacityInput = z.strictObject({
  kind: standpipeInput.shape.kind,
  pump: quantity("volumeFlow", { min: [0.5, "gpm"], max: [100, "gpm"] })
    .optional()
    .describe("Flow that the machine pumps out with, from its sheet or a bucket and a watch; 10 to 17 gpm is usual"),
  pumpTime: quantity("time", { min: [1, "s"], max: [10, "min"] })
    .optional()
    .describe("How long it pumps without a pause"),
  pipe: z.enum(drainSizes).optional().describe("Nominal size of the drain that the standpipe runs into"),
  material: z.enum(["plastic", "copper", "castIron"]).optional().describe("What that drain is made of"),
  slope: quantity("slope", { min: [0.01, "in/ft"], max: [12, "in/ft"] })
    .optional()
    .describe("Fall of that drain, by level and rule"),
  standpipeHeight: standpipeInput.shape.height,
  standpipePipe: z.enum(drainSizes).optional().describe("Nominal size of the standpipe"),
  arm: quantity("length", { max: [50, "ft"] })
    .optional()
    .describe("Length of the trap arm, from the trap's weir along the pipe to its vent"),
  armPipe: z.enum(drainSizes).optional().describe("Nominal size of the trap arm"),
  otherUnits: z
    .number()
    .min(0)
    .max(300)
    .optional()
    .describe("Drainage fixture units of everything else on the same branch; 0 where the washer is alone"),
});

const boreOf = (size: DrainSize): Length => si(drainBores_in[size], "in");

/**
 * Water that a standpipe holds above the weir of its trap [m³].
 *
 * V = π/4·D²·h: 0.174 US gal for every foot of a 2 in pipe.
 *
 * @param size - nominal size of the standpipe
 * @param height - h, above the weir [m]
 * @example standpipeVolume("2", si(1, "ft")) // 0.00065986
 */
export function standpipeVolume(size: DrainSize, height: Length): Volume {
  return brand<"volume">(circleArea(boreOf(size)) * height);
}

const remedies = {
  wider: "Have the drain made of {size:text} in pipe.",
  steeper: "Have the drain laid to fall {slope:slope}.",
} as const;

/** The drain carries what the washer pumps. A rule; its page is `docs/rules/plumbing/drain-capacity.md`. */
export const drainCapacity = defineRule({
  id: "plumbing/drain-capacity",
  title: "The drain carries what the washer pumps",
  since: "0.1.0",
  input: drainCapacityInput,
  basis: [manningBasis],
  limits: [drainSlope, trapArm, branchUnits, washerUnits],
  messages: {
    pass: {
      carries: "The drain carries the pump's {pump:waterFlow}; running full it carries {full:waterFlow}.",
      depth: "At that flow it runs {depth:ratio} full.",
      held: "The pump gives {surplus:waterVolume} more than the drain carries meanwhile; the standpipe holds {room:waterVolume}.",
      steepEnough: "The drain falls {slope:slope}; {least:slope} is asked for.",
      armShort: "The trap arm is {arm:length} long; {most:length} is the most.",
      armFall: "The trap arm falls {fall:inches}, no more than its own size of {size:inches}.",
      unitsFit: "The branch carries {units:number} fixture units; {most:count} is the most.",
    },
    fail: {
      tooFast:
        "The pump gives {pump:waterFlow} and the drain carries only {full:waterFlow} running full: the standpipe overflows.",
      overflows:
        "The pump gives {surplus:waterVolume} more than the drain carries meanwhile, and the standpipe holds only {room:waterVolume}: it overflows.",
      tooFlat: "The drain falls only {slope:slope}; {least:slope} is asked for.",
      armLong: "The trap arm is {arm:length} long; {most:length} is the most, or the trap is siphoned.",
      armSteep: "The trap arm falls {fall:inches}, more than its own size of {size:inches}: the trap is siphoned.",
      unitsOver: "The branch carries {units:number} fixture units; {most:count} is the most for its size.",
    },
    review: {
      pumpUnknown: "The flow the machine pumps out with is not known.",
      drainUnknown: "The size, material and fall of the drain are needed.",
      armUnknown: "The trap arm was not measured.",
      unitsUnknown: "What else is on the branch was not written down.",
      noTable: "No text adopted here has a figure for a pipe of this size; ask the local authority.",
    },
    notApplicable: { noWasher: "This machine does not pump into a standpipe." },
  },
  remedies,
  cautions: ["water", "scald", "deferral"],
  examples: [
    {
      title: "A new washer on a 2 in drain",
      input: {
        kind: "washer",
        pump: "14 gpm",
        pumpTime: "60 s",
        pipe: "2",
        material: "plastic",
        slope: "1/4 in/ft",
        standpipeHeight: "28 in",
        standpipePipe: "2",
        arm: "5 ft",
        armPipe: "2",
        otherUnits: 2,
      },
      gives: "carries",
    },
    {
      title: "An old 1 1/2 in drain and standpipe with a new machine",
      input: {
        kind: "washer",
        pump: "17 gpm",
        pumpTime: "60 s",
        pipe: "1-1/2",
        material: "castIron",
        slope: "1/8 in/ft",
        standpipeHeight: "24 in",
        standpipePipe: "1-1/2",
        arm: "9 ft",
        armPipe: "1-1/2",
        otherUnits: 3,
      },
      gives: "overflows",
    },
    {
      title: "A short burst that the standpipe holds",
      input: {
        kind: "washer",
        pump: "17 gpm",
        pumpTime: "3 s",
        pipe: "1-1/2",
        material: "plastic",
        slope: "1/4 in/ft",
        standpipeHeight: "30 in",
        standpipePipe: "2",
        arm: "4 ft",
        armPipe: "2",
        otherUnits: 0,
      },
      gives: "held",
    },
    {
      title: "A drain whose standpipe nobody measured",
      input: {
        kind: "washer",
        pump: "17 gpm",
        pipe: "1-1/2",
        material: "plastic",
        slope: "1/4 in/ft",
        arm: "4 ft",
        armPipe: "2",
        otherUnits: 0,
      },
      gives: "tooFast",
    },
    {
      title: "A trap arm laid steep",
      input: {
        kind: "washer",
        pump: "12 gpm",
        pipe: "2",
        material: "plastic",
        slope: "1/2 in/ft",
        arm: "6 ft",
        armPipe: "2",
        otherUnits: 0,
      },
      gives: "armSteep",
    },
    {
      title: "A trap arm of a size no table has",
      input: {
        kind: "washer",
        pump: "12 gpm",
        pipe: "2",
        material: "plastic",
        slope: "1/4 in/ft",
        arm: "3 ft",
        armPipe: "2-1/2",
        otherUnits: 0,
      },
      gives: "noTable",
    },
    { title: "Pump not known", input: { kind: "washer" }, gives: "pumpUnknown" },
    { title: "Drain not known", input: { kind: "washer", pump: "14 gpm" }, gives: "drainUnknown" },
    {
      title: "Trap arm and branch not looked at",
      input: { kind: "washer", pump: "14 gpm", pipe: "2", material: "plastic", slope: "1/4 in/ft" },
      gives: "armUnknown",
    },
    {
      title: "Branch not looked at",
      input: {
        kind: "washer",
        pump: "14 gpm",
        pipe: "2",
        material: "plastic",
        slope: "1/4 in/ft",
        arm: "4 ft",
        armPipe: "2",
      },
      gives: "unitsUnknown",
    },
    { title: "A dishwasher", input: { kind: "dishwasher" }, gives: "noWasher" },
  ],
  check(input, { all, formula, judge, limit, missing, say }) {
    const { kind, pump, pumpTime, pipe, material, slope, standpipeHeight, standpipePipe, arm, armPipe } = input;
    if (kind !== "washer" && kind !== "stack") return say("noWasher");

    const carry = (): Outcome => {
      if (pump === undefined || pipe === undefined || material === undefined || slope === undefined) {
        const open = { pipe, material, slope };
        const absent = Object.entries(open).flatMap(([name, value]) => (value === undefined ? [[name]] : []));
        return all(
          pump === undefined ? missing(["pumpUnknown"], ["pump"]) : undefined,
          absent.length > 0 ? missing(["drainUnknown"], ...absent) : undefined,
        );
      }
      const roughness = drainRoughness[material];
      const drain = { diameter: boreOf(pipe), slope, roughness };
      const full = drainFlow(drain, brand<"ratio">(1));
      formula(
        "{full:waterFlow} = pi / 4 * ({bore:thickness} / (1 m))^2 * ({bore:thickness} / (1 m) / 4)^(2 / 3) * sqrt({slope:slope}) / {roughness:number} * (1 m^3 / (1 s))",
        { full, bore: drain.diameter, slope, roughness },
      );
      const depth = drainDepth(drain, pump);
      const runs = depth === undefined ? undefined : say("depth", { depth });
      if (pumpTime === undefined || standpipeHeight === undefined || standpipePipe === undefined) {
        return all(
          judge({
            kind: "waterFlow",
            measured: pump,
            limit: full,
            sense: "atMost",
            pass: ["carries", { pump, full }],
            fail: ["tooFast", { pump, full }],
          }),
          runs,
        );
      }
      const room = standpipeVolume(standpipePipe, standpipeHeight);
      formula("{room:waterVolume} = pi / 4 * {bore:thickness}^2 * {height:length}", {
        room,
        bore: boreOf(standpipePipe),
        height: standpipeHeight,
      });
      const surplus = brand<"volume">(Math.max(0, pump - full) * pumpTime);
      if (pump > full) {
        formula("{surplus:waterVolume} = ({pump:waterFlow} - {full:waterFlow}) * {time:time}", {
          surplus,
          pump,
          full,
          time: pumpTime,
        });
      }
      return all(
        judge({
          kind: "waterVolume",
          measured: surplus,
          limit: room,
          sense: "atMost",
          pass: pump > full ? ["held", { surplus, room }] : ["carries", { pump, full }],
          fail: ["overflows", { surplus, room }],
        }),
        runs,
      );
    };
    const fall = () => {
      if (pipe === undefined || slope === undefined) return undefined;
      const least = limit(drainSlope, "none", { size: pipe });
      return (
        least &&
        judge({
          kind: "slope",
          measured: slope,
          limit: least,
          pass: ["steepEnough", { slope, least: brand<"slope">(least.value) }],
          fail: ["tooFlat", { slope, least: brand<"slope">(least.value) }],
        })
      );
    };
    const reach = (): Outcome => {
      if (arm === undefined || armPipe === undefined) {
        const absent = [arm === undefined ? ["arm"] : [], armPipe === undefined ? ["armPipe"] : []];
        return missing(["armUnknown"], ...absent.filter((path) => path.length > 0));
      }
      const most = limit(trapArm, "none", { size: armPipe });
      if (!most) return missing(["noTable"], ["armPipe"]);
      const size = si(drainNominal_in[armPipe], "in");
      const long = judge({
        kind: "length",
        measured: arm,
        limit: most,
        pass: ["armShort", { arm, most: brand<"length">(most.value) }],
        fail: ["armLong", { arm, most: brand<"length">(most.value) }],
      });
      if (slope === undefined) return long;
      const drop = brand<"length">(arm * slope);
      formula("{drop:inches} = {arm:length} * {slope:slope}", { drop, arm, slope });
      return all(
        long,
        judge({
          kind: "inches",
          measured: drop,
          limit: size,
          sense: "atMost",
          pass: ["armFall", { fall: drop, size }],
          fail: ["armSteep", { fall: drop, size }],
        }),
      );
    };
    const load = () => {
      if (pipe === undefined)
        return input.otherUnits === undefined ? missing(["unitsUnknown"], ["otherUnits"]) : undefined;
      const most = limit(branchUnits, "none", { size: pipe });
      const own = limit(washerUnits);
      if (!most || !own) return missing(["noTable"], ["pipe"]);
      if (input.otherUnits === undefined) return missing(["unitsUnknown"], ["otherUnits"]);
      const units = input.otherUnits + own.value;
      return judge({
        kind: "number",
        measured: units,
        limit: most,
        pass: ["unitsFit", { units, most: most.value }],
        fail: ["unitsOver", { units, most: most.value }],
      });
    };
    return all(carry(), fall(), reach(), load());
  },
  mend({ pipe, slope }) {
    const proposals: Proposal<typeof remedies>[] = [];
    const quarter = brand<"slope">(1 / 48);
    if (slope !== undefined && slope < quarter) {
      proposals.push({
        change: [{ path: ["slope"], value: quarter, unit: "in/ft" }],
        say: ["steeper", { slope: quarter }],
      });
    }
    if (pipe === undefined) return proposals;
    for (const size of drainSizes.slice(drainSizes.indexOf(pipe) + 1)) {
      proposals.push({ change: [{ path: ["pipe"], value: size }], say: ["wider", { size }] });
    }
    return proposals;
  },
});
