import * as z from "zod";
import { burns } from "../core/basis/index.js";
import { brand, si } from "../core/quantity/index.js";
import { defineRule, machineFacts, type Proposal, quantity } from "../core/rule/index.js";
import { connectorLength, sedimentTrap, shutoffDistance, unionDistance } from "./limits-gas.js";
import { connectorBores, connectorTable, longestConnector_ft } from "./tables/gas-connectors.js";

export const gasConnectorInput = z.strictObject({
  kind: machineFacts.kind,
  fuel: machineFacts.fuel,
  heatInput: machineFacts.heatInput,
  connection: z
    .enum(["flexible", "rigid"])
    .optional()
    .describe("How the machine is joined to the gas pipe: a listed flexible connector, or rigid pipe to the inlet"),
  length: quantity("length", { min: [1, "in"], max: [30, "ft"] })
    .optional()
    .describe("Length of the flexible connector along its middle, nut to nut"),
  capacity: quantity("power", { max: [1_000_000, "Btu/h"] })
    .optional()
    .describe("Capacity of the connector in Btu/h, from its own tag"),
  bore: z
    .enum(connectorBores)
    .optional()
    .describe("Inside diameter of the connector in inches, where the tag with its capacity is gone"),
  isNew: z.boolean().optional().describe("Whether the connector is new and fitted for this machine"),
  connectors: z.int().min(1).max(5).optional().describe("How many connectors are joined end to end"),
  concealed: z
    .boolean()
    .optional()
    .describe("Whether the connector goes through or is hidden in a wall, floor, ceiling or the machine's housing"),
  shutoff: quantity("length", { max: [100, "ft"] })
    .optional()
    .describe("Way from the machine's inlet to its shut-off valve"),
  shutoffInRoom: z.boolean().optional().describe("Whether that valve is in the same room as the machine"),
  shutoffReached: z
    .boolean()
    .optional()
    .describe("Whether a hand reaches that valve; behind a range or dryer that can be moved counts"),
  union: quantity("length", { max: [100, "ft"] })
    .optional()
    .describe("Way from the machine's inlet to the union of a rigid connection"),
  trap: z
    .enum(["none", "turns", "straight"])
    .optional()
    .describe(
      "The sediment trap: none; a tee where the gas turns off sideways above a capped nipple that points down; or one that the gas runs straight through",
    ),
});

const remedies = {
  length: "Fit one new listed connector of {length:length}, and bring the pipe nearer if it does not reach.",
  fresh: "Fit one new listed connector of enough capacity.",
  trap: "Build the sediment trap anew: the gas comes in at the top of the tee and leaves sideways, a capped nipple below.",
} as const;

/** The machine's gas connection is as it should be. A rule; its page is `docs/rules/plumbing/gas-connector.md`. */
export const gasConnector = defineRule({
  id: "plumbing/gas-connector",
  title: "The machine's gas connection is as it should be",
  since: "0.1.0",
  input: gasConnectorInput,
  basis: [],
  limits: [connectorLength, shutoffDistance, unionDistance, sedimentTrap],
  messages: {
    pass: {
      shortEnough: "The connector is {length:length} long; {most:length} is the most.",
      carries: "The connector carries {capacity:heatRate}; the machine burns {input:heatRate}.",
      fitFor: "The connector is new, single and in the open.",
      shutoffNear: "The shut-off valve is {way:length} away in the same room and in reach; {most:length} is the most.",
      unionNear: "The union is {way:length} away; {most:length} is the most.",
      trapMade: "The sediment trap is made right.",
      trapLetOff: "No sediment trap is asked for at a range or dryer.",
    },
    fail: {
      tooLong: "The connector is {length:length} long; {most:length} is the most, and joining two is not allowed.",
      tooSmall: "The connector carries only {capacity:heatRate}; the machine burns {input:heatRate}.",
      used: "The connector was used before; a new one must be fitted with every installation.",
      joined: "Connectors are joined end to end; there must be one only.",
      hidden: "The connector goes through or is hidden in a wall, floor, ceiling or housing; it must be in the open.",
      shutoffFar: "The shut-off valve is {way:length} away; {most:length} is the most.",
      shutoffElsewhere: "The shut-off valve is in another room; it must be in the same one.",
      shutoffOutOfReach: "A hand does not reach the shut-off valve.",
      unionFar: "The union is {way:length} away; {most:length} is the most.",
      trapMissing: "A sediment trap is asked for at the inlet, and there is none.",
      trapWrong:
        "The gas runs straight through the sediment trap and carries the dirt past it; it must turn off sideways.",
    },
    review: {
      connectionUnknown: "Say whether the machine is joined by a flexible connector or rigid pipe.",
      lengthUnknown: "The connector's length was not measured.",
      capacityUnknown: "The connector's capacity was not read from its tag, nor its bore measured.",
      offTable: "The connector is longer than the usual table goes; its own tag must say what it carries.",
      inputUnknown: "The input rate was not read from the machine's plate.",
      newUnknown: "Nobody wrote down whether the connector is new, how many there are, and whether it is in the open.",
      shutoffUnknown: "The shut-off valve was not looked at: how far, in which room, in reach or not.",
      unionUnknown: "The way to the union was not measured.",
      trapUnknown: "Nobody looked for the sediment trap.",
      trapUnsure:
        "No sediment trap is there. The texts let off ranges; whether an oven or cooktop counts as one is for the local authority.",
    },
    notApplicable: { noGas: "This machine burns no gas." },
  },
  remedies,
  cautions: ["gas", "carbonMonoxide", "movingConnected", "deferral"],
  examples: [
    {
      title: "A gas dryer on a new 4 ft connector",
      input: {
        kind: "dryer",
        fuel: "naturalGas",
        heatInput: "22,000 Btu/h",
        connection: "flexible",
        length: "4 ft",
        capacity: "60,000 Btu/h",
        isNew: true,
        connectors: 1,
        concealed: false,
        shutoff: "5 ft",
        shutoffInRoom: true,
        shutoffReached: true,
        trap: "none",
      },
      gives: "shortEnough",
    },
    {
      title: "A range on two old connectors through the cabinet wall",
      input: {
        kind: "range",
        fuel: "naturalGas",
        heatInput: "65,000 Btu/h",
        connection: "flexible",
        length: "8 ft",
        capacity: "50,000 Btu/h",
        isNew: false,
        connectors: 2,
        concealed: true,
        shutoff: "9 ft",
        shutoffInRoom: false,
        shutoffReached: false,
        trap: "straight",
      },
      gives: "tooLong",
    },
    {
      title: "A connector whose tag is gone",
      input: {
        kind: "range",
        fuel: "naturalGas",
        heatInput: "65,000 Btu/h",
        connection: "flexible",
        length: "48 in",
        bore: "3/8",
        isNew: true,
        connectors: 1,
        concealed: false,
        shutoff: "3 ft",
        shutoffInRoom: true,
        shutoffReached: true,
        trap: "none",
      },
      gives: "tooSmall",
    },
    {
      title: "A long connector whose tag is gone",
      input: {
        kind: "range",
        fuel: "propane",
        heatInput: "40,000 Btu/h",
        connection: "flexible",
        length: "7 ft",
        bore: "1/2",
      },
      gives: "offTable",
    },
    {
      title: "A wall oven on rigid pipe",
      input: {
        kind: "oven",
        fuel: "naturalGas",
        heatInput: "25,000 Btu/h",
        connection: "rigid",
        union: "2 ft",
        shutoff: "3 ft",
        shutoffInRoom: true,
        shutoffReached: true,
        trap: "turns",
      },
      gives: "unionNear",
    },
    {
      title: "The same without a trap, the union far off",
      input: {
        kind: "oven",
        fuel: "naturalGas",
        connection: "rigid",
        union: "8 ft",
        shutoff: "3 ft",
        shutoffInRoom: true,
        shutoffReached: true,
        trap: "none",
      },
      gives: "unionFar",
    },
    {
      title: "A washer with a gas heater and no trap",
      input: {
        kind: "washer",
        fuel: "naturalGas",
        connection: "rigid",
        shutoff: "3 ft",
        shutoffInRoom: true,
        shutoffReached: true,
        trap: "none",
      },
      gives: "trapMissing",
    },
    {
      title: "Plate and connector not read",
      input: { kind: "dryer", fuel: "naturalGas", connection: "flexible", length: "4 ft" },
      gives: "capacityUnknown",
    },
    {
      title: "Plate not read",
      input: { kind: "dryer", fuel: "naturalGas", connection: "flexible", capacity: "60,000 Btu/h" },
      gives: "inputUnknown",
    },
    {
      title: "An oven whose trap nobody looked for",
      input: { kind: "oven", fuel: "naturalGas", connection: "rigid", union: "2 ft" },
      gives: "trapUnknown",
    },
    { title: "Nothing looked at", input: { kind: "dryer", fuel: "naturalGas" }, gives: "connectionUnknown" },
    { title: "An electric dryer", input: { kind: "dryer", fuel: "electric" }, gives: "noGas" },
  ],
  check(input, { all, assume, judge, limit, lookUp, missing, say }) {
    const { kind, fuel, heatInput, connection, length, capacity, bore, isNew, connectors, concealed } = input;
    if (!burns(fuel)) return say("noGas");
    if (connection === undefined) return missing(["connectionUnknown"], ["connection"]);
    const family = { rangeOrDryer: kind === "range" || kind === "dryer" || kind === "stack" };

    const reach = () => {
      const most = limit(connectorLength, fuel, family);
      if (length === undefined) return missing(["lengthUnknown"], ["length"]);
      return (
        most &&
        judge({
          kind: "length",
          measured: length,
          limit: most,
          pass: ["shortEnough", { length, most: brand<"length">(most.value) }],
          fail: ["tooLong", { length, most: brand<"length">(most.value) }],
        })
      );
    };
    const flow = () => {
      let carried = capacity;
      if (carried === undefined) {
        if (bore === undefined || length === undefined) return missing(["capacityUnknown"], ["capacity"]);
        assume("The connector's tag is gone; the usual table for natural gas stands in for it.");
        const found = lookUp(connectorTable[bore], length, "inches", "heatRate");
        if (found === undefined) return missing(["offTable"], ["capacity"]);
        carried = brand<"power">(found);
      }
      if (heatInput === undefined) return missing(["inputUnknown"], ["heatInput"]);
      return judge({
        kind: "heatRate",
        measured: heatInput,
        limit: carried,
        sense: "atMost",
        pass: ["carries", { capacity: carried, input: heatInput }],
        fail: ["tooSmall", { capacity: carried, input: heatInput }],
      });
    };
    const state = () => {
      const looked = { isNew, connectors, concealed };
      const absent = Object.entries(looked).flatMap(([name, value]) => (value === undefined ? [[name]] : []));
      const faults = all(
        isNew === false ? say("used") : undefined,
        connectors !== undefined && connectors > 1 ? say("joined") : undefined,
        concealed === true ? say("hidden") : undefined,
      );
      if (absent.length > 0) return all(faults, missing(["newUnknown"], ...absent));
      return faults.length > 0 ? faults : say("fitFor");
    };
    const valve = () => {
      const { shutoff, shutoffInRoom, shutoffReached } = input;
      const looked = { shutoff, shutoffInRoom, shutoffReached };
      const absent = Object.entries(looked).flatMap(([name, value]) => (value === undefined ? [[name]] : []));
      const most = limit(shutoffDistance, fuel);
      return all(
        shutoffInRoom === false ? say("shutoffElsewhere") : undefined,
        shutoffReached === false ? say("shutoffOutOfReach") : undefined,
        absent.length > 0 ? missing(["shutoffUnknown"], ...absent) : undefined,
        most && shutoff !== undefined
          ? judge({
              kind: "length",
              measured: shutoff,
              limit: most,
              pass: ["shutoffNear", { way: shutoff, most: brand<"length">(most.value) }],
              fail: ["shutoffFar", { way: shutoff, most: brand<"length">(most.value) }],
            })
          : undefined,
      );
    };
    const joint = () => {
      const { union } = input;
      const most = limit(unionDistance, fuel);
      if (!most) return undefined;
      if (union === undefined) return missing(["unionUnknown"], ["union"]);
      return judge({
        kind: "length",
        measured: union,
        limit: most,
        pass: ["unionNear", { way: union, most: brand<"length">(most.value) }],
        fail: ["unionFar", { way: union, most: brand<"length">(most.value) }],
      });
    };
    const dirt = () => {
      const { trap } = input;
      if (trap === "turns") return say("trapMade");
      if (trap === "straight") return say("trapWrong");
      if (limit(sedimentTrap, fuel, family)?.value !== 1) return say("trapLetOff");
      if (trap === undefined) return missing(["trapUnknown"], ["trap"]);
      if (kind === "oven" || kind === "cooktop") return missing(["trapUnsure"], ["trap"]);
      return say("trapMissing");
    };
    return connection === "flexible" ? all(reach(), flow(), state(), valve(), dirt()) : all(joint(), valve(), dirt());
  },
  mend({ connection, length, heatInput }) {
    const proposals: Proposal<typeof remedies>[] = [{ change: [{ path: ["trap"], value: "turns" }], say: ["trap"] }];
    if (connection !== "flexible" || heatInput === undefined) return proposals;
    const fresh = [
      { path: ["isNew"], value: true },
      { path: ["connectors"], value: 1 },
      { path: ["concealed"], value: false },
      { path: ["capacity"], value: heatInput, unit: "Btu/h" as const },
    ];
    proposals.push({ change: fresh, say: ["fresh"] });
    const six = si(longestConnector_ft, "ft");
    if (length !== undefined && length > six) {
      proposals.push({
        change: [...fresh, { path: ["length"], value: six, unit: "ft" }],
        say: ["length", { length: six }],
      });
    }
    return proposals;
  },
});
