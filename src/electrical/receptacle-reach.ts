import * as z from "zod";
import { brand, type Length } from "../core/quantity/index.js";
import { defineRule, type Proposal, quantity } from "../core/rule/index.js";
import { cordInput, receptacleInput } from "./circuit.js";
import { cordSlack, receptacleDistance } from "./limits.js";

export const receptacleReachInput = z.strictObject({
  distance: receptacleInput.shape.distance,
  path: z
    .array(quantity("length", { max: [50, "ft"] }))
    .min(1)
    .max(12)
    .optional()
    .describe("Straight pieces of the cord's way from the machine's terminal block to the receptacle, in order"),
  cord: cordInput.shape.length,
  pullOut: quantity("length", { max: [10, "ft"] })
    .optional()
    .describe("How far the machine must come forward with the cord still plugged in, to reach behind it"),
  hardWired: z.boolean().optional().describe("Whether the machine is wired in without cord and plug"),
});

/**
 * Length of cord that a way needs [m].
 *
 * need = Σ pieces + pull-out + slack. Pulling the machine forward lengthens the way by at most as much; corners are taken
 * as sharp.
 *
 * @param path - straight pieces [m]
 * @param pullOut - how far the machine comes forward [m]
 * @param slack - what is left over [m]
 * @example cordNeeded([si(2, "ft"), si(1, "ft")], si(1, "ft"), si(6, "in")) // 1.3716000000000002
 */
export function cordNeeded(path: readonly Length[], pullOut: Length, slack: Length): Length {
  return brand<"length">(path.reduce<number>((sum, piece) => sum + piece, 0) + pullOut + slack);
}

/** Lengths in which cords for ranges and dryers are sold [ft]. Common practice, no source. */
const STOCK_FT = [4, 5, 6, 8, 10] as const;

const remedies = {
  longerCord: "Fit a listed {cord:length} cord made for this machine; never lengthen one.",
} as const;

/**
 * The receptacle is near enough, and the cord reaches it with slack.
 *
 * A rule; its page is `docs/rules/electrical/receptacle-reach.md`.
 */
export const receptacleReach = defineRule({
  id: "electrical/receptacle-reach",
  title: "The receptacle is near enough, and the cord reaches it with slack",
  since: "0.1.0",
  input: receptacleReachInput,
  basis: [],
  limits: [receptacleDistance, cordSlack],
  messages: {
    pass: {
      near: "The receptacle is {distance:length} from the machine's place, within {most:length}.",
      reaches: "The {cord:length} cord covers the {need:length} needed, {slack:length} of slack in it.",
    },
    fail: {
      tooFar: "The receptacle is {distance:length} from the machine's place, more than {most:length}.",
      tooShort:
        "The {cord:length} cord is {lack:length} short of the {need:length} needed. An extension cord is not a remedy.",
    },
    review: {
      distanceUnknown: "The distance to the receptacle was not measured.",
      pathUnknown: "The cord's way was not measured.",
      cordUnknown: "The cord was not measured.",
      pullOutUnknown: "How far the machine must come forward was not noted.",
    },
    notApplicable: { wiredIn: "The machine is wired in; there is no cord and no receptacle." },
  },
  remedies,
  cautions: ["mains", "movingConnected", "deferral"],
  examples: [
    {
      title: "A receptacle beside the dryer at Alder Row",
      input: { distance: "18 in", path: ["14 in", "12 in"], cord: "5 ft", pullOut: "20 in" },
      gives: "near",
    },
    {
      title: "The same, the cord",
      input: { distance: "18 in", path: ["14 in", "12 in"], cord: "5 ft", pullOut: "20 in" },
      gives: "reaches",
    },
    {
      title: "A receptacle across the room",
      input: { distance: "9 ft", path: ["30 in", "9 ft"], cord: "6 ft", pullOut: "20 in" },
      gives: "tooFar",
    },
    {
      title: "A cord that reaches only with the machine against the wall",
      input: { distance: "3 ft", path: ["16 in", "30 in"], cord: "4 ft", pullOut: "20 in" },
      gives: "tooShort",
    },
    { title: "Nothing measured", input: {}, gives: "distanceUnknown" },
    { title: "Way not measured", input: { distance: "2 ft", cord: "5 ft", pullOut: "20 in" }, gives: "pathUnknown" },
    {
      title: "Cord not bought yet",
      input: { distance: "2 ft", path: ["30 in"], pullOut: "20 in" },
      gives: "cordUnknown",
    },
    {
      title: "Pull-out not noted",
      input: { distance: "2 ft", path: ["30 in"], cord: "5 ft" },
      gives: "pullOutUnknown",
    },
    { title: "A machine wired in", input: { hardWired: true }, gives: "wiredIn" },
  ],
  check({ distance, path, cord, pullOut, hardWired }, { all, formula, judge, limit, missing, say }) {
    if (hardWired) return say("wiredIn");

    const near = () => {
      const most = limit(receptacleDistance)!;
      if (distance === undefined) return missing(["distanceUnknown"], ["distance"]);
      const slots = { distance, most: brand<"length">(most.value) };
      return judge({ kind: "length", measured: distance, limit: most, pass: ["near", slots], fail: ["tooFar", slots] });
    };

    const reaches = () => {
      if (path === undefined) return missing(["pathUnknown"], ["path"]);
      if (pullOut === undefined) return missing(["pullOutUnknown"], ["pullOut"]);
      if (cord === undefined) return missing(["cordUnknown"], ["cord"]);
      const slack = limit(cordSlack)!;
      const pieces = cordNeeded(path, brand<"length">(0), brand<"length">(0));
      const spare = brand<"length">(slack.value);
      const need = cordNeeded(path, pullOut, spare);
      formula("{need:length} = {pieces:length} + {pullOut:length} + {slack:length}", {
        need,
        pieces,
        pullOut,
        slack: spare,
      });
      return judge({
        kind: "length",
        measured: cord,
        limit: need,
        sense: "atLeast",
        pass: ["reaches", { cord, need, slack: spare }],
        fail: ["tooShort", { cord, need, lack: brand<"length">(need - cord) }],
      });
    };

    return all(near(), reaches());
  },
  mend({ cord }) {
    const proposals: Proposal<typeof remedies>[] = [];
    for (const feet of STOCK_FT) {
      const length = brand<"length">(feet * 0.3048);
      if (cord === undefined || length <= cord) continue;
      proposals.push({
        change: [{ path: ["cord"], value: length, unit: "ft" }],
        say: ["longerCord", { cord: length }],
      });
    }
    return proposals;
  },
});
