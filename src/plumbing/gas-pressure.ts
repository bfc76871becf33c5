import * as z from "zod";
import { burns, type Fuel } from "../core/basis/index.js";
import { brand, type Pressure } from "../core/quantity/index.js";
import { defineRule, machineFacts, quantity } from "../core/rule/index.js";
import { inletLeast, inletMost, manifoldOff } from "./limits-gas.js";

const reading = quantity("pressure", { min: [0, "inH2O"], max: [60, "psi"] });

export const gasPressureInput = z.strictObject({
  fuel: machineFacts.fuel,
  supplied: z
    .enum(["naturalGas", "propane"])
    .optional()
    .describe("Gas that the home is supplied with; the machine's own fuel is what its plate or conversion label says"),
  staticPressure: reading
    .optional()
    .describe("Pressure at the machine's inlet tap with nothing burning in the home, by manometer"),
  flowPressure: reading
    .optional()
    .describe("Pressure at the same tap with this and every other gas machine burning full"),
  manifoldPressure: reading
    .optional()
    .describe("Pressure at the manifold tap past the machine's regulator, burning full"),
  plateManifold: quantity("pressure", { min: [0.5, "inH2O"], max: [14, "inH2O"] })
    .optional()
    .describe("Manifold pressure that the machine's plate or sheet gives for this gas"),
});

/** How a gas is called in a sentence. */
const gasNames: Readonly<Record<Fuel, string>> = {
  naturalGas: "natural gas",
  propane: "propane",
  electric: "electricity",
  none: "nothing",
};

/**
 * The gas and its pressure are what the machine is made for.
 *
 * A rule; its page is `docs/rules/plumbing/gas-pressure.md`.
 */
export const gasPressure = defineRule({
  id: "plumbing/gas-pressure",
  title: "The gas and its pressure are what the machine is made for",
  since: "0.1.0",
  input: gasPressureInput,
  basis: [],
  limits: [inletLeast, inletMost, manifoldOff],
  messages: {
    pass: {
      rightGas: "The machine is set up for {gas:text}, which the home has.",
      notTooHigh: "At rest the inlet has {pressure:gasPressure}; {most:gasPressure} is the most.",
      enough: "Burning full, the inlet has {pressure:gasPressure}; {least:gasPressure} is asked for.",
      readingsAgree: "The pressure falls when gas burns, as it must.",
      manifoldRight: "The manifold has {pressure:gasPressure}; the plate says {plate:gasPressure}.",
    },
    fail: {
      wrongGas:
        "The machine is set up for {set:text} and the home has {gas:text}. Never light it: a qualified person must convert it with the maker's kit, or it must not be used.",
      tooHigh: "At rest the inlet has {pressure:gasPressure}; over {most:gasPressure} the gas valve can be damaged.",
      tooLow: "Burning full, the inlet has only {pressure:gasPressure}; {least:gasPressure} is asked for.",
      readingsCrossed: "The pressure reads higher burning full than at rest, which cannot be; read both again.",
      manifoldOffPlate:
        "The manifold has {pressure:gasPressure}, the plate says {plate:gasPressure}: {off:gasPressure} apart, where {most:gasPressure} is the most.",
    },
    review: {
      supplyUnknown: "Which gas the home is supplied with was not asked.",
      staticUnknown: "The pressure at rest was not measured.",
      flowUnknown: "The pressure with everything burning was not measured.",
      manifoldUnknown: "The manifold pressure was not measured.",
      plateUnknown: "The manifold pressure was not read from the plate.",
    },
    notApplicable: { noGas: "This machine burns no gas." },
  },
  cautions: ["gas", "carbonMonoxide", "deferral"],
  examples: [
    {
      title: "A gas dryer on natural gas",
      input: {
        fuel: "naturalGas",
        supplied: "naturalGas",
        staticPressure: "7.2 in w.c.",
        flowPressure: "6.5 in w.c.",
        manifoldPressure: "3.5 in w.c.",
        plateManifold: "3.5 in w.c.",
      },
      gives: "rightGas",
    },
    {
      title: "A dryer set up for natural gas in a home with propane",
      input: { fuel: "naturalGas", supplied: "propane" },
      gives: "wrongGas",
    },
    {
      title: "A branch that is too small",
      input: {
        fuel: "naturalGas",
        supplied: "naturalGas",
        staticPressure: "7.0 in w.c.",
        flowPressure: "4.1 in w.c.",
        manifoldPressure: "2.9 in w.c.",
        plateManifold: "3.5 in w.c.",
      },
      gives: "tooLow",
    },
    {
      title: "Two pounds let through by a failed regulator",
      input: {
        fuel: "naturalGas",
        supplied: "naturalGas",
        staticPressure: "2 psi",
        flowPressure: "1.9 psi",
        manifoldPressure: "3.5 in w.c.",
        plateManifold: "3.5 in w.c.",
      },
      gives: "tooHigh",
    },
    {
      title: "Readings in the wrong boxes",
      input: {
        fuel: "propane",
        supplied: "propane",
        staticPressure: "11.2 in w.c.",
        flowPressure: "12.5 in w.c.",
        manifoldPressure: "10 in w.c.",
        plateManifold: "10 in w.c.",
      },
      gives: "readingsCrossed",
    },
    { title: "Supply not asked", input: { fuel: "naturalGas" }, gives: "supplyUnknown" },
    { title: "Nothing measured", input: { fuel: "naturalGas", supplied: "naturalGas" }, gives: "staticUnknown" },
    {
      title: "Only at rest",
      input: {
        fuel: "naturalGas",
        supplied: "naturalGas",
        staticPressure: "7 in w.c.",
        manifoldPressure: "3.5 in w.c.",
      },
      gives: "flowUnknown",
    },
    { title: "An electric dryer", input: { fuel: "electric" }, gives: "noGas" },
  ],
  check(input, { all, formula, judge, limit, missing, say }) {
    const { fuel, supplied, staticPressure, flowPressure, manifoldPressure, plateManifold } = input;
    if (!burns(fuel)) return say("noGas");
    if (supplied !== undefined && supplied !== fuel)
      return say("wrongGas", { set: gasNames[fuel], gas: gasNames[supplied] });
    const kind = "gasPressure" as const;

    const rest = () => {
      if (staticPressure === undefined) return missing(["staticUnknown"], ["staticPressure"]);
      const most = limit(inletMost, fuel, { fuel });
      return (
        most &&
        judge({
          kind,
          measured: staticPressure,
          limit: most,
          pass: ["notTooHigh", { pressure: staticPressure, most: brand<"pressure">(most.value) }],
          fail: ["tooHigh", { pressure: staticPressure, most: brand<"pressure">(most.value) }],
        })
      );
    };
    const burning = () => {
      if (flowPressure === undefined) return missing(["flowUnknown"], ["flowPressure"]);
      const least = limit(inletLeast, fuel, { fuel });
      return all(
        least &&
          judge({
            kind,
            measured: flowPressure,
            limit: least,
            pass: ["enough", { pressure: flowPressure, least: brand<"pressure">(least.value) }],
            fail: ["tooLow", { pressure: flowPressure, least: brand<"pressure">(least.value) }],
          }),
        staticPressure === undefined
          ? undefined
          : judge({
              kind,
              measured: flowPressure,
              limit: staticPressure,
              sense: "atMost",
              pass: ["readingsAgree"],
              fail: ["readingsCrossed"],
            }),
      );
    };
    const manifold = () => {
      if (manifoldPressure === undefined) return missing(["manifoldUnknown"], ["manifoldPressure"]);
      if (plateManifold === undefined) return missing(["plateUnknown"], ["plateManifold"]);
      const most = limit(manifoldOff, fuel);
      if (!most) return undefined;
      const off = brand<"pressure">(Math.abs(manifoldPressure - plateManifold));
      const data: Record<"off" | "manifold" | "plate", Pressure> = {
        off,
        manifold: manifoldPressure,
        plate: plateManifold,
      };
      formula("{off:gasPressure} = abs({manifold:gasPressure} - {plate:gasPressure})", data);
      return judge({
        kind,
        measured: off,
        limit: most,
        pass: ["manifoldRight", { pressure: manifoldPressure, plate: plateManifold }],
        fail: [
          "manifoldOffPlate",
          { pressure: manifoldPressure, plate: plateManifold, off, most: brand<"pressure">(most.value) },
        ],
      });
    };
    const gas =
      supplied === undefined ? missing(["supplyUnknown"], ["supplied"]) : say("rightGas", { gas: gasNames[fuel] });
    return all(gas, rest(), burning(), manifold());
  },
});
