import * as z from "zod";
import { atMost, brand, type Pressure, si, type VolumeFlow } from "../core/quantity/index.js";
import { defineCalculator } from "../core/rule/index.js";
import { circleArea, fanPressure, meanVelocity } from "../physics/index.js";
import { darcyWeisbach, fanLaw } from "./basis.js";
import { blowerFields, type Meeting, meet, needed } from "./blower.js";
import { meetingOf } from "./meeting.js";
import { airFields, runFields } from "./run-input.js";
import { standardDensity } from "./tables/blower.js";
import { roughnessBasis } from "./tables/roughness.js";

export const ductAirflowInput = z.strictObject({ ...runFields, ...airFields, ...blowerFields });

/** Air that a dryer's blower moves through its run. A calculator; its page is `docs/rules/venting/duct-airflow.md`. */
export const ductAirflow = defineCalculator({
  id: "venting/duct-airflow",
  title: "Air that a dryer's blower moves through its run",
  since: "0.1.0",
  input: ductAirflowInput,
  outputs: {
    flow: { kind: "volumeFlow", what: "Flow" },
    speed: { kind: "speed", what: "Air speed" },
    atMachine: { kind: "airPressure", what: "Back-pressure at the machine's outlet" },
    limit: { kind: "airPressure", what: "Back-pressure that the maker allows" },
    margin: { kind: "airPressure", what: "Left to that limit" },
    massFlow: { kind: "massFlow", what: "Mass flow" },
    stack: { kind: "airPressure", what: "Lift of the warm column" },
    wind: { kind: "airPressure", what: "Wind against the hood" },
    reading: { kind: "text", what: "What it means" },
    curve: {
      list: {
        flow: { kind: "volumeFlow", what: "Flow" },
        blower: { kind: "airPressure", what: "What the blower gives at it; not known below the maker's first point" },
        run: { kind: "airPressure", what: "What the run takes at it, less the lift and with the wind" },
      },
      what: "The blower against the run, in the air at hand; the two agree where the air settles",
    },
  },
  basis: [darcyWeisbach, roughnessBasis, fanLaw],
  limits: [],
  messages: {
    missing: { runUnknown: "The diameter and the run are needed." },
    impossible: {
      steam: "Air of this temperature and humidity would be nearly all steam at this altitude.",
      notFalling: "The blower's points must go by rising flow, the pressure never rising; leave a dip out.",
      noFlow: "Wind and weight of the air hold the flap shut: the blower moves nothing out.",
      beyondCurve:
        "The run is so free that the flow lies beyond the blower's last point of {last:volumeFlow}; ask the maker for more points.",
    },
  },
  cautions: ["fire", "carbonMonoxide", "deferral"],
  examples: [
    {
      title: "A run of 25 ft with two ordinary elbows and a generic blower",
      input: {
        diameter: "4 in",
        straight: "25 ft",
        elbows: [{ radius: "4 in mitred", angle: "90°", count: 2 }],
        backPressureLimit: "0.6 inH2O",
      },
      gives: "computed",
    },
    {
      title: "Passes the table and chokes: linted foil in front of a screened hood",
      input: {
        diameter: "4 in",
        pieces: [
          { piece: "flexible", length: "8 ft", wall: "foil flexible", compression: "30 %" },
          { piece: "flat", length: "8 in", wall: "foil flexible", heightLeft: "40 %" },
          { piece: "straight", length: "20 ft", wall: "linted metal" },
          { piece: "elbow", make: "single mitre", angle: "90°" },
          { piece: "elbow", make: "single mitre", angle: "90°" },
          { piece: "obstruction", open: "50 %" },
        ],
        backPressureLimit: "0.6 inH2O",
      },
      gives: "computed",
    },
    {
      title: "A mountain site with a riser and a wind on the hood",
      input: {
        diameter: "4 in",
        straight: "30 ft",
        elbows: [{ radius: "6 in smooth", angle: "90°", count: 2 }],
        transition: "4 ft",
        altitude: "9000 ft",
        rise: "18 ft",
        outdoorTemperature: "-10 °C",
        windSpeed: "15 mph",
        windSide: "windward",
        blower: [
          { flow: "0 cfm", pressure: "1 inH2O" },
          { flow: "120 cfm", pressure: "0.7 inH2O" },
          { flow: "220 cfm", pressure: "0 inH2O" },
        ],
      },
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
  ],
  compute(input, { assume, formula, missing, impossible }) {
    const met = meetingOf(input);
    if (met.kind === "gap") return missing(["runUnknown"], ...met.paths);
    if (met.kind !== "met") return impossible([met.kind]);
    const { meeting, air, driving } = met;
    for (const text of met.assumed) assume(text);
    const point = meet(meeting);
    if (point.place === "beforeCurve") return impossible(["noFlow"]);
    if (point.place === "beyondCurve") return impossible(["beyondCurve", { last: point.flow }]);
    const { flow } = point;
    const speed = meanVelocity(flow, circleArea(meeting.diameter));
    const atMachine = point.pressure;
    const taken = brand<"pressure">(needed({ ...meeting, driving: { stack: none, wind: none } }, flow));
    const massFlow = brand<"massFlow">(flow * air.density);
    const limit = input.backPressureLimit ?? null;
    const { stack, wind } = driving;
    formula("{speed:speed} = {flow:volumeFlow} / (pi / 4 * {diameter:inches}^2)", {
      speed,
      flow,
      diameter: meeting.diameter,
    });
    formula("{share:ratio} = {density:density} / {standard:density}", {
      share: brand<"ratio">(air.density / standardDensity),
      density: air.density,
      standard: brand<"density">(standardDensity),
    });
    // The run's need and the blower's pressure agree to the root finder's last bits; the need is shown.
    const balance = brand<"pressure">(taken - stack + wind);
    formula("{balance:airPressure} = {taken:airPressure} - {stack:airPressure} + {wind:airPressure}", {
      balance,
      taken,
      stack,
      wind,
    });
    formula("{massFlow:massFlow} = {flow:volumeFlow} * {density:density}", { massFlow, flow, density: air.density });
    const margin = limit === null ? null : brand<"pressure">(limit - atMachine);
    if (margin !== null)
      formula("{margin:airPressure} = {limit:airPressure} - {atMachine:airPressure}", {
        margin,
        limit: limit!,
        atMachine,
      });
    return {
      flow,
      speed,
      atMachine,
      limit,
      margin,
      massFlow,
      stack,
      wind,
      reading: readingOf(atMachine, limit),
      curve: curveOf(meeting, flow),
    };
  },
});

/** Equal steps from no flow to the blower's last point: as many as a plot of page width shows as a smooth line. */
const STEPS = 24;

/** Both pressures by rising flow; the operating point stands in its place, so that drawn lines meet where it is. */
function curveOf(meeting: Meeting, settled: VolumeFlow) {
  const { points } = meeting.curve;
  const even = Array.from({ length: STEPS + 1 }, (_, i) => brand<"volumeFlow">(points.at(-1)!.flow * (i / STEPS)));
  const flows = [...even.filter((flow) => flow < settled), settled, ...even.filter((flow) => flow > settled)];
  return flows.map((flow) => ({
    flow,
    blower: flow < points[0]!.flow ? null : fanPressure(meeting.curve, flow),
    run: brand<"pressure">(needed(meeting, flow)),
  }));
}

const none = si(0, "Pa");

/** The result in words for who stands before the machine. */
function readingOf(atMachine: Pressure, limit: Pressure | null): string {
  if (limit === null) return "the maker's back-pressure limit is not known; look for it on the sheet";
  return atMost(atMachine, limit)
    ? "the run breathes: its back-pressure is within the maker's limit"
    : "the run chokes the machine: its back-pressure is above the maker's limit";
}
