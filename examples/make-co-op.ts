/**
 * Makes co-op.csv and co-op.ndjson: the laundry refit of an invented housing co-operative, with every verdict and every
 * kind of fault in it. The same seed gives the same bytes; run it with `tsx examples/make-co-op.ts`.
 */
import { writeFileSync } from "node:fs";
import { argv } from "node:process";
import { fileURLToPath, pathToFileURL } from "node:url";

/** Columns of the CSV: survey fields, with the unit of bare numbers. */
const columns = [
  "site.id",
  "site.place",
  "measured.by",
  "measured.on",
  "jurisdiction.adopted.irc",
  "jurisdiction.adopted.nec",
  "jurisdiction.building",
  "machine.kind",
  "machine.fuel",
  "machine.exhaust",
  "machine.steam",
  "machine.supply",
  "machine.heatInput [Btu/h]",
  "machine.exhaustRate [cfm]",
  "machine.body.width [in]",
  "machine.body.depth [in]",
  "machine.body.height [in]",
  "machine.door.hinge",
  "machine.door.length [in]",
  "machine.door.thickness [in]",
  "machine.door.inset [in]",
  "machine.door.opens [deg]",
  "machine.plate.voltage [V]",
  "machine.plate.current [A]",
  "machine.plate.neutral",
  "placement.plan.room.width [ft]",
  "placement.plan.room.depth [ft]",
  "placement.plan.room.height [ft]",
  "placement.plan.things",
  "placement.plan.doors",
  "placement.plan.panels",
  "placement.way",
  "placement.tipping.headroom [in]",
  "placement.floor.floor",
  "placement.place",
  "placement.opening.width [in]",
  "placement.opening.depth [in]",
  "placement.opening.height [in]",
  "placement.gaps.left [in]",
  "placement.gaps.right [in]",
  "placement.gaps.top [in]",
  "placement.gaps.behind [in]",
  "placement.gaps.front [in]",
  "placement.lines.0.what",
  "placement.lines.0.onWall [in]",
  "placement.lines.0.fitting [in]",
  "placement.lines.0.bend [in]",
  "placement.connections.0.what",
  "placement.connections.0.takes [in]",
  "placement.closetDoor",
  "placement.workingSpace.depth [in]",
  "placement.workingSpace.width [in]",
  "placement.facing [in]",
  "placement.things",
  "electrical.system",
  "electrical.circuit.overcurrent [A]",
  "electrical.circuit.device",
  "electrical.circuit.individual",
  "electrical.circuit.isNew",
  "electrical.circuit.size",
  "electrical.circuit.metal",
  "electrical.circuit.wiring",
  "electrical.circuit.terminals",
  "electrical.circuit.ambient",
  "electrical.circuit.carrying",
  "electrical.circuit.length [ft]",
  "electrical.circuit.startsAt",
  "electrical.circuit.ground",
  "electrical.circuit.neutral.size",
  "electrical.circuit.neutral.covering",
  "electrical.receptacle.configuration",
  "electrical.receptacle.count",
  "electrical.receptacle.distance [in]",
  "electrical.cord.plug",
  "electrical.cord.size",
  "electrical.cord.length",
  "electrical.cord.strap",
  "electrical.cordWay.path [in]",
  "electrical.cordWay.pullOut [in]",
  "electrical.strainRelief.fitted",
  "electrical.strainRelief.cordDiameter [in]",
  "electrical.strainRelief.clampLeast [in]",
  "electrical.strainRelief.clampMost [in]",
  "electrical.strainRelief.trade",
  "electrical.strainRelief.knockout [in]",
  "electrical.strainRelief.holds",
  "electrical.hardWired",
  "electrical.protection.place",
  "electrical.protection.replaced",
  "electrical.protection.gfci",
  "electrical.protection.afci",
  "electrical.disconnect.plugReachable",
  "electrical.voltage.noLoad [V]",
  "electrical.voltage.loaded [V]",
  "plumbing.supply.staticPressure [psi]",
  "plumbing.supply.flowPressure [psi]",
  "plumbing.supply.rise [ft]",
  "plumbing.supply.regulator",
  "plumbing.supply.checkValve",
  "plumbing.supply.storageHeater",
  "plumbing.supply.expansionControl",
  "plumbing.hose.legs [in]",
  "plumbing.hose.length [ft]",
  "plumbing.hose.pullOut [in]",
  "plumbing.hose.bendRadius [in]",
  "plumbing.hose.make",
  "plumbing.hose.age",
  "plumbing.hose.rating [psi]",
  "plumbing.hose.damage",
  "plumbing.drain.height [in]",
  "plumbing.drain.trapHeight [in]",
  "plumbing.drain.size [in]",
  "plumbing.drain.trapped",
  "plumbing.drain.airBreak",
  "plumbing.drain.insertion [in]",
  "plumbing.drain.crest [in]",
  "plumbing.drain.pump",
  "plumbing.drain.pumpTime [s]",
  "plumbing.drain.slope",
  "plumbing.drain.arm [ft]",
  "plumbing.drain.armPipe",
  "plumbing.drain.pipe",
  "plumbing.drain.material",
  "plumbing.drain.otherUnits",
  "plumbing.split.isShared",
  "plumbing.surge.arrester",
  "plumbing.surge.arresters",
  "plumbing.surge.units",
  "plumbing.surge.branch [ft]",
  "plumbing.surge.closing",
  "plumbing.pan.roomBelow",
  "plumbing.pan.fitted",
  "plumbing.backflow.device",
  "plumbing.backflow.openHose",
  "venting.fan.fan",
  "venting.label.fitted",
  "venting.label.distance [ft]",
  "venting.closet",
  "venting.openings.0.face [in2]",
  "venting.openings.0.cover",
  "venting.transition.pieces",
  "venting.transition.length [ft]",
  "venting.transition.listed",
  "venting.transition.concealed",
  "venting.transition.crushed",
  "venting.duct.straight [ft]",
  "venting.duct.elbows",
  "venting.duct.elbows.0.radius",
  "venting.duct.elbows.0.angle [deg]",
  "venting.duct.elbows.0.count",
  "venting.duct.diameter [in]",
  "venting.duct.material",
  "venting.duct.thickness [in]",
  "venting.duct.smooth",
  "venting.duct.laps",
  "venting.duct.fastenerReach [in]",
  "venting.duct.sealed",
  "venting.duct.supportSpacing [ft]",
  "venting.duct.concealed",
  "venting.duct.alone",
  "venting.duct.fireDamper",
  "venting.outlet.place",
  "venting.outlet.height [in]",
  "venting.outlet.nearby.0.what",
  "venting.outlet.nearby.0.distance [ft]",
  "venting.outlet.damper",
  "venting.outlet.screen",
  "venting.outlet.openArea [in2]",
  "venting.outlet.facing",
  "notes",
] as const;

const fieldOf = (column: string): string => column.split(" ")[0]!;

/** Values of one site by field; what is not named is left empty. */
type Cells = Readonly<Record<string, string>>;

const everywhere: Cells = {
  "measured.by": "Co-op works team",
  "jurisdiction.adopted.irc": "2021",
  "jurisdiction.adopted.nec": "2020",
  "jurisdiction.building": "dwelling",
  "machine.body.width": "27",
  "machine.body.depth": "30",
  "machine.body.height": "39",
  "machine.door.hinge": "left",
  "machine.door.length": "20",
  "machine.door.thickness": "3",
  "machine.door.inset": "3",
  "machine.door.opens": "110",
  "placement.workingSpace.depth": "48",
  "placement.workingSpace.width": "48",
  "placement.facing": "60",
  "placement.things": "none",
  "electrical.system": "120/240 V",
  "electrical.circuit.individual": "yes",
  "electrical.circuit.metal": "copper",
  "electrical.circuit.wiring": "NM-B",
  "electrical.circuit.terminals": "60 °C",
  "electrical.circuit.ambient": "30 °C",
  "electrical.circuit.carrying": "2",
  "electrical.circuit.length": "45",
  "electrical.circuit.startsAt": "service",
  "electrical.circuit.ground": "yes",
  "electrical.receptacle.count": "single",
  "electrical.receptacle.distance": "18",
  "electrical.cord.length": "5 ft",
  "electrical.cordWay.path": "14; 12",
  "electrical.cordWay.pullOut": "20",
  "electrical.strainRelief.fitted": "yes",
  "electrical.strainRelief.cordDiameter": "0.72",
  "electrical.strainRelief.clampLeast": "0.6",
  "electrical.strainRelief.clampMost": "0.85",
  "electrical.strainRelief.trade": "3/4 in",
  "electrical.strainRelief.knockout": "1.11",
  "electrical.strainRelief.holds": "yes",
  "electrical.hardWired": "no",
  "electrical.protection.place": "laundry area",
  "electrical.protection.replaced": "no",
  "electrical.protection.gfci": "yes",
  "electrical.protection.afci": "yes",
  "electrical.disconnect.plugReachable": "yes",
  "placement.plan.room.width": "9",
  "placement.plan.room.depth": "9",
  "placement.plan.room.height": "8",
  "placement.plan.things": "none",
  "placement.plan.doors": "none",
  "placement.plan.panels": "none",
  "placement.way": "none",
  "placement.tipping.headroom": "84",
  "placement.floor.floor": "slab on ground",
};

const dryer: Cells = {
  ...everywhere,
  "site.place": "Laundry closet, ground floor",
  "machine.kind": "dryer",
  "machine.fuel": "electric",
  "machine.exhaust": "vented",
  "machine.steam": "no",
  "machine.supply": "none",
  "machine.exhaustRate": "150",
  "machine.plate.voltage": "240",
  "machine.plate.current": "23",
  "machine.plate.neutral": "yes",
  "placement.place": "closet",
  "placement.opening.width": "48",
  "placement.opening.depth": "36.5",
  "placement.opening.height": "84",
  "placement.gaps.left": "12",
  "placement.gaps.right": "9",
  "placement.gaps.top": "45",
  "placement.gaps.behind": "5",
  "placement.gaps.front": "1 1/2",
  "placement.lines.0.what": "vent connection",
  "placement.lines.0.onWall": "0",
  "placement.lines.0.fitting": "4 1/2",
  "placement.lines.0.bend": "0",
  "placement.connections.0.what": "vent connection",
  "placement.connections.0.takes": "4 1/2",
  "placement.closetDoor": "louvred",
  "electrical.circuit.overcurrent": "30",
  "electrical.circuit.device": "2-pole breaker",
  "electrical.circuit.isNew": "yes",
  "electrical.circuit.size": "10 AWG",
  "electrical.receptacle.configuration": "14-30",
  "electrical.cord.plug": "14-30",
  "electrical.cord.size": "10 AWG",
  "electrical.cord.strap": "removed",
  "electrical.voltage.noLoad": "243",
  "electrical.voltage.loaded": "238",
  "venting.fan.fan": "none",
  "venting.label.fitted": "yes",
  "venting.label.distance": "3",
  "venting.closet": "yes",
  "venting.openings.0.face": "1200",
  "venting.openings.0.cover": "wood louvre",
  "venting.transition.pieces": "1",
  "venting.transition.length": "5",
  "venting.transition.listed": "yes",
  "venting.transition.concealed": "no",
  "venting.transition.crushed": "no",
  "venting.duct.straight": "18",
  "venting.duct.elbows.0.radius": "4 in mitred",
  "venting.duct.elbows.0.angle": "90",
  "venting.duct.elbows.0.count": "2",
  "venting.duct.diameter": "4",
  "venting.duct.material": "galvanized steel",
  "venting.duct.thickness": "0.0187",
  "venting.duct.smooth": "yes",
  "venting.duct.laps": "with the air",
  "venting.duct.fastenerReach": "0",
  "venting.duct.sealed": "yes",
  "venting.duct.supportSpacing": "4",
  "venting.duct.concealed": "no",
  "venting.duct.alone": "yes",
  "venting.duct.fireDamper": "no",
  "venting.outlet.place": "outdoors",
  "venting.outlet.height": "16",
  "venting.outlet.nearby.0.what": "window",
  "venting.outlet.nearby.0.distance": "4",
  "venting.outlet.damper": "yes",
  "venting.outlet.screen": "no",
  "venting.outlet.openArea": "12.57",
  "venting.outlet.facing": "down",
};

const washer: Cells = {
  ...everywhere,
  "site.place": "Basement laundry, ground level",
  "machine.kind": "washer",
  "machine.fuel": "none",
  "machine.supply": "both",
  "machine.plate.voltage": "120",
  "machine.plate.current": "10",
  "placement.place": "room",
  "placement.gaps.left": "12",
  "placement.gaps.right": "6",
  "placement.gaps.top": "45",
  "placement.gaps.behind": "6",
  "placement.lines.0.what": "water hoses",
  "placement.lines.0.onWall": "2",
  "placement.lines.0.fitting": "1",
  "placement.lines.0.bend": "2",
  "placement.connections.0.what": "water hoses",
  "placement.connections.0.takes": "5",
  "electrical.circuit.overcurrent": "20",
  "electrical.circuit.device": "1-pole breaker",
  "electrical.circuit.isNew": "no",
  "electrical.circuit.size": "12 AWG",
  "electrical.receptacle.configuration": "5-20",
  "electrical.cord.plug": "5-15",
  "electrical.cord.size": "16 AWG",
  "electrical.cord.strap": "none",
  "electrical.voltage.noLoad": "121",
  "electrical.voltage.loaded": "119",
  "plumbing.supply.staticPressure": "62",
  "plumbing.supply.flowPressure": "48",
  "plumbing.supply.rise": "0",
  "plumbing.supply.regulator": "yes",
  "plumbing.supply.checkValve": "no",
  "plumbing.supply.storageHeater": "yes",
  "plumbing.supply.expansionControl": "yes",
  "plumbing.hose.legs": "12; 18",
  "plumbing.hose.length": "5",
  "plumbing.hose.pullOut": "20",
  "plumbing.hose.bendRadius": "3",
  "plumbing.hose.make": "braided",
  "plumbing.hose.age": "2 years",
  "plumbing.hose.rating": "150",
  "plumbing.hose.damage": "none",
  "plumbing.drain.height": "28",
  "plumbing.drain.trapHeight": "10",
  "plumbing.drain.size": "2",
  "plumbing.drain.trapped": "yes",
  "plumbing.drain.airBreak": "yes",
  "plumbing.drain.insertion": "5",
  "plumbing.drain.crest": "38",
  "plumbing.drain.pump": "14 gpm",
  "plumbing.drain.pumpTime": "90",
  "plumbing.drain.slope": "1/4 in per ft",
  "plumbing.drain.arm": "4",
  "plumbing.drain.armPipe": "2",
  "plumbing.drain.pipe": "2",
  "plumbing.drain.material": "plastic",
  "plumbing.drain.otherUnits": "0",
  "plumbing.split.isShared": "no",
  "plumbing.surge.arrester": "A",
  "plumbing.surge.arresters": "1",
  "plumbing.surge.units": "1.4",
  "plumbing.surge.branch": "12",
  "plumbing.surge.closing": "20 ms",
  "plumbing.pan.roomBelow": "no",
  "plumbing.pan.fitted": "no",
  "plumbing.backflow.device": "integral",
  "plumbing.backflow.openHose": "no",
};

/** What may be found amiss, or left unmeasured, or be otherwise about a dryer. */
const dryerCases: readonly Cells[] = [
  { "venting.duct.straight": "31", notes: "Six feet too long." },
  { "venting.duct.straight": "25 ± 0.5", notes: "Paced out, not taped." },
  { "venting.duct.straight": "", notes: "No ladder at hand: the run was not measured." },
  { "venting.duct.elbows.0.radius": "10 in smooth", "venting.duct.straight": "30", notes: "Long-radius elbows." },
  {
    "venting.duct.elbows": "none",
    "venting.duct.elbows.0.radius": "",
    "venting.duct.elbows.0.angle": "",
    "venting.duct.elbows.0.count": "",
    notes: "Straight through the wall.",
  },
  { "venting.duct.material": "foil or plastic flexible", notes: "Foil all the way." },
  { "venting.duct.fastenerReach": "1/2", notes: "Screws through the duct." },
  { "venting.transition.crushed": "yes", notes: "Flattened behind the machine." },
  { "venting.transition.length": "9", notes: "A long loop of flexible duct." },
  { "venting.outlet.screen": "yes", notes: "Lint on a screen." },
  { "venting.outlet.place": "attic", notes: "Ends under the roof." },
  { "venting.outlet.nearby.0.distance": "2", notes: "Under a bedroom window." },
  { "venting.openings.0.face": "60", "placement.closetDoor": "solid", notes: "A solid closet door." },
  { "placement.opening.depth": "35", "placement.gaps.behind": "4", notes: "An inch too shallow." },
  { "placement.facing": "22", notes: "A counter close in front." },
  { "electrical.circuit.size": "12 AWG", "electrical.circuit.isNew": "no", notes: "Over-fused." },
  { "electrical.voltage.loaded": "221", notes: "A loose joint, by two readings." },
  { "electrical.voltage.noLoad": "", "electrical.voltage.loaded": "", notes: "No meter at hand." },
  {
    "electrical.circuit.isNew": "no",
    "electrical.circuit.ground": "no",
    "electrical.circuit.terminals": "",
    "electrical.circuit.wiring": "SE",
    "electrical.circuit.neutral.size": "10 AWG",
    "electrical.circuit.neutral.covering": "bare",
    "electrical.receptacle.configuration": "10-30",
    "electrical.cord.plug": "10-30",
    "electrical.cord.strap": "fitted",
    notes: "Three wires, from the service.",
  },
  {
    "machine.fuel": "naturalGas",
    "machine.heatInput": "22,000",
    "machine.plate.voltage": "120",
    "machine.plate.current": "6",
    "machine.plate.neutral": "",
    "electrical.circuit.overcurrent": "20",
    "electrical.circuit.device": "1-pole breaker",
    "electrical.circuit.size": "12 AWG",
    "electrical.receptacle.configuration": "5-20",
    "electrical.cord.plug": "5-15",
    "electrical.cord.size": "16 AWG",
    "electrical.cord.strap": "none",
    "electrical.voltage.noLoad": "121",
    "electrical.voltage.loaded": "119",
    notes: "Gas.",
  },
];

const washerCases: readonly Cells[] = [
  { "plumbing.supply.staticPressure": "105", "plumbing.supply.regulator": "no", notes: "High pressure." },
  { "plumbing.supply.staticPressure": "4.2 bar", notes: "A metric gauge." },
  { "plumbing.hose.age": "11 years", notes: "Hoses from the last machine." },
  { "plumbing.hose.damage": "bulge; rust", notes: "A bulge near the crimp." },
  { "plumbing.hose.length": "4", notes: "Does the hose reach?" },
  { "plumbing.drain.height": "14", "plumbing.drain.size": "1.5", notes: "An old standpipe." },
  { "plumbing.drain.trapped": "", notes: "Could not see the trap." },
  { "plumbing.pan.roomBelow": "yes", "plumbing.pan.fitted": "", notes: "A room below." },
  { "plumbing.backflow.openHose": "yes", "plumbing.backflow.device": "none", notes: "A hose in the sink." },
  { "placement.gaps.left": "1/2", notes: "Close to the wall." },
  { "electrical.receptacle.distance": "108", "electrical.cordWay.path": "30; 108", notes: "Across the room." },
];

/** What goes wrong on the way into a file. Each takes the cells of a row, or its finished line. */
type Fault =
  | { readonly cells: Cells }
  | { readonly line: (line: string) => string }
  | { readonly bytes: (line: string) => Uint8Array };

const encoded = (text: string): Uint8Array => new TextEncoder().encode(text);
const latin = (text: string): Uint8Array => Uint8Array.from(text, (character) => character.charCodeAt(0) & 0xff);

const faults: readonly Fault[] = [
  { cells: { "electrical.cord.length": "5" } }, // a bare number in a column without a unit
  { cells: { "machine.body.width": "27 kg" } }, // a unit of something else
  { cells: { "machine.body.width": "27 ells" } }, // a unit that nobody knows
  { cells: { "machine.fuel": "steam" } }, // a word that is not accepted
  { cells: { "machine.body.width": "-27" } }, // an impossible value
  { cells: { "machine.plate.voltage": "99999" } },
  { cells: { "machine.body.depth": "30,5" } }, // a comma that can be read two ways
  { cells: { "machine.body.depth": "about 30" } },
  { cells: { "electrical.circuit.carrying": "2.5" } },
  { cells: { "electrical.circuit.ground": "maybe" } },
  { cells: { "measured.on": "9 March" } },
  { cells: { "jurisdiction.adopted.irc": "2022" } }, // an edition that does not exist
  { cells: { "site.id": "" } }, // what is needed is missing
  { line: (line) => line.split(",").slice(0, 40).join(",") }, // a short row
  { line: (line) => `${line},,` }, // a long one
  { line: (line) => `"${line}` }, // a quote that is not closed
  { line: (line) => line.replace("Co-op works team", 'Co-op "works" team') }, // quotes inside a cell
  { bytes: (line) => latin(line.replace("Co-op works team", "Ren\u00e9e, works team").replace(", works", " works")) },
];

/** A small generator of numbers from 0 to 1 (a linear congruential one; constants of Numerical Recipes). */
function numbersFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 4_294_967_296;
  };
}

const ROWS = 200;
const streets = ["Alder Row", "Fern Court", "Juniper Terrace", "Larch Hill"] as const;

const quoted = (cell: string): string => (/[",\n]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell);

/** The sites of the co-operative, each with its cells and, for some, its fault. */
function sites(): { readonly cells: Cells; readonly fault: Fault | undefined }[] {
  const next = numbersFrom(20_260_309);
  const pick = <T>(list: readonly T[]): T => list[Math.floor(next() * list.length)]!;
  return Array.from({ length: ROWS }, (_, i) => {
    const isWasher = next() < 0.3;
    const base = isWasher ? washer : dryer;
    const straight = String(6 + Math.floor(next() * 18));
    const day = String(2 + Math.floor(i / 8)).padStart(2, "0");
    const cells: Record<string, string> = {
      ...base,
      "site.id": `${streets[Math.floor(i / 50)]!} ${100 + i}`,
      "measured.on": `2026-03-${day}`,
      ...(isWasher ? {} : { "venting.duct.straight": straight }),
    };
    if (next() < 0.55) Object.assign(cells, pick(isWasher ? washerCases : dryerCases));
    // every ninth row is broken, each kind of fault in turn
    const fault = i % 9 === 5 ? faults[Math.floor(i / 9) % faults.length] : undefined;
    return { cells: fault && "cells" in fault ? { ...cells, ...fault.cells } : cells, fault };
  });
}

/** The bytes of co-op.csv. */
export function coOpCsv(): Uint8Array {
  const lines = sites().map(({ cells, fault }) => {
    const line = columns.map((column) => quoted(cells[fieldOf(column)] ?? "")).join(",");
    if (fault && "bytes" in fault) return fault.bytes(line);
    return encoded(fault && "line" in fault ? fault.line(line) : line);
  });
  const newline = encoded("\n");
  return Uint8Array.from([encoded(columns.join(",")), ...lines].flatMap((line) => [...line, ...newline]));
}

/** One site as JSON, with the units written out. */
function recordOf(cells: Cells): Record<string, unknown> {
  const root: Record<string, unknown> = {};
  for (const column of columns) {
    const [, unit] = /\[(.+)\]/.exec(column) ?? [];
    const cell = cells[fieldOf(column)] ?? "";
    if (cell === "") continue;
    const path = fieldOf(column).split(".");
    let at: Record<string, unknown> = root;
    for (const [i, key] of path.slice(0, -1).entries()) {
      at[key] ??= path[i + 1] === "0" ? [] : {};
      at = at[key] as Record<string, unknown>;
    }
    at[path.at(-1)!] = jsonOf(cell, unit, column);
  }
  return root;
}

const lists = [
  "placement.plan.things",
  "placement.plan.doors",
  "placement.plan.panels",
  "placement.way",
  "placement.things",
  "electrical.cordWay.path",
  "plumbing.hose.legs",
  "plumbing.hose.damage",
  "venting.duct.elbows",
];
const plainNumbers = ["pieces", "count", "carrying", "irc", "nec", "arresters", "units", "otherUnits"];

function jsonOf(cell: string, unit: string | undefined, column: string): unknown {
  const withUnit = (text: string): string => {
    if (unit === undefined || !/^[\d., /±-]+$/.test(text)) return text;
    return text.includes("±") ? text.replace(/ ± (.+)/, ` ${unit} ± $1 ${unit}`) : `${text} ${unit}`;
  };
  if (lists.includes(fieldOf(column))) return cell === "none" ? [] : cell.split("; ").map(withUnit);
  if (cell === "yes" || cell === "no") return cell === "yes";
  return plainNumbers.includes(fieldOf(column).split(".").at(-1)!) && /^[\d.]+$/.test(cell)
    ? Number(cell)
    : withUnit(cell);
}

/** The text of co-op.ndjson: every fifth site, and the faults that only JSON can have. */
export function coOpNdjson(): string {
  const records = sites()
    .filter(({ fault }, i) => i % 5 === 0 && (fault === undefined || "cells" in fault))
    .map(({ cells }) => JSON.stringify(recordOf(cells)));
  const [first = ""] = records;
  const broken = [
    first.slice(0, 60), // cut off
    first.replace('"site"', "'site'"), // not JSON
    first.replace('"measured"', '"surveyed"'), // a field that does not exist
    first.replace('"kind":"', '"kind":"washer","kind":"'), // a field written twice
    first.replace(/"width":"[^"]+"/, '"width":27'), // a bare number
    "[]",
    "[".repeat(100),
  ];
  return [...records, ...broken].map((line) => `${line}\n`).join("");
}

if (argv[1] !== undefined && import.meta.url === pathToFileURL(argv[1]).href) {
  const here = (name: string): string => fileURLToPath(new URL(name, import.meta.url));
  writeFileSync(here("co-op.csv"), coOpCsv());
  writeFileSync(here("co-op.ndjson"), coOpNdjson());
}
