import * as z from "zod";
import { brand, type Length, si } from "../core/quantity/index.js";
import { defineRule, quantity } from "../core/rule/index.js";
import { deviceStandards } from "./basis.js";
import { airGapLeast, breakerHeight, gapOpenings_in } from "./limits-backflow.js";
import { takesWater, waterFacts, waterQuestion } from "./water.js";

/** What keeps water from coming back, by listing. */
export const backflowDevices = [
  "integral",
  "airGap",
  "atmosphericVacuumBreaker",
  "hoseVacuumBreaker",
  "hoseBackflowPreventer",
  "none",
] as const;
type Device = (typeof backflowDevices)[number];

export const backflowInput = z.strictObject({
  ...waterFacts,
  device: z
    .enum(backflowDevices)
    .optional()
    .describe(
      "What keeps water from coming back: listed inside the machine, an air gap, a pipe or hose vacuum breaker, a hose backflow preventer, or nothing",
    ),
  openHose: z
    .boolean()
    .optional()
    .describe("Whether any hose with a free end, such as one into a laundry tub, hangs on the same tap"),
  opening: quantity("length", { min: [0.1, "in"], max: [4, "in"] })
    .optional()
    .describe("Inside diameter of the pipe end that the air gap is under"),
  gap: quantity("length", { max: [3, "ft"] })
    .optional()
    .describe("Height of the pipe end above the flood rim of what it fills"),
  nearWall: z
    .boolean()
    .optional()
    .describe("Whether a wall is nearer than three openings, or two walls nearer than four"),
  breakerRise: quantity("length", { max: [10, "ft"] })
    .optional()
    .describe("Height of the vacuum breaker above the highest flood rim past it"),
  valvePast: z.boolean().optional().describe("Whether a shut-off valve sits past the vacuum breaker"),
});

/** The row of the air-gap table that an opening falls under: itself or the next larger; none above the last. */
function openingRow(opening: Length): number | undefined {
  return gapOpenings_in.find((inches) => opening <= si(inches, "in") * (1 + 1e-9));
}

const accepted: Readonly<Record<Device, boolean>> = {
  integral: true,
  airGap: true,
  atmosphericVacuumBreaker: true,
  hoseVacuumBreaker: true,
  hoseBackflowPreventer: true,
  none: false,
};

const remedies = {
  hoseBreaker: "Screw a listed hose-connection vacuum breaker on the tap and take the loose hose off.",
} as const;

/**
 * Water cannot come back from the machine into the drinking water.
 *
 * A rule; its page is `docs/rules/plumbing/backflow.md`.
 */
export const backflow = defineRule({
  id: "plumbing/backflow",
  title: "Water cannot come back from the machine into the drinking water",
  since: "0.1.0",
  input: backflowInput,
  basis: [deviceStandards],
  limits: [airGapLeast, breakerHeight],
  messages: {
    pass: {
      integral: "The machine is listed with backflow protection of its own.",
      protectedTap: "The tap has a listed device against backflow.",
      gapEnough: "The air gap is {gap:inches}; {least:inches} is asked for.",
      breakerHigh: "The vacuum breaker stands {rise:inches} above the flood rim; {least:inches} is asked for.",
      breakerOpen: "No valve sits past the vacuum breaker.",
      noLooseHose: "No hose with a free end hangs on the same tap.",
    },
    fail: {
      unprotected: "Nothing keeps water from coming back into the drinking water.",
      gapSmall: "The air gap is {gap:inches}; {least:inches} is asked for.",
      breakerLow: "The vacuum breaker stands {rise:inches} above the flood rim; it must stand {least:inches} or more.",
      breakerShut:
        "A valve sits past the atmospheric vacuum breaker: kept under pressure it sticks and no longer breaks the siphon.",
      looseHose: "A hose with a free end hangs on the same tap; what protects the machine does not protect that.",
    },
    review: {
      waterUnknown: "Say whether the machine takes water.",
      deviceUnknown: "Nobody looked what keeps water from coming back; the machine's listing says so.",
      gapUnknown: "The air gap, its opening and the walls beside it were not measured.",
      riseUnknown: "The height of the vacuum breaker above the flood rim was not measured.",
      valveUnknown: "Nobody looked for a valve past the vacuum breaker.",
      hoseUnknown: "Nobody looked for a loose hose on the same tap.",
    },
    notApplicable: { noWater: "This machine takes no water." },
  },
  remedies,
  cautions: ["water", "deferral"],
  examples: [
    {
      title: "A listed washer on its own tap",
      input: { kind: "washer", device: "integral", openHose: false },
      gives: "integral",
    },
    {
      title: "The same tap also fills a tub through a loose hose",
      input: { kind: "washer", device: "integral", openHose: true },
      gives: "looseHose",
    },
    {
      title: "A hose vacuum breaker on the tap",
      input: { kind: "washer", device: "hoseVacuumBreaker", openHose: true },
      gives: "protectedTap",
    },
    {
      title: "An old machine with nothing",
      input: { kind: "washer", device: "none", openHose: false },
      gives: "unprotected",
    },
    {
      title: "A 1/2 in pipe end over a tank",
      input: { kind: "dishwasher", device: "airGap", opening: "0.5 in", gap: "1 in", nearWall: false, openHose: false },
      gives: "gapEnough",
    },
    {
      title: "The same beside a wall",
      input: { kind: "dishwasher", device: "airGap", opening: "0.5 in", gap: "1 in", nearWall: true, openHose: false },
      gives: "gapSmall",
    },
    {
      title: "A wide opening",
      input: {
        kind: "dishwasher",
        device: "airGap",
        opening: "1.25 in",
        gap: "3 in",
        nearWall: false,
        openHose: false,
      },
      gives: "gapEnough",
    },
    {
      title: "A vacuum breaker too low and shut off behind",
      input: {
        kind: "dishwasher",
        device: "atmosphericVacuumBreaker",
        breakerRise: "4 in",
        valvePast: true,
        openHose: false,
      },
      gives: "breakerLow",
    },
    {
      title: "A vacuum breaker set right",
      input: {
        kind: "dishwasher",
        device: "atmosphericVacuumBreaker",
        breakerRise: "8 in",
        valvePast: false,
        openHose: false,
      },
      gives: "breakerHigh",
    },
    {
      title: "A vacuum breaker not looked at",
      input: { kind: "dishwasher", device: "atmosphericVacuumBreaker" },
      gives: "riseUnknown",
    },
    {
      title: "An air gap not measured",
      input: { kind: "dishwasher", device: "airGap", openHose: false },
      gives: "gapUnknown",
    },
    { title: "Nobody looked", input: { kind: "washer" }, gives: "deviceUnknown" },
    { title: "A dryer", input: { kind: "dryer" }, gives: "waterUnknown" },
    { title: "A cooktop", input: { kind: "cooktop" }, gives: "noWater" },
  ],
  check(input, { all, formula, judge, limit, missing, say }) {
    const { kind, device, openHose, opening, gap, nearWall, breakerRise, valvePast } = input;
    const wet = takesWater(input);
    if (wet === false) return say("noWater");
    if (wet === undefined) return missing(["waterUnknown"], [waterQuestion(kind)]);
    if (device === undefined) return missing(["deviceUnknown"], ["device"]);
    if (!accepted[device]) return say("unprotected");

    const loose = () => {
      // A device on the tap itself protects the loose hose as well.
      if (device === "hoseVacuumBreaker" || device === "hoseBackflowPreventer") return undefined;
      if (openHose === undefined) return missing(["hoseUnknown"], ["openHose"]);
      return say(openHose ? "looseHose" : "noLooseHose");
    };
    const guard = () => {
      if (device === "integral") return say("integral");
      if (device === "hoseVacuumBreaker" || device === "hoseBackflowPreventer") return say("protectedTap");
      if (device === "atmosphericVacuumBreaker") {
        const least = limit(breakerHeight);
        return all(
          breakerRise === undefined || !least
            ? missing(["riseUnknown"], ["breakerRise"])
            : judge({
                kind: "inches",
                measured: breakerRise,
                limit: least,
                pass: ["breakerHigh", { rise: breakerRise, least: brand<"length">(least.value) }],
                fail: ["breakerLow", { rise: breakerRise, least: brand<"length">(least.value) }],
              }),
          valvePast === undefined
            ? missing(["valveUnknown"], ["valvePast"])
            : say(valvePast ? "breakerShut" : "breakerOpen"),
        );
      }
      if (opening === undefined || gap === undefined || nearWall === undefined) {
        const open = { opening, gap, nearWall };
        const absent = Object.entries(open).flatMap(([name, value]) => (value === undefined ? [[name]] : []));
        return missing(["gapUnknown"], ...absent);
      }
      const row = openingRow(opening);
      const printed = row === undefined ? undefined : limit(airGapLeast, "none", { opening: row, nearWall });
      const times = nearWall ? 3 : 2;
      const least = brand<"length">(printed?.value ?? times * opening);
      if (!printed) formula("{least:inches} = {times:count} * {opening:inches}", { least, times, opening });
      return judge({
        kind: "inches",
        measured: gap,
        limit: printed ?? least,
        sense: "atLeast",
        pass: ["gapEnough", { gap, least }],
        fail: ["gapSmall", { gap, least }],
      });
    };
    return all(guard(), loose());
  },
  mend() {
    return [
      {
        change: [
          { path: ["device"], value: "hoseVacuumBreaker" },
          { path: ["openHose"], value: false },
        ],
        say: ["hoseBreaker"],
      },
    ];
  },
});
