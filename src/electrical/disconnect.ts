import * as z from "zod";
import { commonPractice } from "../core/basis/index.js";
import { brand, type Power } from "../core/quantity/index.js";
import { defineRule, machineFacts, type Outcome, type Proposal, quantity } from "../core/rule/index.js";
import { necBasis, plateBasis, underNec } from "./basis.js";
import { lockableCounts, sightDistance, smallAppliance } from "./limits-disconnect.js";
import { type Plate, plateInput, ROOT_THREE, ratedCurrent } from "./plate.js";

export const disconnectInput = z.strictObject({
  kind: machineFacts.kind.optional(),
  plate: plateInput.optional().describe("What the machine's plate says of its electrics"),
  hardWired: z.boolean().optional().describe("Whether the machine is wired in without cord and plug"),
  plugReachable: z
    .boolean()
    .optional()
    .describe(
      "Whether one can pull the plug without taking anything apart; for a range, also by taking out its drawer",
    ),
  breaker: z
    .strictObject({
      lockable: z
        .boolean()
        .optional()
        .describe("Whether a lock can hold the breaker open, by a part that stays on it without the lock"),
      visible: z
        .boolean()
        .optional()
        .describe("Whether the breaker or a switch of the circuit can be seen from the machine"),
      distance: quantity("length", { max: [1000, "ft"] })
        .optional()
        .describe("From the machine to that breaker or switch"),
      near: z
        .boolean()
        .optional()
        .describe("Whether the panel is in the same home or on its floor; elsewhere than in a home, readily reached"),
    })
    .optional()
    .describe("The breaker or fuses of the circuit, or a switch in it"),
  unitSwitch: z
    .enum(["opens all lines, marked off", "opens all lines, not marked", "opens some lines", "none"])
    .optional()
    .describe("Switch on the machine itself: what it opens, and whether its off position is marked"),
});

/**
 * Apparent power on the plate [VA]: as printed, else from current and voltage; `undefined` where the plate gives neither.
 *
 * @example ratedVoltAmperes({ current: si(2, "A"), voltage: si(120, "V") }) // 240
 */
export function ratedVoltAmperes(plate: Plate): Power | undefined {
  if (plate.power !== undefined) return plate.power;
  const amps = ratedCurrent(plate);
  if (amps === undefined || plate.voltage === undefined) return undefined;
  return brand<"power">(amps * plate.voltage * (plate.phases === "three" ? ROOT_THREE : 1));
}

const remedies = {
  lock: "Fit the breaker maker's lock-off part that stays on the breaker; a clip carried in the van does not count.",
} as const;

const passes = (outcome: Outcome): boolean => outcome.every(({ verdict }) => verdict === "pass");
const unsure = (outcome: Outcome): boolean => outcome.some(({ verdict }) => verdict === "review");

const dryer = { voltage: "240 V", power: "5400 W" } as const;

/**
 * Whoever works on the machine can cut it off and keep it off.
 *
 * A rule; its page is `docs/rules/electrical/disconnect.md`.
 */
export const disconnect = defineRule({
  id: "electrical/disconnect",
  title: "Whoever works on the machine can cut it off and keep it off",
  since: "0.1.0",
  input: disconnectInput,
  basis: [],
  limits: [smallAppliance, sightDistance, lockableCounts],
  messages: {
    pass: {
      byPlug: "The plug can be pulled; it cuts the machine off.",
      bySmall: "At {load:apparentPower} the breaker alone may cut the machine off, wherever it is.",
      byLock: "The breaker can be locked open, so it may be out of sight.",
      bySight: "The breaker or switch is in sight, {distance:length} away.",
      bySwitch:
        "The machine's own switch opens all lines and is marked, and the panel stands behind it as second means.",
    },
    fail: {
      tooFar:
        "The breaker can be seen, but {distance:length} away; in sight ends at {most:length}, and no lock can hold it.",
      noMeans:
        "Nothing cuts the machine off for one who works on it: the breaker is out of sight and cannot be locked open.",
      switchOpensSome:
        "The machine's own switch does not open all lines, or is not marked: the machine stays live behind it, and the breaker is out of sight and cannot be locked open.",
      switchAlone:
        "The machine's own switch counts only with a second means near by; the panel is neither in the home nor on its floor.",
    },
    review: {
      wiringUnknown: "Whether the machine is on a cord or wired in was not noted.",
      plugUnknown: "Whether the plug can be reached was not noted.",
      lockUnknown: "Whether a lock can hold the breaker open was not noted.",
      sightUnknown: "Whether the breaker can be seen from the machine was not noted.",
      distanceUnknown: "The distance to the breaker was not measured.",
      panelUnknown: "The machine's own switch would do with a second means near by; where the panel is was not noted.",
      noRule:
        "Which means of isolation counts here is not known to this rule: it must open all lines and hold them open; ask the local authority.",
    },
  },
  remedies,
  cautions: ["mains", "deferral"],
  examples: [
    {
      title: "A dryer with its plug beside it",
      input: { kind: "dryer", plate: dryer, hardWired: false, plugReachable: true },
      gives: "byPlug",
    },
    {
      title: "A wired-in dryer, the panel in the same room",
      input: {
        kind: "dryer",
        plate: dryer,
        hardWired: true,
        breaker: { lockable: false, visible: true, distance: "12 ft" },
      },
      gives: "bySight",
    },
    {
      title: "A wired-in oven with a lock on its breaker in the cellar",
      input: {
        kind: "oven",
        plate: { voltage: "240 V", power: "4800 W" },
        hardWired: true,
        breaker: { lockable: true },
      },
      gives: "byLock",
    },
    {
      title: "A small wired-in hood",
      input: { kind: "hood", plate: { voltage: "120 V", current: "2 A" }, hardWired: true },
      gives: "bySmall",
    },
    {
      title: "A wired-in cooktop whose panel is upstairs",
      input: {
        kind: "cooktop",
        plate: { voltage: "240 V", power: "7200 W" },
        hardWired: true,
        breaker: { lockable: false, visible: false, near: true },
        unitSwitch: "none",
      },
      gives: "noMeans",
    },
    {
      title: "A wired-in range with a main switch of its own",
      input: {
        kind: "range",
        plate: { voltage: "240 V", power: "9600 W" },
        hardWired: true,
        breaker: { lockable: false, visible: false, near: true },
        unitSwitch: "opens all lines, marked off",
      },
      gives: "bySwitch",
    },
    {
      title: "The same in a block whose meters are in the yard",
      input: {
        kind: "range",
        plate: { voltage: "240 V", power: "9600 W" },
        hardWired: true,
        breaker: { lockable: false, visible: false, near: false },
        unitSwitch: "opens all lines, marked off",
      },
      at: { jurisdiction: { building: "multifamily" } },
      gives: "switchAlone",
    },
    {
      title: "A dryer whose start knob is its only switch",
      input: {
        kind: "dryer",
        plate: dryer,
        hardWired: true,
        breaker: { lockable: false, visible: false, near: true },
        unitSwitch: "opens some lines",
      },
      gives: "switchOpensSome",
    },
    {
      title: "A panel at the far end of a workshop",
      input: {
        kind: "washer",
        plate: { voltage: "240 V", power: "3000 W" },
        hardWired: true,
        breaker: { lockable: false, visible: true, distance: "64 ft" },
        unitSwitch: "none",
      },
      gives: "tooFar",
    },
    {
      title: "A dishwasher whose plug is behind it",
      input: {
        kind: "dishwasher",
        plate: { voltage: "120 V", current: "10 A" },
        hardWired: false,
        plugReachable: false,
        breaker: { lockable: true },
      },
      gives: "byLock",
    },
    { title: "Cord or not", input: { kind: "dryer" }, gives: "wiringUnknown" },
    { title: "Plug not looked for", input: { kind: "dryer", hardWired: false }, gives: "plugUnknown" },
    { title: "Breaker not looked at", input: { kind: "dryer", plate: dryer, hardWired: true }, gives: "lockUnknown" },
    {
      title: "View not noted",
      input: { kind: "dryer", plate: dryer, hardWired: true, breaker: { lockable: false } },
      gives: "sightUnknown",
    },
    {
      title: "Distance not measured",
      input: { kind: "dryer", plate: dryer, hardWired: true, breaker: { lockable: false, visible: true } },
      gives: "distanceUnknown",
    },
    {
      title: "Panel not found",
      input: {
        kind: "range",
        hardWired: true,
        breaker: { lockable: false, visible: false },
        unitSwitch: "opens all lines, marked off",
      },
      at: { jurisdiction: { building: "multifamily" } },
      gives: "panelUnknown",
    },
    {
      title: "A wired-in oven on a 230 V site",
      input: { kind: "oven", plate: { voltage: "230 V", power: "3500 W" }, hardWired: true },
      at: { jurisdiction: { adopted: { iec60364: 2017 } } },
      gives: "noRule",
    },
  ],
  check({ plate, hardWired, plugReachable, breaker, unitSwitch }, ask) {
    const { at, judge, limit, missing, rest, say } = ask;
    if (hardWired === undefined) return missing(["wiringUnknown"], ["hardWired"]);
    if (!hardWired) {
      if (plugReachable === undefined) return missing(["plugUnknown"], ["plugReachable"]);
      if (plugReachable) {
        const note = "A plug that can be reached is the means of disconnecting.";
        rest(underNec(at) ? necBasis(at, "422.33(A)", "secondary", note) : { ...commonPractice, note });
        return say("byPlug");
      }
    }
    const lockable = limit(lockableCounts);
    const sight = limit(sightDistance);
    const small = limit(smallAppliance);
    if (!lockable || !sight || !small) return say("noRule");

    const load = plate && ratedVoltAmperes(plate);
    if (load !== undefined && hardWired) {
      rest(plateBasis);
      const alone = judge({
        kind: "apparentPower",
        measured: load,
        limit: small,
        pass: ["bySmall", { load }],
        fail: ["noMeans"],
      });
      if (passes(alone) || unsure(alone)) return alone;
    }
    const { lockable: locks, visible, distance, near } = breaker ?? {};
    if (locks && lockable.value === 1) return say("byLock");

    const inSight = (): Outcome | undefined => {
      if (!visible || distance === undefined) return undefined;
      const most = brand<"length">(sight.value);
      return judge({
        kind: "length",
        measured: distance,
        limit: sight,
        pass: ["bySight", { distance }],
        fail: ["tooFar", { distance, most }],
      });
    };
    const seen = inSight();
    if (seen && (passes(seen) || unsure(seen))) return seen;

    if (unitSwitch === "opens all lines, marked off") {
      // in one- and two-family houses the service disconnect may be the second means wherever it is
      const secondMeans = at.building === "dwelling" ? true : near;
      rest(
        necBasis(
          at,
          "422.34",
          "memory",
          "A unit switch that is marked and opens all lines, with another means besides.",
        ),
      );
      if (secondMeans) return say("bySwitch");
      if (secondMeans === false) return say("switchAlone");
      return missing(["panelUnknown"], ["breaker", "near"]);
    }
    if (locks === undefined) return missing(["lockUnknown"], ["breaker", "lockable"]);
    if (visible === undefined) return missing(["sightUnknown"], ["breaker", "visible"]);
    if (visible && distance === undefined) return missing(["distanceUnknown"], ["breaker", "distance"]);
    if (seen) return seen;
    return unitSwitch === undefined || unitSwitch === "none" ? say("noMeans") : say("switchOpensSome");
  },
  mend() {
    return [{ change: [{ path: ["breaker", "lockable"], value: true }], say: ["lock"] }] satisfies Proposal<
      typeof remedies
    >[];
  },
});
