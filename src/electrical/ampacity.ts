import * as z from "zod";
import { brand } from "../core/quantity/index.js";
import { defineCalculator } from "../core/rule/index.js";
import { necBasis } from "./basis.js";
import { type Circuit, circuitInput } from "./circuit.js";
import { ambientEquation, conductorAmpacity, mostOvercurrent, runOf, takenForGranted } from "./conductors.js";
import { wirings } from "./tables/wiring.js";

export const ampacityInput = z.strictObject({
  circuit: circuitInput.optional().describe("The circuit from the panel to the receptacle"),
});

const governs = {
  insulation: "its insulation, corrected for heat and for company",
  terminals: "the temperature of the terminals",
  cable: "the article on its cable",
} as const;

/**
 * What a conductor may carry as it is run, and the largest device that protects it.
 *
 * A calculator; its page is `docs/rules/electrical/ampacity.md`.
 */
export const ampacity = defineCalculator({
  id: "electrical/ampacity",
  title: "What a conductor may carry as it is run, and the largest device that protects it",
  since: "0.1.0",
  input: ampacityInput,
  outputs: {
    table: { kind: "current", what: "By the table, in the column of its insulation" },
    ambient: { kind: "ratio", what: "Correction for heat, by the table" },
    equation: { kind: "ratio", what: "The same by the code's equation" },
    bundle: { kind: "ratio", what: "Adjustment for conductors lying together" },
    corrected: { kind: "current", what: "Corrected and adjusted" },
    atTerminals: { kind: "current", what: "By the table, in the column of the terminals" },
    atCable: { kind: "current", what: "By the table, in the column that the cable's article allows" },
    ampacity: { kind: "current", what: "Ampacity" },
    governs: { kind: "text", what: "Decided by" },
    most: { kind: "current", what: "Largest overcurrent device" },
  },
  basis: [],
  limits: [],
  messages: {
    missing: { conductorUnknown: "The size, metal and kind of the conductors are needed." },
    impossible: {
      noCode: "Ampacities by gauge are those of the National Electrical Code, which is not adopted here.",
      noAmpacity: "The ampacity table has no value for {size:text} {metal:text} as {wiring:text} at this temperature.",
    },
  },
  cautions: ["mains", "deferral"],
  examples: [
    {
      title: "Alder Row: the dryer's NM cable",
      input: {
        circuit: {
          size: "10 AWG",
          metal: "copper",
          wiring: "NM-B",
          terminals: "75 °C",
          ambient: "30 °C",
          carrying: 2,
        },
      },
      gives: "computed",
    },
    {
      title: "Four cables through one hole that is caulked",
      input: { circuit: { size: "12 AWG", metal: "copper", wiring: "NM-B", carrying: 8 } },
      gives: "computed",
    },
    {
      title: "Individual wires in conduit through a hot attic",
      input: { circuit: { size: "8 AWG", metal: "copper", wiring: "THWN-2", terminals: "75 °C", ambient: "122 °F" } },
      gives: "computed",
    },
    {
      title: "Aluminum SE cable to a range",
      input: { circuit: { size: "6 AWG", metal: "aluminum", wiring: "SE", inInsulation: true } },
      gives: "computed",
    },
    { title: "Conductors not read", input: { circuit: { size: "10 AWG" } }, gives: "conductorUnknown" },
    {
      title: "Too hot for its insulation",
      input: { circuit: { size: "10 AWG", metal: "copper", wiring: "TW", ambient: "60 °C" } },
      gives: "noAmpacity",
    },
    {
      title: "A building under another code",
      input: { circuit: { size: "10 AWG", metal: "copper", wiring: "TW" } },
      at: { jurisdiction: { adopted: { iec60364: 2017 } } },
      gives: "noCode",
    },
  ],
  compute(input, { assume, at, formula, impossible, missing, rest }) {
    const edition = at.adopted.nec;
    if (edition === undefined) return impossible(["noCode"]);
    const circuit: Circuit = input.circuit ?? {};
    const { size, metal, wiring } = circuit;
    const run = runOf(circuit, edition);
    if (size === undefined || metal === undefined || wiring === undefined || run === undefined) {
      const unknown = Object.entries({ size, metal, wiring }).filter(([, value]) => value === undefined);
      return missing(["conductorUnknown"], ...unknown.map(([name]) => ["circuit", name]));
    }
    const found = conductorAmpacity(run);
    if (found === undefined) return impossible(["noAmpacity", { size, metal, wiring }]);
    for (const taken of takenForGranted(circuit)) assume(taken);
    const { insulation_C, section } = wirings[wiring];
    const newer = edition >= 2020;
    const columns = `${size} ${metal}, ${insulation_C} °C column.`;
    rest(necBasis(at, newer ? "Table 310.16" : "Table 310.15(B)(16)", "seen", columns));
    rest(necBasis(at, newer ? "Table 310.15(B)(1)" : "Table 310.15(B)(2)(a)", "seen", "Correction for heat."));
    rest(necBasis(at, newer ? "Table 310.15(C)(1)" : "Table 310.15(B)(3)(a)", "seen", "Adjustment for company."));
    rest(necBasis(at, "110.14(C)(1)", "secondary", "No hotter than the terminals are made for."));
    if (found.atCable !== undefined) rest(necBasis(at, section, "secondary", "No more than the 60 °C column."));
    rest(necBasis(at, "240.4(B), 240.4(D)", "seen", "What may protect it."));
    const ambient = brand<"ratio">(found.ambient);
    const bundle = brand<"ratio">(found.bundle);
    const { table, corrected } = found;
    formula("{corrected:current} = {table:current} * {ambient:ratio} * {bundle:ratio}", {
      corrected,
      table,
      ambient,
      bundle,
    });
    const nextUp = circuit.individual !== false;
    if (circuit.individual === undefined) assume("The circuit is taken to feed one receptacle or one machine.");
    return {
      table,
      ambient,
      equation: brand<"ratio">(ambientEquation(run.ambient, insulation_C)),
      bundle,
      corrected,
      atTerminals: found.atTerminals,
      atCable: found.atCable ?? null,
      ampacity: found.ampacity,
      governs: governs[found.governs],
      most: mostOvercurrent(found.ampacity, size, metal, nextUp, edition),
    };
  },
});
