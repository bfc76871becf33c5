import * as z from "zod";
import { brand, type Length, type Pressure, type Speed, si, type Time } from "../core/quantity/index.js";
import { defineRule, type Proposal, quantity } from "../core/rule/index.js";
import { circleArea, joukowsky, meanVelocity, wavePeriod, waveSpeed } from "../physics/index.js";
import { hammerBasis } from "./basis.js";
import { hoseConditionInput } from "./hose-condition.js";
import { arresterRequired, surgePeak } from "./limits.js";
import { waterBore } from "./supply-loss.js";
import { supplyPressureInput } from "./supply-pressure.js";
import {
  type ArresterSize,
  arresterRules,
  arresterSizes,
  arresterStandard,
  arresterUnits,
} from "./tables/arresters.js";
import { usualWater, type WaterPipe, waterPipeRows, waterPipes } from "./tables/water-pipe.js";
import { takesWater, waterFacts, waterQuestion } from "./water.js";

/** Schema of a stretch of pipe or hose that a pressure wave runs along. */
export const surgeRunInput = z.strictObject({
  pipe: z.enum(waterPipes).describe("Pipe or hose of the run, by material and nominal size"),
  length: quantity("length", { min: [1, "in"], max: [1000, "ft"] }).describe("Length of the run along the pipe"),
});

export const surgeInput = z.strictObject({
  ...waterFacts,
  staticPressure: supplyPressureInput.shape.staticPressure,
  runs: z
    .array(surgeRunInput)
    .max(10)
    .optional()
    .describe("Pipes and hoses from the machine's valve back to the next larger pipe, one after another"),
  flow: quantity("volumeFlow", { min: [0.01, "gpm"], max: [50, "gpm"] })
    .optional()
    .describe("Flow that the machine fills with, from its sheet or a bucket and a watch"),
  closing: quantity("time", { min: [1, "ms"], max: [60, "s"] })
    .optional()
    .describe("Time its valve takes to shut, from the sheet; a solenoid takes 10 to 50 ms"),
  hoseRating: hoseConditionInput.shape.rating,
  arrester: z
    .enum(["none", ...arresterSizes])
    .optional()
    .describe("Size letter of the arrester at the valve, or none; a plain capped stub of pipe is none"),
  units: z
    .number()
    .min(0.5)
    .max(330)
    .optional()
    .describe("Supply fixture units of the branch the arrester serves; a washer alone counts 1.4"),
  branch: quantity("length", { min: [0.5, "ft"], max: [500, "ft"] })
    .optional()
    .describe("Length of the branch that the arrester serves"),
  arresters: z.int().min(1).max(6).optional().describe("How many arresters serve the branch"),
});

/** A run of pipe with the water in it. */
export interface SurgeRun {
  readonly pipe: WaterPipe;
  readonly length: Length;
  /** Speed that is taken from the water [m/s]. */
  readonly stopped: Speed;
}

/** The surge of a closing valve. */
export interface Surge {
  /** Time the wave takes to the far end and back [s]. */
  readonly period: Time;
  /** Whether the valve shuts within that time. */
  readonly isFast: boolean;
  /** Rise of a valve that shuts at once, the greatest of the runs [Pa]. */
  readonly atOnce: Pressure;
  /** Rise by Michaud for the time given [Pa]. */
  readonly slow: Pressure;
  /** The lesser of the two [Pa]. */
  readonly rise: Pressure;
}

/** Wave speed in a household pipe or hose [m/s]; of hoses and plastics only the order of size. */
export const waveSpeedIn = (pipe: WaterPipe): Speed => {
  const { wall_in, modulus_GPa } = waterPipeRows[pipe];
  return waveSpeed({
    diameter: waterBore(pipe),
    wall: si(wall_in, "in"),
    modulus: brand<"pressure">(modulus_GPa * 1e9),
    bulkModulus: brand<"pressure">(usualWater.bulkModulus_GPa * 1e9),
    density: si(usualWater.density_kg_m3, "kg/m3"),
  });
};

/**
 * Pressure rise when a valve shuts on runs of pipe in series [Pa].
 *
 * Shut within Σ 2·L/a it acts at once: the greatest ρ·a·v of the runs (Joukowsky). Slower: 2·ρ·Σ(L·v)/t (Michaud), never
 * more than the first. Friction, air and the give of the machine's own valve lower it.
 *
 * @param runs - from the valve back to the next larger pipe
 * @param time - closing time, above 0 [s]
 * @example closingSurge([{ pipe: "copper L 1/2", length: si(50, "ft"), stopped: si(1.677, "m/s") }], si(10, "ms")).rise // 2217299.6
 */
export function closingSurge(runs: readonly SurgeRun[], time: Time): Surge {
  const density = si(usualWater.density_kg_m3, "kg/m3");
  let period = 0;
  let atOnce = 0;
  let inertia = 0;
  for (const { pipe, length, stopped } of runs) {
    const speed = waveSpeedIn(pipe);
    period += wavePeriod(length, speed);
    atOnce = Math.max(atOnce, joukowsky(density, speed, stopped));
    inertia += density * length * stopped;
  }
  const slow = (2 * inertia) / time;
  return {
    period: brand<"time">(period),
    isFast: time <= period,
    atOnce: brand<"pressure">(atOnce),
    slow: brand<"pressure">(slow),
    rise: brand<"pressure">(Math.min(atOnce, slow)),
  };
}

/** The least size of arrester for a branch: by its fixture units, one size more above 65 psi flowing. */
export function arresterFor(units: number, pressure: Pressure): ArresterSize | undefined {
  const at = arresterSizes.findIndex((size) => units <= arresterUnits[size]);
  if (at < 0) return undefined;
  const step = pressure > si(arresterRules.nextAbove_psi, "psi") * (1 + 1e-9) ? 1 : 0;
  return arresterSizes[at + step];
}

const remedies = {
  arrester: "Fit a listed water-hammer arrester of size {size:text} right at the machine's valve.",
  arresters: "Fit {count:count} listed water-hammer arresters of size {size:text}, one right at the machine's valve.",
} as const;

/** The surge when the fill valve shuts is held. A rule; its page is `docs/rules/plumbing/surge.md`. */
export const surge = defineRule({
  id: "plumbing/surge",
  title: "The surge when the fill valve shuts is held",
  since: "0.1.0",
  input: surgeInput,
  basis: [hammerBasis, arresterStandard],
  limits: [arresterRequired, surgePeak],
  messages: {
    pass: {
      fitted: "An arrester of size {size:text} serves the branch; {need:text} is called for.",
      oneServes: "One arrester serves the whole branch.",
      enough: "The branch has {count:count} arresters.",
      peakHeld: "Without an arrester the pressure would reach {peak:pressure}; {most:pressure} is the most.",
      hoseHolds: "The hose is rated for {rating:pressure} and would see {peak:pressure}.",
    },
    fail: {
      noArrester: "The machine's valves shut quickly and no arrester is fitted: one is called for.",
      tooSmall: "The arrester is of size {size:text}; the branch calls for {need:text}.",
      tooFew: "The branch is longer than 20 ft and has one arrester; two are called for.",
      peakOver:
        "Without an arrester the pressure reaches {peak:pressure} when the valve shuts; {most:pressure} is the most.",
      hoseOver: "The hose is rated for {rating:pressure} and sees {peak:pressure} when the valve shuts.",
    },
    review: {
      waterUnknown: "Say whether the machine takes water.",
      arresterUnknown: "Nobody looked for an arrester.",
      unitsUnknown: "The fixture units, the length of the branch and the number of arresters are needed to size it.",
      beyondTable: "No size serves so many fixture units at this pressure; have the branch designed.",
      pipeUnknown: "The pipes, the flow, the closing time and the static pressure are needed to reckon the surge.",
    },
    notApplicable: { noWater: "This machine takes no water." },
  },
  remedies,
  cautions: ["water", "deferral"],
  examples: [
    {
      title: "A washer with an arrester on each valve",
      input: {
        kind: "washer",
        arrester: "A",
        arresters: 1,
        units: 1.4,
        branch: "12 ft",
        staticPressure: "60 psi",
        runs: [
          { pipe: "hose 3/8", length: "5 ft" },
          { pipe: "copper L 1/2", length: "50 ft" },
        ],
        flow: "4 gpm",
        closing: "20 ms",
        hoseRating: "150 psi",
      },
      gives: "fitted",
    },
    {
      title: "A long copper run that hammers",
      input: {
        kind: "washer",
        arrester: "none",
        units: 1.4,
        branch: "15 ft",
        staticPressure: "60 psi",
        runs: [{ pipe: "copper L 1/2", length: "50 ft" }],
        flow: "4 gpm",
        closing: "20 ms",
        hoseRating: "150 psi",
      },
      gives: "noArrester",
    },
    {
      title: "A short PEX branch under an ordinance that asks for no arrester",
      input: {
        kind: "washer",
        arrester: "none",
        staticPressure: "50 psi",
        runs: [{ pipe: "PEX 1/2", length: "6 ft" }],
        flow: "2 gpm",
        closing: "200 ms",
        hoseRating: "150 psi",
      },
      at: {
        jurisdiction: {
          local: [{ limit: "plumbing/surge.arrester", value: false, citation: { document: "Ordinance 12" } }],
        },
      },
      gives: "peakHeld",
    },
    {
      title: "One small arrester for a long laundry branch at high pressure",
      input: { kind: "washer", arrester: "A", arresters: 1, units: 14, branch: "35 ft", staticPressure: "75 psi" },
      gives: "tooSmall",
    },
    {
      title: "Two arresters for a long branch",
      input: { kind: "washer", arrester: "B", arresters: 2, units: 14, branch: "35 ft", staticPressure: "60 psi" },
      gives: "enough",
    },
    {
      title: "More machines than any size serves",
      input: { kind: "washer", arrester: "F", arresters: 1, units: 320, branch: "15 ft", staticPressure: "75 psi" },
      gives: "beyondTable",
    },
    {
      title: "An arrester whose branch is not known",
      input: { kind: "washer", arrester: "A" },
      gives: "unitsUnknown",
    },
    { title: "Nobody looked", input: { kind: "washer" }, gives: "arresterUnknown" },
    {
      title: "No arrester, and nothing measured",
      input: { kind: "washer", arrester: "none" },
      gives: "pipeUnknown",
    },
    { title: "A dryer", input: { kind: "dryer" }, gives: "waterUnknown" },
    { title: "A hood", input: { kind: "hood" }, gives: "noWater" },
  ],
  check(input, { all, assume, formula, judge, limit, missing, say }) {
    const { kind, staticPressure, runs, flow, closing, hoseRating, arrester, units, branch, arresters } = input;
    const wet = takesWater(input);
    if (wet === false) return say("noWater");
    if (wet === undefined) return missing(["waterUnknown"], [waterQuestion(kind)]);
    if (arrester === undefined) return missing(["arresterUnknown"], ["arrester"]);

    const absentOf = (open: Readonly<Record<string, unknown>>): string[][] =>
      Object.entries(open).flatMap(([name, value]) => (value === undefined ? [[name]] : []));

    if (arrester !== "none") {
      if (units === undefined || branch === undefined || arresters === undefined || staticPressure === undefined) {
        return missing(["unitsUnknown"], ...absentOf({ units, branch, arresters, staticPressure }));
      }
      assume("The static pressure stands for the flowing one in choosing the size, on the safe side.");
      const need = arresterFor(units / arresters, staticPressure);
      if (need === undefined) return missing(["beyondTable"], ["units"]);
      const size = judge({
        kind: "number",
        measured: arresterUnits[arrester],
        limit: arresterUnits[need],
        sense: "atLeast",
        pass: ["fitted", { size: arrester, need }],
        fail: ["tooSmall", { size: arrester, need }],
      });
      if (arresters > 1) return all(size, say("enough", { count: arresters }));
      return all(
        size,
        judge({
          kind: "length",
          measured: branch,
          limit: si(arresterRules.twoAbove_ft, "ft"),
          sense: "atMost",
          pass: ["oneServes"],
          fail: ["tooFew"],
        }),
      );
    }

    const called = limit(arresterRequired)?.value === 1;
    const peaks = () => {
      if (
        runs === undefined ||
        runs.length === 0 ||
        flow === undefined ||
        closing === undefined ||
        staticPressure === undefined
      ) {
        const known = runs !== undefined && runs.length > 0 ? runs : undefined;
        return missing(["pipeUnknown"], ...absentOf({ runs: known, flow, closing, staticPressure }));
      }
      const moving = runs.map(({ pipe, length }): SurgeRun => {
        const bore = waterBore(pipe);
        const stopped = meanVelocity(flow, circleArea(bore));
        formula("{stopped:waterSpeed} = 4 * {flow:waterFlow} / (pi * {bore:thickness}^2)", { stopped, flow, bore });
        return { pipe, length, stopped };
      });
      const density = si(usualWater.density_kg_m3, "kg/m3");
      const made = closingSurge(moving, closing);
      moving.forEach(({ pipe, stopped }) => {
        const { wall_in, modulus_GPa } = waterPipeRows[pipe];
        const wave = waveSpeedIn(pipe);
        formula(
          "{wave:waterSpeed} = sqrt({bulk:pressure} / {density:density}) / sqrt(1 + {bulk:pressure} / {stiff:pressure} * {bore:thickness} / {wall:thickness})",
          {
            wave,
            bulk: brand<"pressure">(usualWater.bulkModulus_GPa * 1e9),
            density,
            stiff: brand<"pressure">(modulus_GPa * 1e9),
            bore: waterBore(pipe),
            wall: si(wall_in, "in"),
          },
        );
        formula("{atOnce:pressure} = {density:density} * {wave:waterSpeed} * {stopped:waterSpeed}", {
          atOnce: joukowsky(density, wave, stopped),
          density,
          wave,
          stopped,
        });
      });
      assume(
        made.isFast
          ? "The valve shuts before the wave is back: fast closure, reckoned as if at once."
          : "The valve shuts after the wave is back: slow closure, reckoned by Michaud's bound.",
      );
      if (moving.length === 1) {
        const [{ length, stopped }] = moving as [SurgeRun];
        formula("{slow:pressure} = 2 * {density:density} * {length:length} * {stopped:waterSpeed} / {time:time}", {
          slow: made.slow,
          density,
          length,
          stopped,
          time: closing,
        });
      }
      const peak = brand<"pressure">(staticPressure + made.rise);
      formula("{peak:pressure} = {rest:pressure} + min({atOnce:pressure}, {slow:pressure})", {
        peak,
        rest: staticPressure,
        atOnce: made.atOnce,
        slow: made.slow,
      });
      const most = limit(surgePeak);
      return all(
        most &&
          judge({
            kind: "pressure",
            measured: peak,
            limit: most,
            pass: ["peakHeld", { peak, most: brand<"pressure">(most.value) }],
            fail: ["peakOver", { peak, most: brand<"pressure">(most.value) }],
          }),
        hoseRating === undefined
          ? undefined
          : judge({
              kind: "pressure",
              measured: peak,
              limit: hoseRating,
              sense: "atMost",
              pass: ["hoseHolds", { rating: hoseRating, peak }],
              fail: ["hoseOver", { rating: hoseRating, peak }],
            }),
      );
    };
    return all(called ? say("noArrester") : undefined, peaks());
  },
  mend({ units, branch, staticPressure, arrester }) {
    if (units === undefined || branch === undefined || staticPressure === undefined) return [];
    const count = branch > si(arresterRules.twoAbove_ft, "ft") ? 2 : 1;
    const size = arresterFor(units / count, staticPressure);
    if (size === undefined || arrester === undefined) return [];
    const change = [
      { path: ["arrester"], value: size },
      { path: ["arresters"], value: count },
    ];
    const proposals: Proposal<typeof remedies>[] =
      count === 1 ? [{ change, say: ["arrester", { size }] }] : [{ change, say: ["arresters", { count, size }] }];
    return proposals;
  },
});
