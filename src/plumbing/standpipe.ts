import * as z from "zod";
import type { Governing } from "../core/basis/index.js";
import { brand, type Length, si } from "../core/quantity/index.js";
import { defineRule, machineFacts, type Proposal, quantity } from "../core/rule/index.js";
import {
  crestLeast,
  crestMost,
  hoseInsertion,
  standpipeLeast,
  standpipeMost,
  standpipeSize,
  trapLeast,
  trapMost,
  trayDistance,
  trayHeight,
} from "./limits-drain.js";

export const standpipeInput = z.strictObject({
  kind: machineFacts.kind,
  height: quantity("length", { max: [20, "ft"] })
    .optional()
    .describe("Top of the standpipe above the weir of its trap: the lowest point of the pipe that leaves the trap"),
  trapHeight: quantity("length", { min: [-10, "ft"], max: [10, "ft"] })
    .optional()
    .describe("Weir of the trap above the floor; negative where the trap is under the floor"),
  size: quantity("length", { min: [0.5, "in"], max: [8, "in"] })
    .optional()
    .describe("Nominal size of the standpipe and its trap, the smaller of the two; 2 in is printed on the fitting"),
  trapped: z.boolean().optional().describe("Whether the standpipe has a trap of its own"),
  airBreak: z
    .boolean()
    .optional()
    .describe("Whether the hose hangs loose in the standpipe, so that air passes beside it; taped or plugged is not"),
  insertion: quantity("length", { max: [10, "ft"] })
    .optional()
    .describe("How far the drain hose reaches down into the standpipe"),
  crest: quantity("length", { max: [20, "ft"] })
    .optional()
    .describe("Highest point of the drain hose above the floor the machine stands on"),
  tray: z
    .boolean()
    .optional()
    .describe("Whether a laundry tray drains into the standpipe; left out where there is none"),
  trayAway: quantity("length", { max: [20, "ft"] })
    .optional()
    .describe("Level distance from that tray's outlet to the standpipe's trap"),
});

const len = (governing: Governing): Length => brand<"length">(governing.value);

const remedies = {
  height: "Have the standpipe made {height:length} high above the trap weir.",
  insertion: "Draw the hose up until {insertion:inches} of it is in the standpipe, and clip it there.",
  crest: "Hang the hose over a hook {crest:length} above the floor.",
  airBreak: "Take off the tape or plug and let the hose hang loose.",
  renew:
    "Have a 2 in standpipe with a trap of its own fitted, {height:length} above the trap weir, and hang the hose loose in it, {insertion:inches} deep and {crest:length} above the floor.",
} as const;

/**
 * The washer's standpipe, its trap and the hose in it are as they should be.
 *
 * A rule; its page is `docs/rules/plumbing/standpipe.md`.
 */
export const standpipe = defineRule({
  id: "plumbing/standpipe",
  title: "The washer's standpipe, its trap and the hose in it are as they should be",
  since: "0.1.0",
  input: standpipeInput,
  basis: [],
  limits: [
    standpipeLeast,
    standpipeMost,
    trapLeast,
    trapMost,
    standpipeSize,
    hoseInsertion,
    crestLeast,
    crestMost,
    trayHeight,
    trayDistance,
  ],
  messages: {
    pass: {
      highEnough: "The standpipe stands {height:length} above the trap weir, {least:length} or more.",
      lowEnough: "The standpipe stands {height:length} above the trap weir, {most:length} or less.",
      trapHighEnough: "The trap is {trap:length} above the floor, {least:length} or more.",
      trapLowEnough: "The trap is {trap:length} above the floor, {most:length} or less.",
      sizeEnough: "Trap and standpipe are {size:inches}.",
      trayHigh: "A laundry tray drains into the standpipe, which is {height:length} high; {least:length} is asked for.",
      trayNear: "The tray's outlet is {away:length} from the trap; {most:length} is the most.",
      ownTrap: "The standpipe has a trap of its own.",
      airPasses: "Air passes beside the hose.",
      inEnough: "The hose goes {insertion:inches} down, {most:inches} or less.",
      crestHigh:
        "The hose rises to {crest:length} above the floor, {least:length} or more, so the tub does not drain itself.",
      crestLow: "The pump lifts to {crest:length}, {most:length} or less.",
    },
    fail: {
      tooLow:
        "The standpipe stands only {height:length} above the trap weir; {least:length} is asked for, or it overflows.",
      tooHigh: "The standpipe stands {height:length} above the trap weir; {most:length} is the most allowed.",
      trapTooLow: "The trap is {trap:length} above the floor; it must be {least:length} or more.",
      trapTooHigh: "The trap is {trap:length} above the floor; it must be {most:length} or less.",
      tooNarrow: "Trap and standpipe are {size:inches}; {least:inches} is asked for.",
      trayLow:
        "A laundry tray drains into the standpipe, which is only {height:length} high; {least:length} is asked for, or the washer fills the tray.",
      trayFar: "The tray's outlet is {away:length} from the trap; {most:length} is the most.",
      noTrap: "The standpipe has no trap of its own: sewer gas comes into the room.",
      sealed: "The hose is sealed into the standpipe: without an air break it can siphon, and waste can come back.",
      tooDeep:
        "The hose goes {insertion:inches} down the standpipe; {most:inches} is the most, or it siphons and blocks the pipe.",
      crestTooLow:
        "The hose rises to only {crest:length} above the floor; below {least:length} the tub drains itself while it fills.",
      liftTooHigh: "The pump would have to lift to {crest:length}; {most:length} is the most.",
    },
    review: {
      trayAwayUnknown: "The way from the laundry tray's outlet to the standpipe's trap was not measured.",
      trayNotNamed:
        "A laundry tray drains into the standpipe; no text adopted here names that, so ask the local authority.",
      heightUnknown: "The standpipe's height above the trap weir was not measured.",
      trapHeightUnknown: "The trap's height above the floor was not measured.",
      sizeUnknown: "The size of standpipe and trap was not read.",
      trapUnknown: "Nobody looked whether the standpipe has a trap of its own.",
      airUnknown: "Nobody looked whether the hose hangs loose.",
      insertionUnknown: "How far the hose goes down was not measured.",
      crestUnknown: "The highest point of the hose was not measured.",
    },
    notApplicable: { noWasher: "This machine does not pump into a standpipe." },
  },
  remedies,
  cautions: ["water", "scald", "deferral"],
  examples: [
    {
      title: "A new 2 in standpipe",
      input: {
        kind: "washer",
        height: "28 in",
        trapHeight: "10 in",
        size: "2 in",
        trapped: true,
        airBreak: true,
        insertion: "5 in",
        crest: "38 in",
      },
      gives: "highEnough",
    },
    {
      title: "The same under a uniform code",
      input: {
        kind: "washer",
        height: "28 in",
        trapHeight: "10 in",
        size: "2 in",
        trapped: true,
        airBreak: true,
        insertion: "5 in",
        crest: "38 in",
      },
      at: { jurisdiction: { adopted: { upc: 2024 } } },
      gives: "highEnough",
    },
    {
      title: "An old 1 1/2 in standpipe, low, with the hose pushed down and taped",
      input: {
        kind: "washer",
        height: "14 in",
        trapHeight: "10 in",
        size: "1.5 in",
        trapped: false,
        airBreak: false,
        insertion: "14 in",
        crest: "26 in",
      },
      gives: "tooLow",
    },
    {
      title: "Too tall for a uniform code, trap in the crawl space",
      input: {
        kind: "washer",
        height: "36 in",
        trapHeight: "-4 in",
        size: "2 in",
        trapped: true,
        airBreak: true,
        insertion: "4 in",
        crest: "100 in",
      },
      at: { jurisdiction: { adopted: { upc: 2021 } } },
      gives: "tooHigh",
    },
    {
      title: "A trap set too high",
      input: {
        kind: "washer",
        height: "24 in",
        trapHeight: "20 in",
        size: "2 in",
        trapped: true,
        airBreak: true,
        insertion: "4 in",
        crest: "48 in",
      },
      at: { jurisdiction: { adopted: { upc: 2021 } } },
      gives: "trapTooHigh",
    },
    {
      title: "A laundry tray into the same standpipe",
      input: {
        kind: "washer",
        height: "34 in",
        size: "2 in",
        trapped: true,
        airBreak: true,
        insertion: "5 in",
        crest: "40 in",
        tray: true,
        trayAway: "24 in",
      },
      gives: "trayHigh",
    },
    {
      title: "A low standpipe with a tray far off",
      input: {
        kind: "washer",
        height: "24 in",
        size: "2 in",
        trapped: true,
        airBreak: true,
        insertion: "5 in",
        crest: "40 in",
        tray: true,
        trayAway: "4 ft",
      },
      gives: "trayLow",
    },
    { title: "A tray not measured", input: { kind: "washer", height: "34 in", tray: true }, gives: "trayAwayUnknown" },
    {
      title: "A tray under a code that does not name it",
      input: { kind: "washer", height: "28 in", tray: true },
      at: { jurisdiction: { adopted: { upc: 2024 } } },
      gives: "trayNotNamed",
    },
    { title: "Nothing measured", input: { kind: "washer" }, gives: "heightUnknown" },
    {
      title: "Only the standpipe measured, under a uniform code",
      input: { kind: "washer", height: "24 in" },
      at: { jurisdiction: { adopted: { upc: 2024 } } },
      gives: "trapHeightUnknown",
    },
    { title: "A dishwasher", input: { kind: "dishwasher" }, gives: "noWasher" },
  ],
  check(input, { all, assume, judge, limit, missing, say }) {
    const { kind, height, trapHeight, size, trapped, airBreak, insertion, crest } = input;
    if (kind !== "washer" && kind !== "stack") return say("noWasher");

    const tall = () => {
      const least = limit(standpipeLeast);
      const most = limit(standpipeMost);
      if (height === undefined) return missing(["heightUnknown"], ["height"]);
      return all(
        least &&
          judge({
            kind: "length",
            measured: height,
            limit: least,
            pass: ["highEnough", { height, least: len(least) }],
            fail: ["tooLow", { height, least: len(least) }],
          }),
        most &&
          judge({
            kind: "length",
            measured: height,
            limit: most,
            pass: ["lowEnough", { height, most: len(most) }],
            fail: ["tooHigh", { height, most: len(most) }],
          }),
      );
    };
    const trap = () => {
      const least = limit(trapLeast);
      const most = limit(trapMost);
      if (!least || !most) return undefined;
      if (trapHeight === undefined) return missing(["trapHeightUnknown"], ["trapHeight"]);
      return all(
        judge({
          kind: "length",
          measured: trapHeight,
          limit: least,
          pass: ["trapHighEnough", { trap: trapHeight, least: len(least) }],
          fail: ["trapTooLow", { trap: trapHeight, least: len(least) }],
        }),
        judge({
          kind: "length",
          measured: trapHeight,
          limit: most,
          pass: ["trapLowEnough", { trap: trapHeight, most: len(most) }],
          fail: ["trapTooHigh", { trap: trapHeight, most: len(most) }],
        }),
      );
    };
    const bore = () => {
      const least = limit(standpipeSize);
      if (!least) return undefined;
      if (size === undefined) return missing(["sizeUnknown"], ["size"]);
      return judge({
        kind: "inches",
        measured: size,
        limit: least,
        pass: ["sizeEnough", { size }],
        fail: ["tooNarrow", { size, least: len(least) }],
      });
    };
    const air = () =>
      all(
        trapped === undefined ? missing(["trapUnknown"], ["trapped"]) : say(trapped ? "ownTrap" : "noTrap"),
        airBreak === undefined ? missing(["airUnknown"], ["airBreak"]) : say(airBreak ? "airPasses" : "sealed"),
      );
    const depth = () => {
      const most = limit(hoseInsertion);
      if (!most) return undefined;
      if (insertion === undefined) return missing(["insertionUnknown"], ["insertion"]);
      return judge({
        kind: "inches",
        measured: insertion,
        limit: most,
        pass: ["inEnough", { insertion, most: len(most) }],
        fail: ["tooDeep", { insertion, most: len(most) }],
      });
    };
    const hose = () => {
      if (crest === undefined) return missing(["crestUnknown"], ["crest"]);
      const least = limit(crestLeast);
      const most = limit(crestMost);
      return all(
        least &&
          judge({
            kind: "length",
            measured: crest,
            limit: least,
            pass: ["crestHigh", { crest, least: len(least) }],
            fail: ["crestTooLow", { crest, least: len(least) }],
          }),
        most &&
          judge({
            kind: "length",
            measured: crest,
            limit: most,
            pass: ["crestLow", { crest, most: len(most) }],
            fail: ["liftTooHigh", { crest, most: len(most) }],
          }),
      );
    };
    const tub = () => {
      const { tray, trayAway } = input;
      if (tray === undefined) assume("No laundry tray is taken to drain into the standpipe.");
      if (tray !== true) return undefined;
      const least = limit(trayHeight);
      const most = limit(trayDistance);
      if (!least || !most) return say("trayNotNamed");
      return all(
        height === undefined
          ? undefined
          : judge({
              kind: "length",
              measured: height,
              limit: least,
              pass: ["trayHigh", { height, least: len(least) }],
              fail: ["trayLow", { height, least: len(least) }],
            }),
        trayAway === undefined
          ? missing(["trayAwayUnknown"], ["trayAway"])
          : judge({
              kind: "length",
              measured: trayAway,
              limit: most,
              pass: ["trayNear", { away: trayAway, most: len(most) }],
              fail: ["trayFar", { away: trayAway, most: len(most) }],
            }),
      );
    };
    return all(tall(), trap(), bore(), air(), depth(), hose(), tub());
  },
  mend() {
    // 24 in above the weir and a trap 10 in above the floor are inside every code's range; the rest inside the trade's.
    const height = si(24, "in");
    const insertion = si(5, "in");
    const crest = si(36, "in");
    const proposals: Proposal<typeof remedies>[] = [
      { change: [{ path: ["airBreak"], value: true }], say: ["airBreak"] },
      { change: [{ path: ["insertion"], value: insertion, unit: "in" }], say: ["insertion", { insertion }] },
      { change: [{ path: ["crest"], value: crest, unit: "in" }], say: ["crest", { crest }] },
      { change: [{ path: ["height"], value: height, unit: "in" }], say: ["height", { height }] },
      {
        change: [
          { path: ["height"], value: height, unit: "in" },
          { path: ["trapHeight"], value: si(10, "in"), unit: "in" },
          { path: ["size"], value: si(2, "in"), unit: "in" },
          { path: ["trapped"], value: true },
          { path: ["airBreak"], value: true },
          { path: ["insertion"], value: insertion, unit: "in" },
          { path: ["crest"], value: crest, unit: "in" },
        ],
        say: ["renew", { height, insertion, crest }],
      },
    ];
    return proposals;
  },
});
