import * as z from "zod";
import { defineRule, quantity } from "../core/rule/index.js";
import { darcyWeisbach, machineSheet } from "./basis.js";
import { blowerFields, meet } from "./blower.js";
import { dryerFacts, noDuctExamples, noDuctMessages, withoutDuct } from "./dryer.js";
import { meetingOf } from "./meeting.js";
import { airFields, runFields } from "./run-input.js";

export const backPressureLimitInput = z.strictObject({
  ...dryerFacts,
  backPressure: quantity("pressure", { max: [10, "inH2O"] })
    .optional()
    .describe("Static pressure at the machine's outlet, read with a manometer while the dryer runs on an empty drum"),
  ...runFields,
  ...airFields,
  ...blowerFields,
});

/** The run stays within the back-pressure that the maker allows. A rule; its page is `docs/rules/venting/back-pressure-limit.md`. */
export const backPressureLimit = defineRule({
  id: "venting/back-pressure-limit",
  title: "The run stays within the back-pressure that the maker allows",
  since: "0.1.0",
  input: backPressureLimitInput,
  basis: [machineSheet, darcyWeisbach],
  limits: [],
  messages: {
    pass: {
      measuredWithin:
        "The manometer reads {pressure:airPressure} at the machine's outlet, within the {limit:airPressure} that the maker allows.",
      breathes:
        "The run takes {pressure:airPressure} at {flow:volumeFlow}, within the {limit:airPressure} that the maker allows.",
    },
    fail: {
      measuredOver:
        "The manometer reads {pressure:airPressure} at the machine's outlet, over the {limit:airPressure} that the maker allows: the run chokes the machine.",
      chokes:
        "The run takes {pressure:airPressure} at {flow:volumeFlow}, over the {limit:airPressure} that the maker allows: it chokes the machine, whatever the code's table says.",
    },
    review: {
      genericBlower:
        "With a generic blower the run would take {pressure:airPressure}, against the {limit:airPressure} that the maker allows; read it with a manometer, or get the maker's blower points.",
      runUnknown:
        "The diameter and the run are needed to hold them against the {limit:airPressure} that the maker allows.",
      noAnswer:
        "No flow can be worked out for this blower, run and weather; read the back-pressure with a manometer and hold it against the {limit:airPressure} that the maker allows.",
    },
    notApplicable: {
      ...noDuctMessages,
      limitUnstated: "No back-pressure limit of the maker was given; where the sheet has one, it binds.",
    },
  },
  cautions: ["fire", "carbonMonoxide", "deferral"],
  examples: [
    {
      title: "A short run and the maker's blower points",
      input: {
        fuel: "electric",
        diameter: "4 in",
        straight: "12 ft",
        elbows: [{ radius: "4 in mitred", angle: "90°", count: 1 }],
        backPressureLimit: "0.6 inH2O",
        blower: [
          { flow: "0 cfm", pressure: "0.9 inH2O" },
          { flow: "120 cfm", pressure: "0.65 inH2O" },
          { flow: "230 cfm", pressure: "0 inH2O" },
        ],
      },
      gives: "breathes",
    },
    {
      title: "Passes the code's table and chokes: five elbows in ten feet",
      input: {
        fuel: "electric",
        diameter: "4 in",
        straight: "10 ft",
        elbows: [{ radius: "4 in mitred", angle: "90°", count: 5 }],
        backPressureLimit: "0.5 inH2O",
        blower: [
          { flow: "0 cfm", pressure: "0.9 inH2O" },
          { flow: "120 cfm", pressure: "0.65 inH2O" },
          { flow: "230 cfm", pressure: "0 inH2O" },
        ],
      },
      gives: "chokes",
    },
    {
      title: "Read with a manometer, in order",
      input: { fuel: "naturalGas", backPressure: "0.42 inH2O", backPressureLimit: "0.6 inH2O" },
      gives: "measuredWithin",
    },
    {
      title: "Read with a manometer, choked",
      input: { fuel: "naturalGas", backPressure: "0.8 inH2O", backPressureLimit: "0.6 inH2O" },
      gives: "measuredOver",
    },
    {
      title: "No blower points",
      input: { fuel: "electric", diameter: "4 in", straight: "12 ft", elbows: [], backPressureLimit: "0.6 inH2O" },
      gives: "genericBlower",
    },
    {
      title: "The run was not measured",
      input: { fuel: "electric", backPressureLimit: "0.6 inH2O" },
      gives: "runUnknown",
    },
    {
      title: "A gale on the hood",
      input: {
        fuel: "electric",
        diameter: "4 in",
        straight: "25 ft",
        elbows: [],
        windSpeed: "80 mph",
        backPressureLimit: "0.6 inH2O",
      },
      gives: "noAnswer",
    },
    { title: "The sheet was not at hand", input: { fuel: "electric", diameter: "4 in" }, gives: "limitUnstated" },
    ...noDuctExamples,
  ],
  check(input, { assume, judge, missing, say }) {
    const exempt = withoutDuct(input.kind, input.exhaust);
    if (exempt) return say(...exempt);
    const { backPressureLimit: limit, backPressure: read } = input;
    if (limit === undefined) return say("limitUnstated");
    if (read !== undefined) {
      const slots = { pressure: read, limit };
      return judge({
        kind: "airPressure",
        measured: read,
        limit,
        sense: "atMost",
        pass: ["measuredWithin", slots],
        fail: ["measuredOver", slots],
      });
    }
    const met = meetingOf(input);
    if (met.kind === "gap") return missing(["runUnknown", { limit }], ...met.paths);
    if (met.kind !== "met") return missing(["noAnswer", { limit }], ["backPressure"]);
    const point = meet(met.meeting);
    if (point.place !== "crossing") return missing(["noAnswer", { limit }], ["backPressure"]);
    for (const text of met.assumed) assume(text);
    const { pressure, flow } = point;
    // A generic blower is no product's, so it decides nothing either way.
    if (met.isGeneric) return missing(["genericBlower", { pressure, limit }], ["backPressure"]);
    const slots = { pressure, flow, limit };
    return judge({
      kind: "airPressure",
      measured: pressure,
      limit,
      sense: "atMost",
      pass: ["breathes", slots],
      fail: ["chokes", slots],
    });
  },
});
