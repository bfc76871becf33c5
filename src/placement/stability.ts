import * as z from "zod";
import { brand } from "../core/quantity/index.js";
import { defineRule, machineFacts, type Outcome, type Proposal, quantity } from "../core/rule/index.js";
import { tipAngle, tippingForce, tippingLever } from "../physics/stability.js";
import { iecStability } from "./basis.js";
import { bodyInput, massInput } from "./body.js";
import { stableTilt, tipFixing } from "./limits.js";
import { weightOf } from "./rock.js";

const reach = () => quantity("length", { max: [6, "ft"] });

export const stabilityInput = z.strictObject({
  kind: machineFacts.kind,
  body: bodyInput,
  mass: massInput,
  centreHeight: quantity("length", { min: [1, "cm"], max: [10, "ft"] })
    .optional()
    .describe("Height of its centre of mass above the floor; half its height where left out"),
  lever: reach()
    .optional()
    .describe("From its centre of mass forward to the line of the front feet; half its depth where left out"),
  slope: quantity("slope", { min: [-0.2, "m/m"], max: [0.2, "m/m"] })
    .optional()
    .describe("Slope at which it stands, falling toward the front; minus where it falls toward the back"),
  push: z
    .strictObject({
      force: quantity("force", { max: [5000, "N"] }).describe("Horizontal push or pull to reckon with"),
      height: quantity("length", { min: [1, "cm"], max: [10, "ft"] }).describe(
        "Height above the floor at which it acts",
      ),
    })
    .optional()
    .describe("A push it has to stand, for example a child pulling at the top"),
  doorLoad: z
    .strictObject({
      mass: quantity("mass", { max: [300, "kg"] }).describe("Mass on the open door, for example a roast or a child"),
      reach: reach().describe("How far out from the line of the front feet it rests"),
    })
    .optional()
    .describe("A load on its open door"),
  antiTip: z.boolean().optional().describe("Whether the anti-tip device is fitted and engaged"),
  stackingKit: z.boolean().optional().describe("Whether the pair is joined with the maker's stacking kit"),
});

const remedies = {
  antiTip: "Fit the anti-tip device that came with the range, and see that the rear foot sits in it.",
  stackingKit: "Join the pair with the maker's stacking kit.",
} as const;

/** The machine does not tip. A rule; its page is `docs/rules/placement/stability.md`. */
export const stability = defineRule({
  id: "placement/stability",
  title: "The machine does not tip",
  since: "0.1.0",
  input: stabilityInput,
  basis: [iecStability],
  limits: [stableTilt, tipFixing],
  messages: {
    pass: {
      stands: "It tips only when leaned by {angle:angle}; {wanted:angle} is asked for.",
      fixed: "The fixing that holds it is fitted.",
      held: "The anti-tip device holds it against a load on its door.",
      pushHeld: "A push of {push:force} at {height:length} does not tip it; {tips:force} would.",
      doorHeld: "The load on its door pulls with {load:torque}; {holds:torque} holds it.",
    },
    fail: {
      topHeavy: "It tips when leaned by only {angle:angle}; {wanted:angle} is asked for.",
      noAntiTip: "The anti-tip device is not fitted: a load on the open door can throw the range over.",
      noKit: "The pair is not joined by a stacking kit: the upper machine can walk off the lower one.",
      pushTips: "A push of {push:force} at {height:length} tips it; {tips:force} is enough.",
      doorTips:
        "The load on its door pulls with {load:torque}, more than the {holds:torque} that holds it: it tips forward.",
    },
    review: {
      sizeUnknown: "Height and depth of the machine were not measured.",
      massUnknown: "The mass of the machine is not known.",
      antiTipUnknown: "Whether the anti-tip device is fitted was not noted: look at the rear foot.",
      kitUnknown: "Whether the pair is joined by a stacking kit was not noted.",
    },
    notApplicable: { builtIn: "It is built in, and does not stand free." },
  },
  remedies,
  cautions: ["tipOver", "lifting"],
  examples: [
    {
      title: "A washer",
      input: { kind: "washer", body: { height: "38 in", depth: "30 in" }, mass: "200 lb" },
      gives: "stands",
    },
    {
      title: "A stacked pair with its kit, pulled at the top",
      input: {
        kind: "stack",
        body: { height: "75 in", depth: "27 in" },
        mass: "300 lb",
        stackingKit: true,
        push: { force: "60 lbf", height: "60 in" },
      },
      gives: "fixed",
    },
    {
      title: "A range without its device",
      input: { kind: "range", body: { height: "36 in", depth: "25 in" }, mass: "150 lb", antiTip: false },
      gives: "noAntiTip",
    },
    {
      title: "A range with its device, a roast on the door",
      input: {
        kind: "range",
        body: { height: "36 in", depth: "25 in" },
        mass: "150 lb",
        antiTip: true,
        doorLoad: { mass: "40 lb", reach: "20 in" },
      },
      gives: "fixed",
    },
    {
      title: "A pair without its kit",
      input: { kind: "stack", body: { height: "75 in", depth: "27 in" }, mass: "300 lb", stackingKit: false },
      gives: "noKit",
    },
    {
      title: "A push at the top of a light pair",
      input: {
        kind: "stack",
        body: { height: "75 in", depth: "27 in" },
        mass: "300 lb",
        stackingKit: true,
        push: { force: "70 lbf", height: "60 in" },
      },
      gives: "pushTips",
    },
    {
      title: "A heavy load on the door of a dishwasher that stands free",
      input: {
        kind: "dishwasher",
        body: { height: "34 in", depth: "24 in" },
        mass: "80 lb",
        doorLoad: { mass: "60 lb", reach: "20 in" },
      },
      gives: "doorTips",
    },
    {
      title: "A light load on the same door",
      input: {
        kind: "dishwasher",
        body: { height: "34 in", depth: "24 in" },
        mass: "80 lb",
        doorLoad: { mass: "20 lb", reach: "20 in" },
      },
      gives: "stands",
    },
    {
      title: "A tall narrow machine on a floor that falls forward",
      input: {
        kind: "refrigerator",
        body: { height: "72 in", depth: "13 in" },
        mass: "150 lb",
        slope: "1/2 in per ft",
      },
      gives: "topHeavy",
    },
    { title: "Not measured", input: { kind: "washer" }, gives: "sizeUnknown" },
    {
      title: "Mass not known",
      input: {
        kind: "washer",
        body: { height: "38 in", depth: "30 in" },
        push: { force: "40 lbf", height: "38 in" },
      },
      gives: "massUnknown",
    },
    {
      title: "Device not looked for",
      input: { kind: "range", body: { height: "36 in", depth: "25 in" }, mass: "150 lb" },
      gives: "antiTipUnknown",
    },
    {
      title: "Kit not looked for",
      input: { kind: "stack", body: { height: "75 in", depth: "27 in" }, mass: "300 lb" },
      gives: "kitUnknown",
    },
    { title: "A cooktop", input: { kind: "cooktop" }, gives: "builtIn" },
  ],
  check(input, { limit, judge, say, missing, all, formula, assume }) {
    const { kind, body = {}, mass, centreHeight, lever, slope, push, doorLoad, antiTip, stackingKit } = input;
    if (kind === "cooktop" || kind === "hood" || kind === "oven") return say("builtIn");

    const fixing = limit(tipFixing, "none", { kind })?.value === 1;
    const fixed = (): Outcome | undefined => {
      if (!fixing) return undefined;
      if (kind === "stack") {
        if (stackingKit === undefined) return missing(["kitUnknown"], ["stackingKit"]);
        return say(stackingKit ? "fixed" : "noKit");
      }
      if (antiTip === undefined) return missing(["antiTipUnknown"], ["antiTip"]);
      return say(antiTip ? "fixed" : "noAntiTip");
    };

    const height = centreHeight ?? (body.height === undefined ? undefined : brand<"length">(body.height / 2));
    const level = lever ?? (body.depth === undefined ? undefined : brand<"length">(body.depth / 2));
    if (height === undefined || level === undefined) {
      const paths = [
        ...(height === undefined ? [["body", "height"]] : []),
        ...(level === undefined ? [["body", "depth"]] : []),
      ];
      return all(fixed(), missing(["sizeUnknown"], ...paths));
    }
    if (centreHeight === undefined || lever === undefined)
      assume("Its centre of mass is taken to be in the middle of the machine.");
    const falls = slope ?? brand<"slope">(0);
    const left = brand<"length">(Math.max(0, tippingLever(level, height, falls)));
    const angle = tipAngle(left, height);
    if (left > 0) {
      formula("{lever:inches} = {level:inches} - {centre:inches} * {slope:slope}", {
        lever: left,
        level,
        centre: height,
        slope: falls,
      });
    }
    formula("{angle:angle} = atan({lever:inches} / {centre:inches})", { angle, lever: left, centre: height });
    const wanted = limit(stableTilt)!;
    // A device at the rear holds the machine against tipping forward by its door, not against a slope.
    const stands = judge({
      kind: "angle",
      measured: angle,
      limit: wanted,
      pass: ["stands", { angle, wanted: brand<"angle">(wanted.value) }],
      fail: ["topHeavy", { angle, wanted: brand<"angle">(wanted.value) }],
    });

    const held = kind === "range" && antiTip === true;
    const loads = (): Outcome | undefined => {
      if (push === undefined && doorLoad === undefined) return undefined;
      if (held && push === undefined) return say("held");
      if (mass === undefined) return missing(["massUnknown"], ["mass"]);
      const weight = weightOf(mass);
      const outcomes: Outcome[] = [];
      if (push !== undefined) {
        const tips = tippingForce(weight, left, push.height);
        formula("{tips:force} = {weight:force} * {lever:inches} / {height:inches}", {
          tips,
          weight,
          lever: left,
          height: push.height,
        });
        outcomes.push(
          judge({
            kind: "force",
            measured: push.force,
            limit: tips,
            sense: "atMost",
            pass: ["pushHeld", { push: push.force, height: push.height, tips }],
            fail: ["pushTips", { push: push.force, height: push.height, tips }],
          }),
        );
      }
      if (doorLoad !== undefined && held) outcomes.push(say("held"));
      else if (doorLoad !== undefined) {
        const load = brand<"torque">(weightOf(doorLoad.mass) * doorLoad.reach);
        const holds = brand<"torque">(weight * left);
        formula("{load:torque} = {onDoor:force} * {reach:inches}", {
          load,
          onDoor: weightOf(doorLoad.mass),
          reach: doorLoad.reach,
        });
        formula("{holds:torque} = {weight:force} * {lever:inches}", { holds, weight, lever: left });
        outcomes.push(
          judge({
            kind: "torque",
            measured: load,
            limit: holds,
            sense: "atMost",
            pass: ["doorHeld", { load, holds }],
            fail: ["doorTips", { load, holds }],
          }),
        );
      }
      return all(...outcomes);
    };
    return all(fixed(), stands, loads());
  },
  mend({ kind }) {
    const proposals: Proposal<typeof remedies>[] = [];
    if (kind === "range") proposals.push({ change: [{ path: ["antiTip"], value: true }], say: ["antiTip"] });
    if (kind === "stack") proposals.push({ change: [{ path: ["stackingKit"], value: true }], say: ["stackingKit"] });
    return proposals;
  },
});
