import * as z from "zod";
import { burns } from "../core/basis/index.js";
import { brand, type Length, type Power, type Pressure, si, type VolumeFlow } from "../core/quantity/index.js";
import { defineRule, machineFacts, type Outcome, type Proposal, quantity, type Read } from "../core/rule/index.js";
import { lookUp } from "../core/table/index.js";
import { type GasFactors, highPressureGasFlow, lowPressureGasFlow, naturalGas, propane } from "../physics/index.js";
import { gasHeat, gasSizing } from "./basis.js";
import { gasFlow } from "./gas-demand.js";
import { pipeDrop } from "./limits-gas.js";
import { heatContent_Btu_ft3 } from "./tables/fuel-gas.js";
import {
  capacityTable,
  codeAtmosphere_psi,
  fittingLengths,
  fittingsFrom,
  type GasPipe,
  gasBores_in,
  gasPipes,
  usualDrop_inH2O,
} from "./tables/gas-pipe.js";

const fittings = z.int().min(0).max(40).optional();

/** Schema of one section of gas pipe. */
export const gasSectionInput = z.strictObject({
  pipe: z.enum(gasPipes).describe("Pipe of the section: schedule 40 steel or type K copper, by nominal size"),
  length: quantity("length", { min: [1, "in"], max: [1000, "ft"] }).describe("Length of the section along the pipe"),
  elbows: fittings.describe("90° elbows in the section"),
  elbows45: fittings.describe("45° elbows in the section"),
  tees: fittings.describe("Tees that the section's gas turns through"),
  load: quantity("power", { max: [2_000_000, "Btu/h"] })
    .optional()
    .describe("Input rate of the machine at the section's end; left out where it only branches"),
  after: z
    .int()
    .min(1)
    .max(39)
    .optional()
    .describe(
      "Number of the section it comes off, counting from 1 in this list; left out for the one at the meter or tank",
    ),
});

export const gasPipeInput = z.strictObject({
  fuel: machineFacts.fuel,
  heatContent: quantity("heatContent", { min: [400, "Btu/ft3"], max: [3500, "Btu/ft3"] })
    .optional()
    .describe("Heat in a cubic foot of the gas as the supplier bills it"),
  inlet: quantity("pressure", { min: [1, "inH2O"], max: [50, "psi"] })
    .optional()
    .describe("Gauge pressure where the piping begins: after the meter or the last regulator"),
  drop: quantity("pressure", { min: [0.05, "inH2O"], max: [10, "psi"] })
    .optional()
    .describe("Pressure that the piping may lose to the farthest machine; 0.5 in w.c. where left out at low pressure"),
  method: z
    .enum(["longestLength", "branchLength"])
    .optional()
    .describe(
      "How lengths count: the one longest run for every section, or each branch its own; longest where left out",
    ),
  sections: z
    .array(gasSectionInput)
    .max(40)
    .check((context) => {
      context.value.forEach(({ after }, i) => {
        if (after === undefined || after <= i) return;
        const expected = i === 0 ? "no number: the first section is at the meter" : `a number from 1 to ${i}`;
        context.issues.push({
          code: "custom",
          input: after,
          path: [i, "after"],
          message: `name a section listed before this one: ${expected}`,
          params: { code: "notAccepted", expected },
        });
      });
    })
    .optional()
    .describe("Sections of the piping in order from the meter or tank outwards"),
});

type Section = Read<z.output<typeof gasSectionInput>>;

/** Inside diameter of a pipe [m]. */
export const gasBore = (pipe: GasPipe): Length => si(gasBores_in[pipe], "in");

/**
 * Length of a section with its fittings [m]: the pipe, and from four fittings on an allowance for each.
 *
 * L = pipe + D·(30·elbows + 14·45s + 60·tees).
 *
 * @param section - pipe, length and numbers of fittings
 * @basis IRC 2018, Table A.2.2; allowance from four fittings on, IFGC 2018 appendix A
 * @example sectionLength({ pipe: "steel 1/2", length: si(10, "ft"), elbows: 4 }) // 4.943856
 */
export function sectionLength(
  section: Pick<Section, "pipe" | "length"> & Partial<Pick<Section, "elbows" | "elbows45" | "tees">>,
): Length {
  const { pipe, length, elbows = 0, elbows45 = 0, tees = 0 } = section;
  if (elbows + elbows45 + tees < fittingsFrom) return length;
  const diameters = fittingLengths.elbow90 * elbows + fittingLengths.elbow45 * elbows45 + fittingLengths.tee * tees;
  return brand<"length">(length + gasBore(pipe) * diameters);
}

/** What a section of a network carries and the length it is sized on. */
export interface SectionDuty {
  /** Sum of the inputs past it [W]. */
  readonly load: Power;
  /** Length to size it on [m]. */
  readonly length: Length;
}

/**
 * The duty of every section of a tree of gas piping.
 *
 * Load: its own machine and all past it. Length: by the longest-length method the longest run of the whole system for
 * every section; by the branch-length method that run for the sections on it, and for every other section the longest
 * run that it is part of.
 *
 * @param sections - in order from the point of delivery; `after` counts from 1
 * @param method - how lengths count
 * @basis IFGC 2018 402.4 and appendix A (IRC G2413.4)
 * @example sectionDuties([{ pipe: "steel 1", length: si(10, "ft"), load: si(22000, "Btu/h") }], "longestLength")[0].length // 3.048
 */
export function sectionDuties(
  sections: readonly Section[],
  method: "longestLength" | "branchLength",
): readonly SectionDuty[] {
  const loads = sections.map(({ load = 0 }) => load as number);
  const runs: number[] = [];
  sections.forEach((section, i) => {
    runs[i] = sectionLength(section) + (section.after === undefined ? 0 : runs[section.after - 1]!);
  });
  // The longest run to an outlet through each section, found from the ends inwards.
  const through = [...runs];
  for (let i = sections.length - 1; i >= 0; i--) {
    const { after } = sections[i]!;
    if (after === undefined) continue;
    loads[after - 1]! += loads[i]!;
    through[after - 1] = Math.max(through[after - 1]!, through[i]!);
  }
  const longest = Math.max(0, ...runs);
  return sections.map((_, i) => ({
    load: brand<"power">(loads[i]!),
    length: brand<"length">(method === "longestLength" ? longest : through[i]!),
  }));
}

const LOW_END = si(1.5, "psi");

/** What a pipe carries, by the code's equation and by its printed table where there is one. */
export interface GasCapacity {
  readonly equation: VolumeFlow;
  readonly printed: VolumeFlow | undefined;
  /** The stricter of the two. */
  readonly capacity: VolumeFlow;
}

/**
 * Gas that a pipe carries [m³/s], by the code's equation for the inlet pressure and by the printed table for that gas,
 * drop and size; the stricter counts.
 *
 * Equation 4-1 under 1.5 psi, equation 4-2 from there on; the tables take the next longer row, and past their last row
 * that one as a cap on the equation.
 *
 * @param fuel - the gas
 * @param pipe - pipe by nominal size
 * @param length - with its fittings, above 0 [m]
 * @param inlet - gauge pressure where the piping begins [Pa]
 * @param drop - pressure it may lose, above 0 and below the inlet's absolute pressure [Pa]
 * @basis IFGC 2018 402.4, equations 4-1 and 4-2, tables 402.4(1), (2) and (28)
 * @example gasPipeCapacity("naturalGas", "steel 1/2", si(60, "ft"), si(7, "inH2O"), si(0.5, "inH2O")).printed // 0.00051128
 */
export function gasPipeCapacity(
  fuel: "naturalGas" | "propane",
  pipe: GasPipe,
  length: Length,
  inlet: Pressure,
  drop: Pressure,
): GasCapacity {
  const gas = factorsOf(fuel);
  const bore = gasBore(pipe);
  if (inlet >= LOW_END) {
    const absolute = brand<"pressure">(inlet + si(codeAtmosphere_psi, "psi"));
    const equation = highPressureGasFlow(bore, absolute, brand<"pressure">(absolute - drop), length, gas);
    return { equation, printed: undefined, capacity: equation };
  }
  const equation = lowPressureGasFlow(bore, drop, length, gas);
  const table = capacityTable(fuel, drop, pipe);
  // Past its last row the table says nothing, but a longer pipe cannot carry more than that row.
  const found = table && (lookUp(table, length) ?? table.rows[table.rows.length - 1]![1]);
  if (found === undefined) return { equation, printed: undefined, capacity: equation };
  // The propane table is in heat, at the code's heat content.
  const printed =
    fuel === "propane"
      ? gasFlow(brand<"power">(found), si(heatContent_Btu_ft3.propane, "Btu/ft3"))
      : brand<"volumeFlow">(found);
  return { equation, printed, capacity: brand<"volumeFlow">(Math.min(equation, printed)) };
}

const factorsOf = (fuel: "naturalGas" | "propane"): GasFactors => (fuel === "propane" ? propane : naturalGas);

const remedies = { larger: "Use larger pipe: {list:text}." } as const;

/** Every section of gas piping carries what burns past it. A rule; its page is `docs/rules/plumbing/gas-pipe.md`. */
export const gasPipe = defineRule({
  id: "plumbing/gas-pipe",
  title: "Every section of gas piping carries what burns past it",
  since: "0.1.0",
  input: gasPipeInput,
  basis: [gasSizing, gasHeat],
  limits: [pipeDrop],
  messages: {
    pass: {
      carries: "Section {n:count}, {pipe:text} in, carries {capacity:gasFlow} and needs {need:gasFlow}.",
      dropFits: "The drop of {drop:gasPressure} is less than the {inlet:gasPressure} there is.",
    },
    fail: {
      tooSmall: "Section {n:count}, {pipe:text} in, carries only {capacity:gasFlow}; {need:gasFlow} is needed.",
      dropTooMuch: "The drop of {drop:gasPressure} is more than the {inlet:gasPressure} there is.",
    },
    review: {
      sectionsUnknown: "The gas piping was not listed section by section.",
      inletUnknown: "The pressure where the piping begins was not measured.",
      dropUnknown: "At 1.5 psi and more, say how much pressure the piping may lose.",
      loadUnknown: "No machine is named at the end of the piping; say what burns there.",
    },
    notApplicable: { noGas: "This machine burns no gas." },
  },
  remedies,
  cautions: ["gas", "carbonMonoxide", "deferral"],
  examples: [
    {
      title: "The code's first worked example: four machines on a 60 ft run",
      input: {
        fuel: "naturalGas",
        inlet: "7 in w.c.",
        drop: "0.5 in w.c.",
        sections: [
          { pipe: "steel 1", length: "20 ft" },
          { pipe: "steel 3/4", length: "10 ft", after: 1 },
          { pipe: "steel 1/2", length: "10 ft", load: "35,000 Btu/h", after: 2 },
          { pipe: "steel 3/4", length: "30 ft", load: "75,000 Btu/h", after: 2 },
          { pipe: "steel 3/4", length: "15 ft", after: 1 },
          { pipe: "steel 1/2", length: "10 ft", load: "35,000 Btu/h", after: 5 },
          { pipe: "steel 3/4", length: "15 ft", load: "100,000 Btu/h", after: 5 },
        ],
      },
      gives: "carries",
    },
    {
      title: "A dryer and a range on a long 1/2 in branch at 5,300 ft",
      input: {
        fuel: "naturalGas",
        heatContent: "830 Btu/ft3",
        inlet: "7 in w.c.",
        method: "branchLength",
        sections: [
          { pipe: "steel 3/4", length: "25 ft", elbows: 4, tees: 1 },
          { pipe: "steel 1/2", length: "40 ft", elbows: 3, tees: 1, after: 1 },
          { pipe: "steel 1/2", length: "4 ft", load: "22,000 Btu/h", after: 2 },
          { pipe: "steel 1/2", length: "10 ft", load: "65,000 Btu/h", after: 2 },
        ],
      },
      gives: "tooSmall",
    },
    {
      title: "Propane over 80 ft, where the printed table is shifted",
      input: {
        fuel: "propane",
        inlet: "11 in w.c.",
        sections: [{ pipe: "steel 1/2", length: "80 ft", load: "95,000 Btu/h" }],
      },
      gives: "carries",
    },
    {
      title: "Two pounds to a regulator",
      input: {
        fuel: "naturalGas",
        inlet: "2 psi",
        drop: "1 psi",
        sections: [{ pipe: "copper K 3/8", length: "100 ft", load: "110,000 Btu/h" }],
      },
      gives: "carries",
    },
    {
      title: "A drop that is not there to lose",
      input: {
        fuel: "naturalGas",
        inlet: "7 in w.c.",
        drop: "8 in w.c.",
        sections: [{ pipe: "steel 1/2", length: "20 ft", load: "22,000 Btu/h" }],
      },
      gives: "dropTooMuch",
    },
    {
      title: "Two pounds, and nobody said what may be lost",
      input: {
        fuel: "naturalGas",
        inlet: "2 psi",
        sections: [{ pipe: "steel 1/2", length: "20 ft", load: "22,000 Btu/h" }],
      },
      gives: "dropUnknown",
    },
    {
      title: "Pressure not measured",
      input: { fuel: "naturalGas", sections: [{ pipe: "steel 1/2", length: "20 ft", load: "22,000 Btu/h" }] },
      gives: "inletUnknown",
    },
    {
      title: "A pipe with no machine named",
      input: { fuel: "naturalGas", inlet: "7 in w.c.", sections: [{ pipe: "steel 1/2", length: "20 ft" }] },
      gives: "loadUnknown",
    },
    { title: "Piping not listed", input: { fuel: "naturalGas" }, gives: "sectionsUnknown" },
    { title: "An electric dryer", input: { fuel: "electric" }, gives: "noGas" },
  ],
  check(input, { all, assume, formula, judge, limit, lookUp: show, missing, say }) {
    const { fuel, sections, inlet, method = "longestLength" } = input;
    if (!burns(fuel) || fuel === "electric" || fuel === "none") return say("noGas");
    const listed = sections !== undefined && sections.length > 0;
    if (!listed || inlet === undefined) {
      return all(
        listed ? undefined : missing(["sectionsUnknown"], ["sections"]),
        inlet === undefined ? missing(["inletUnknown"], ["inlet"]) : undefined,
      );
    }
    const low = inlet < LOW_END;
    const usual = low && input.drop === undefined ? limit(pipeDrop, fuel)?.value : undefined;
    const drop = input.drop ?? (usual === undefined ? undefined : brand<"pressure">(usual));
    if (drop === undefined) return missing(["dropUnknown"], ["drop"]);
    const duties = sectionDuties(sections, method);
    const silent = duties.findIndex(({ load }) => load === 0);
    if (silent >= 0) return missing(["loadUnknown"], ["sections", silent, "load"]);

    if (input.heatContent === undefined) {
      assume("The gas is taken to have the code's usual heat content; the supplier's bill has the real one.");
    }
    assume(
      "All machines are taken to burn at once, as the code has it, and no allowance is made for fewer than four fittings in a section.",
    );
    const heat = input.heatContent ?? si(heatContent_Btu_ft3[fuel], "Btu/ft3");
    const gas = factorsOf(fuel);
    const absolute = brand<"pressure">(inlet + si(codeAtmosphere_psi, "psi"));

    const section = ({ pipe }: Section, i: number): Outcome => {
      const { load, length } = duties[i]!;
      const need = gasFlow(load, heat);
      formula("{need:gasFlow} = {load:heatRate} / {heat:heatContent}", { need, load, heat });
      const bore = gasBore(pipe);
      const { equation, printed, capacity } = gasPipeCapacity(fuel, pipe, length, inlet, drop);
      if (low) {
        formula(
          "{equation:gasFlow} = (19.17 * {bore:thickness} / (1 inch) * ({drop:gasPressure} / (249.08891 Pa) / ({cr:number} * {length:length} / (1 ft)))^0.206)^(1 / 0.381) * (1 ft^3 / (1 hour))",
          { equation, bore, drop, cr: gas.cr, length },
        );
      } else {
        formula(
          "{equation:gasFlow} = (18.93 * {bore:thickness} / (1 inch) * ((({inlet:pressure} / (6894.757293168361 Pa))^2 - ({outlet:pressure} / (6894.757293168361 Pa))^2) * {y:number} / ({cr:number} * {length:length} / (1 ft)))^0.206)^(1 / 0.381) * (1 ft^3 / (1 hour))",
          { equation, bore, inlet: absolute, outlet: brand<"pressure">(absolute - drop), y: gas.y, cr: gas.cr, length },
        );
      }
      const table = low ? capacityTable(fuel, drop, pipe) : undefined;
      if (table && lookUp(table, length) !== undefined) {
        show(table, length, "length", fuel === "propane" ? "heatRate" : "gasFlow");
      } else if (table) {
        assume(
          "Where a run is longer than the printed table, the equation is used, and never more than the table's last row.",
        );
      }
      if (printed !== undefined) {
        formula("{capacity:gasFlow} = min({equation:gasFlow}, {printed:gasFlow})", { capacity, equation, printed });
      }
      return judge({
        kind: "gasFlow",
        measured: capacity,
        limit: need,
        sense: "atLeast",
        pass: ["carries", { n: i + 1, pipe, capacity, need }],
        fail: ["tooSmall", { n: i + 1, pipe, capacity, need }],
      });
    };
    const left = judge({
      kind: "gasPressure",
      measured: drop,
      limit: inlet,
      sense: "atMost",
      pass: ["dropFits", { drop, inlet }],
      fail: ["dropTooMuch", { drop, inlet }],
    });
    return all(...sections.map(section), left);
  },
  mend({ sections = [], ...rest }, at) {
    const { fuel, inlet, method = "longestLength" } = rest;
    if (inlet === undefined || (fuel !== "naturalGas" && fuel !== "propane")) return [];
    const stated = [...at.stated(pipeDrop).local, ...at.stated(pipeDrop).maker].map(({ value }) => value);
    const drop = rest.drop ?? brand<"pressure">(Math.min(si(usualDrop_inH2O, "inH2O"), ...stated));
    const heat = rest.heatContent ?? si(heatContent_Btu_ft3[fuel], "Btu/ft3");
    const larger = sections.map((section) => ({ ...section }));
    // Larger pipe lengthens its own fittings; a few rounds settle it.
    for (let round = 0; round < gasPipes.length; round++) {
      sectionDuties(larger, method).forEach(({ load, length }, i) => {
        const section = larger[i]!;
        const metal = section.pipe.split(" ")[0]!;
        const sizes = gasPipes.slice(gasPipes.indexOf(section.pipe)).filter((pipe) => pipe.startsWith(metal));
        const enough = sizes.find(
          (pipe) => gasPipeCapacity(fuel, pipe, length, inlet, drop).capacity >= gasFlow(load, heat),
        );
        section.pipe = enough ?? sizes[sizes.length - 1]!;
      });
    }
    const changed = larger.flatMap(({ pipe }, i) => (pipe === sections[i]!.pipe ? [] : [{ i, pipe }]));
    if (changed.length === 0) return [];
    const proposals: Proposal<typeof remedies>[] = [
      {
        change: changed.map(({ i, pipe }) => ({ path: ["sections", i, "pipe"], value: pipe })),
        say: ["larger", { list: changed.map(({ i, pipe }) => `section ${i + 1} in ${pipe} in`).join(", ") }],
      },
    ];
    return proposals;
  },
});
