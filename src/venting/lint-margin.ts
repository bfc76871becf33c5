import * as z from "zod";
import { brand, inUnit, type Length, type Speed, si } from "../core/quantity/index.js";
import { defineCalculator, quantity } from "../core/rule/index.js";
import { brent, circleArea, meanVelocity, type OperatingPoint } from "../physics/index.js";
import { darcyWeisbach, fanLaw, lintSpeeds } from "./basis.js";
import { blowerFields, type Meeting, meet } from "./blower.js";
import { meetingOf } from "./meeting.js";
import type { Piece } from "./run.js";
import { airFields, runFields } from "./run-input.js";
import { lintConveying } from "./tables/blower.js";
import { roughnessBasis, wallRoughness } from "./tables/roughness.js";

export const lintMarginInput = z.strictObject({
  ...runFields,
  ...airFields,
  ...blowerFields,
  leastFlow: quantity("volumeFlow", { min: [1, "cfm"], max: [3000, "cfm"] })
    .optional()
    .describe(
      "Least flow the machine may run at, from its sheet; three quarters of the clean flow where nothing is known",
    ),
});

/** Share of the clean flow at which the margin counts as used up, where the maker says nothing (common practice, no source). */
const LEAST_SHARE = 0.75;
/** Layers shown [mm]. */
const LAYERS = [0, 1, 2, 3, 4, 6, 8, 10];
/** Narrowest bore looked at, as a share of the clean one. */
const NARROWEST = 0.3;

/**
 * The run with an even layer of lint in it: the bore is narrower by twice the layer, and the wall at least as rough as the
 * layer is thick, up to that of linted metal.
 *
 * @param meeting - blower and clean run
 * @param layer - thickness of the lint [m]
 */
export function withLint<M extends Pick<Meeting, "pieces" | "diameter">>(meeting: M, layer: Length): M {
  const lint = Math.min(layer, si(wallRoughness["linted metal"], "mm"));
  const pieces = meeting.pieces.map(
    (piece): Piece =>
      "roughness" in piece ? { ...piece, roughness: brand<"length">(Math.max(piece.roughness, lint)) } : piece,
  );
  return { ...meeting, pieces, diameter: brand<"length">(meeting.diameter - 2 * layer) };
}

/** How much lint uses up a dryer run's margin. A calculator; its page is `docs/rules/venting/lint-margin.md`. */
export const lintMargin = defineCalculator({
  id: "venting/lint-margin",
  title: "How much lint uses up a dryer run's margin",
  since: "0.1.0",
  input: lintMarginInput,
  outputs: {
    cleanFlow: { kind: "volumeFlow", what: "Flow with a clean run" },
    leastFlow: { kind: "volumeFlow", what: "Flow at which the margin is used up" },
    layer: { kind: "thickness", what: "Layer of lint that does it" },
    bore: { kind: "inches", what: "Bore that is then left" },
    speed: { kind: "speed", what: "Air speed in the clean bore" },
    conveying: { kind: "text", what: "Whether the air carries lint along" },
    steps: {
      list: {
        layer: { kind: "thickness", what: "Layer of lint" },
        bore: { kind: "inches", what: "Bore left" },
        flow: { kind: "volumeFlow", what: "Flow" },
        atMachine: { kind: "airPressure", what: "Back-pressure" },
      },
      what: "Flow as lint narrows the bore",
    },
  },
  basis: [darcyWeisbach, roughnessBasis, fanLaw, lintSpeeds],
  limits: [],
  messages: {
    missing: { runUnknown: "The diameter and the run are needed." },
    impossible: {
      steam: "Air of this temperature and humidity would be nearly all steam at this altitude.",
      notFalling: "The blower's points must go by rising flow, the pressure never rising; leave a dip out.",
      noFlow: "Wind and weight of the air hold the flap shut: the blower moves nothing out even when clean.",
      beyondCurve:
        "The clean run's flow lies beyond the blower's last point of {last:volumeFlow}; ask the maker for more points.",
      alreadyUsed: "The clean run moves only {flow:volumeFlow}: its margin is used up before any lint is in it.",
    },
  },
  cautions: ["fire", "deferral"],
  examples: [
    {
      title: "A run of 25 ft with two ordinary elbows and a limit of 0.7 inH2O",
      input: {
        diameter: "4 in",
        straight: "25 ft",
        elbows: [{ radius: "4 in mitred", angle: "90°", count: 2 }],
        backPressureLimit: "0.7 inH2O",
      },
      gives: "computed",
    },
    {
      title: "Nothing known of the machine",
      input: { diameter: "4 in", straight: "12 ft", elbows: [] },
      gives: "computed",
    },
    {
      title: "A least flow from the sheet",
      input: { diameter: "4 in", straight: "12 ft", elbows: [], leastFlow: "120 cfm" },
      gives: "computed",
    },
    { title: "No run", input: {}, gives: "runUnknown" },
    {
      title: "Steam",
      input: {
        diameter: "4 in",
        straight: "25 ft",
        elbows: [],
        airTemperature: "95 °C",
        airHumidity: "100 %",
        altitude: "3000 m",
      },
      gives: "steam",
    },
    {
      title: "Points with a dip",
      input: {
        diameter: "4 in",
        straight: "25 ft",
        elbows: [],
        blower: [
          { flow: "0 cfm", pressure: "0.5 inH2O" },
          { flow: "100 cfm", pressure: "0.7 inH2O" },
        ],
      },
      gives: "notFalling",
    },
    {
      title: "A gale on the hood",
      input: { diameter: "4 in", straight: "25 ft", elbows: [], windSpeed: "80 mph" },
      gives: "noFlow",
    },
    {
      title: "Points that end too soon",
      input: {
        diameter: "8 in",
        straight: "4 ft",
        elbows: [],
        blower: [
          { flow: "0 cfm", pressure: "0.9 inH2O" },
          { flow: "100 cfm", pressure: "0.8 inH2O" },
        ],
      },
      gives: "beyondCurve",
    },
    {
      title: "A run that is too long from the start",
      input: { diameter: "4 in", straight: "90 ft", elbows: [], backPressureLimit: "0.5 inH2O" },
      gives: "alreadyUsed",
    },
  ],
  compute(input, { assume, formula, missing, impossible }) {
    const met = meetingOf(input);
    if (met.kind === "gap") return missing(["runUnknown"], ...met.paths);
    if (met.kind !== "met") return impossible([met.kind]);
    const { meeting } = met;
    for (const text of met.assumed) assume(text);
    assume("The lint lies evenly along the whole run.");
    const clean = meet(meeting);
    if (clean.place === "beforeCurve") return impossible(["noFlow"]);
    if (clean.place === "beyondCurve") return impossible(["beyondCurve", { last: clean.flow }]);

    const limit = input.backPressureLimit;
    const least = input.leastFlow ?? (limit === undefined ? brand<"volumeFlow">(LEAST_SHARE * clean.flow) : undefined);
    if (input.leastFlow === undefined && limit === undefined)
      assume("The margin is used up at three quarters of the clean flow (common practice, no source).");
    /** What is left of the margin at a point: the lesser of the two where both are known. */
    const left = ({ flow, pressure }: OperatingPoint) =>
      Math.min(
        least === undefined ? Number.POSITIVE_INFINITY : flow / least - 1,
        limit === undefined ? Number.POSITIVE_INFINITY : 1 - pressure / limit,
      );
    if (left(clean) <= 0) return impossible(["alreadyUsed", { flow: clean.flow }]);
    const most = ((1 - NARROWEST) / 2) * meeting.diameter;
    const atLayer = (layer: number) => meet(withLint(meeting, brand<"length">(layer)));
    const layer =
      left(atLayer(most)) > 0
        ? null
        : brand<"length">(brent((t) => left(atLayer(t)), 0, most, 1e-9 * meeting.diameter));
    const used = layer === null ? null : atLayer(layer);
    const bore = layer === null ? null : brand<"length">(meeting.diameter - 2 * layer);
    const speed = meanVelocity(clean.flow, circleArea(meeting.diameter));
    formula("{speed:speed} = {flow:volumeFlow} / (pi / 4 * {diameter:inches}^2)", {
      speed,
      flow: clean.flow,
      diameter: meeting.diameter,
    });
    if (layer !== null)
      formula("{bore:inches} = {diameter:inches} - 2 * {layer:thickness}", {
        bore: bore!,
        diameter: meeting.diameter,
        layer,
      });
    const steps = LAYERS.map((mm) => si(mm, "mm"))
      .filter((thick) => thick <= most)
      .map((thick) => {
        const { flow, pressure } = atLayer(thick);
        return { layer: thick, bore: brand<"length">(meeting.diameter - 2 * thick), flow, atMachine: pressure };
      });
    return {
      cleanFlow: clean.flow,
      leastFlow: used?.flow ?? null,
      layer,
      bore,
      speed,
      conveying: conveyingOf(speed),
      steps,
    };
  },
});

/** The speed against what industry conveys lint at. */
function conveyingOf(speed: Speed): string {
  const { least, most } = lintConveying;
  const fpm = Math.round(inUnit(speed, "fpm"));
  const range = `${least} to ${most} fpm at which industry conveys cotton lint`;
  return fpm < least
    ? `${fpm} fpm is below the ${range}; no household duct reaches it, so lint settles and the run must be cleaned`
    : `${fpm} fpm is within or above the ${range}; a household duct does not stay there as it fills`;
}
