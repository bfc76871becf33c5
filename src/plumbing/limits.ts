/** The numbers that the plumbing texts set, dated, one reference per value. Fuel gas stands in limits-gas.ts. */
import { defineLimit } from "../core/basis/index.js";

/** Greatest static pressure of a water supply; above it a pressure-reducing valve is called for. */
export const staticMost = defineLimit({
  id: "plumbing/supply-pressure.static-most",
  title: "Greatest static water pressure in the building",
  subject: "plumbing",
  kind: "pressure",
  sense: "atMost",
  maker: "tightens",
  values: [
    { text: "irc", from: 2006, to: 2009, section: "P2903.3.1", value: [80, "psi"], confirmed: "secondary" },
    { text: "irc", from: 2012, to: 2015, section: "P2903.3.1", value: [80, "psi"], confirmed: "memory" },
    { text: "irc", from: 2018, to: 2018, section: "P2903.3.1", value: [80, "psi"], confirmed: "secondary" },
    {
      text: "irc",
      from: 2021,
      to: 2021,
      section: "P2903.3.2",
      value: [80, "psi"],
      confirmed: "secondary",
      note: "Another secondary source numbers the section P2903.3.1.",
    },
    { text: "irc", from: 2024, section: "P2903.3.1", value: [80, "psi"], confirmed: "secondary" },
    { text: "ipc", from: 2006, section: "604.8", value: [80, "psi"], confirmed: "memory" },
    { text: "upc", from: 2006, to: 2012, section: "608.2", value: [80, "psi"], confirmed: "secondary" },
    { text: "upc", from: 2015, to: 2015, section: "608.2", value: [80, "psi"], confirmed: "seen" },
    { text: "upc", from: 2018, to: 2021, section: "608.2", value: [80, "psi"], confirmed: "secondary" },
    { text: "upc", from: 2024, section: "608.2", value: [80, "psi"], confirmed: "seen" },
  ],
});

/** Least static pressure where the supply enters the building; a fixed number only in the residential code to 2009. */
export const staticLeast = defineLimit({
  id: "plumbing/supply-pressure.static-least",
  title: "Least static water pressure at the building entrance",
  subject: "plumbing",
  kind: "pressure",
  sense: "atLeast",
  maker: "tightens",
  values: [
    {
      text: "irc",
      from: 2006,
      to: 2009,
      section: "P2903.3",
      value: [40, "psi"],
      confirmed: "secondary",
      note: "From 2012 on the text asks for enough to serve its table of outlets instead.",
    },
  ],
});

/** Least flowing pressure at an outlet. No table has a row for a clothes washer; the laundry tray's stands in for it. */
export const flowLeast = defineLimit({
  id: "plumbing/supply-pressure.flow-least",
  title: "Least flowing water pressure at the outlet",
  subject: "plumbing",
  kind: "pressure",
  sense: "atLeast",
  maker: "tightens",
  values: [
    ...(["laundryTray", "dishwasher"] as const).flatMap((outlet) => [
      {
        text: "irc",
        from: 2012,
        section: "Table P2903.1",
        value: [8, "psi"],
        when: { outlet },
        confirmed: "seen",
      } as const,
      {
        text: "ipc",
        from: 2006,
        to: 2015,
        section: "Table 604.3",
        value: [8, "psi"],
        when: { outlet },
        confirmed: "memory",
      } as const,
      {
        text: "ipc",
        from: 2018,
        to: 2018,
        section: "Table 604.3",
        value: [8, "psi"],
        when: { outlet },
        confirmed: "seen",
      } as const,
      {
        text: "ipc",
        from: 2021,
        section: "Table 604.3",
        value: [8, "psi"],
        when: { outlet },
        confirmed: "memory",
      } as const,
    ]),
    { text: "upc", from: 2006, section: "608.1", value: [15, "psi"], confirmed: "secondary" },
  ],
});

/** Least pressure that a machine's inlet valve opens and fills at. */
export const machineLeast = defineLimit({
  id: "plumbing/supply-pressure.machine-least",
  title: "Least flowing pressure at the machine's inlet valve",
  subject: "plumbing",
  kind: "pressure",
  sense: "atLeast",
  maker: "replaces",
  values: [{ text: "practice", value: [20, "psi"], confirmed: "practice" }],
});

/** Greatest pressure that a machine's inlet valve holds. */
export const machineMost = defineLimit({
  id: "plumbing/supply-pressure.machine-most",
  title: "Greatest static pressure at the machine's inlet valve",
  subject: "plumbing",
  kind: "pressure",
  sense: "atMost",
  maker: "replaces",
  values: [{ text: "practice", value: [120, "psi"], confirmed: "practice" }],
});

/** Thermal expansion control where a regulator or check valve keeps heated water from pushing back into the main. */
export const expansionControl = defineLimit({
  id: "plumbing/supply-pressure.expansion-control",
  title: "Thermal expansion control on a closed water system",
  subject: "plumbing",
  kind: "requirement",
  sense: "required",
  maker: "tightens",
  values: [
    { text: "irc", from: 2006, to: 2009, section: "P2903.4", value: true, confirmed: "secondary" },
    { text: "irc", from: 2012, section: "P2903.4", value: true, confirmed: "memory" },
    { text: "ipc", from: 2006, to: 2012, section: "607.3", value: true, confirmed: "memory" },
    {
      text: "ipc",
      from: 2015,
      section: "607.3",
      value: true,
      confirmed: "secondary",
      note: "Seen in a city's reprint, for a storage water heater behind a check valve, regulator or backflow preventer.",
    },
    { text: "upc", from: 2006, to: 2012, section: "608.3", value: true, confirmed: "secondary" },
    { text: "upc", from: 2015, to: 2015, section: "608.2", value: true, confirmed: "seen" },
    { text: "upc", from: 2018, to: 2021, section: "608.2", value: true, confirmed: "memory" },
    { text: "upc", from: 2024, section: "608.2", value: true, confirmed: "seen" },
  ],
});

/** Water-hammer arresters where valves shut quickly, as a machine's solenoid valves do. */
export const arresterRequired = defineLimit({
  id: "plumbing/surge.arrester",
  title: "A water-hammer arrester at quick-closing valves",
  subject: "plumbing",
  kind: "requirement",
  sense: "required",
  maker: "tightens",
  values: [
    { text: "irc", from: 2006, to: 2009, section: "P2903.5", value: true, confirmed: "secondary" },
    { text: "irc", from: 2012, section: "P2903.5", value: true, confirmed: "memory" },
    { text: "ipc", from: 2006, section: "604.9", value: true, confirmed: "memory" },
    { text: "upc", from: 2006, to: 2012, section: "609.10", value: true, confirmed: "secondary" },
    { text: "upc", from: 2015, section: "609.11", value: true, confirmed: "memory" },
  ],
});

/** Greatest pressure that household pipe, valves and hoses should see, surges included. */
export const surgePeak = defineLimit({
  id: "plumbing/surge.peak",
  title: "Greatest pressure in the water system, surges included",
  subject: "plumbing",
  kind: "pressure",
  sense: "atMost",
  maker: "replaces",
  values: [
    {
      text: "practice",
      value: [150, "psi"],
      confirmed: "practice",
      note: "Household valves and hoses are rated 125 to 150 psi.",
    },
  ],
});
