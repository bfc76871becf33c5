import * as z from "zod";
import { brand, type Length, si, type Temperature } from "../core/quantity/index.js";
import { defineCalculator, machineFacts } from "../core/rule/index.js";
import { dewPoint, moistAirEnthalpy, saturationPressure, vapourPressure } from "../physics/index.js";
import { ductHeat, moistAirHandbook } from "./basis.js";
import { blowerFields } from "./blower.js";
import { type Cell, dryAirFlow, type Entering, march, type Stretch } from "./cooling.js";
import { lengthOf } from "./run.js";
import {
  airFields,
  type DuctPlace,
  placeTemperature,
  roomTemperature,
  runFields,
  siteAir,
  siteRun,
} from "./run-input.js";

export const condensationInput = z.strictObject({
  exhaustRate: machineFacts.exhaustRate,
  ...runFields,
  ...airFields,
  outdoorTemperature: blowerFields.outdoorTemperature,
  roomTemperature,
  atticTemperature: placeTemperature().describe("Temperature of the attic; that of outdoors where left out"),
  crawlTemperature: placeTemperature().describe("Temperature of the crawl space; that of outdoors where left out"),
});

/** Wraps that are tried, up to the thickest one would fit [m²·K/W]. */
const THICKEST = 30 * 0.17611;
const ZERO = 1e-12;
/** Specific heat of water, textbook [J/(kg·K)], and the ice point [K]. */
const HEAT_OF_WATER = 4186;
const FREEZING = 273.15;

/**
 * Where water falls out in a dryer's duct, and the wrap that prevents it.
 *
 * A calculator; its page is `docs/rules/venting/condensation.md`.
 */
export const condensation = defineCalculator({
  id: "venting/condensation",
  title: "Where water falls out in a dryer's duct, and the wrap that prevents it",
  since: "0.1.0",
  input: condensationInput,
  outputs: {
    dewPoint: { kind: "temperature", what: "Dew point of the exhaust air" },
    outlet: { kind: "temperature", what: "Air at the hood" },
    coldestWall: { kind: "temperature", what: "Coldest inside wall" },
    firstWet: { kind: "length", what: "Distance from the machine where the wall is wet first" },
    water: { kind: "massFlow", what: "Water that falls out" },
    heat: { kind: "heatRate", what: "Heat given off along the run" },
    wrap: { kind: "thermalResistance", what: "Wrap that keeps every wall dry" },
    reading: { kind: "text", what: "What it means" },
    stretches: {
      list: {
        to: { kind: "length", what: "To the distance" },
        what: { kind: "text", what: "Where it runs" },
        air: { kind: "temperature", what: "Air at its end" },
        wall: { kind: "temperature", what: "Coldest wall in it" },
        water: { kind: "massFlow", what: "Water in it" },
      },
      what: "Stretch by stretch",
    },
  },
  basis: [ductHeat, moistAirHandbook],
  limits: [],
  messages: {
    missing: {
      runUnknown: "The diameter and the run are needed.",
      flowUnknown: "The flow is needed: what the machine exhausts, from its sheet.",
    },
    impossible: {
      steam: "Air of this temperature and humidity would be nearly all steam at this altitude.",
      noLength: "The run has no length to lose heat along.",
      dry: "Air without any water has no dew point.",
    },
  },
  cautions: ["fire", "deferral"],
  examples: [
    {
      title: "A cold attic that drips",
      input: {
        exhaustRate: "125 cfm",
        diameter: "4 in",
        pieces: [
          { piece: "flexible", length: "5 ft", wall: "foil flexible" },
          { piece: "straight", length: "4 ft", wall: "new galvanized" },
          { piece: "elbow", make: "adjustable", angle: "90°" },
          { piece: "straight", length: "20 ft", wall: "new galvanized", place: "attic" },
        ],
        airTemperature: "50 °C",
        airHumidity: "60 %",
        atticTemperature: "-5 °C",
      },
      gives: "computed",
    },
    {
      title: "The same attic with a wrap of R-8",
      input: {
        exhaustRate: "125 cfm",
        diameter: "4 in",
        pieces: [
          { piece: "straight", length: "4 ft", wall: "new galvanized" },
          { piece: "straight", length: "20 ft", wall: "new galvanized", place: "attic", insulation: "8 h·ft2·°F/Btu" },
        ],
        airTemperature: "50 °C",
        airHumidity: "60 %",
        atticTemperature: "-5 °C",
      },
      gives: "computed",
    },
    {
      title: "A short run in a warm room",
      input: { exhaustRate: "150 cfm", diameter: "4 in", straight: "8 ft", elbows: [] },
      gives: "computed",
    },
    { title: "No run", input: {}, gives: "runUnknown" },
    { title: "No flow", input: { diameter: "4 in", straight: "8 ft", elbows: [] }, gives: "flowUnknown" },
    {
      title: "Steam",
      input: {
        exhaustRate: "150 cfm",
        diameter: "4 in",
        straight: "8 ft",
        elbows: [],
        airTemperature: "95 °C",
        airHumidity: "100 %",
        altitude: "3000 m",
      },
      gives: "steam",
    },
    {
      title: "A hood on the machine itself",
      input: { exhaustRate: "150 cfm", diameter: "4 in", straight: "0 ft", elbows: [] },
      gives: "noLength",
    },
    {
      title: "Air without water",
      input: { exhaustRate: "150 cfm", diameter: "4 in", straight: "8 ft", elbows: [], airHumidity: "0 %" },
      gives: "dry",
    },
  ],
  compute(input, { assume, formula, missing, impossible }) {
    const found = siteRun(input);
    if (found.gap) return missing(["runUnknown"], ...found.gap);
    const flow = input.exhaustRate;
    if (flow === undefined || flow === 0) return missing(["flowUnknown"], ["exhaustRate"]);
    const air = siteAir(input);
    if (!air) return impossible(["steam"]);
    if (vapourPressure(air.ratio, air.pressure) <= saturationPressure(si(-99, "degC"))) return impossible(["dry"]);
    const { run } = found;
    const outdoors = input.outdoorTemperature ?? si(5, "degC");
    const around: Record<DuctPlace, Temperature> = {
      room: input.roomTemperature ?? si(20, "degC"),
      attic: input.atticTemperature ?? outdoors,
      "crawl space": input.crawlTemperature ?? outdoors,
      outdoors,
    };
    for (const text of [...found.assumed, ...air.assumed]) assume(text);
    if (input.roomTemperature === undefined) assume("The room is at 20 °C.");
    if (input.outdoorTemperature === undefined)
      assume("It is 5 °C outdoors, and in attic and crawl space where not given.");
    assume("The air is steady at the state given; a cycle starts wetter and ends hotter and drier.");

    const stretches = run.pieces.flatMap((piece, i) => {
      const length = lengthOf(piece);
      if (length === 0) return [];
      const { place: where, insulation, what } = run.about[i]!;
      return [{ length: brand<"length">(length), place: where, insulation, what }];
    });
    if (stretches.length === 0) return impossible(["noLength"]);
    const dryAir = dryAirFlow(flow, air.temperature, air.ratio, air.pressure);
    const entering: Entering = { temperature: air.temperature, ratio: air.ratio, pressure: air.pressure, dryAir };
    const cells = (least: number, untilWet = false) =>
      march(
        entering,
        stretches.map(
          ({ length, place: where, insulation }): Stretch => ({
            length,
            ambient: around[where],
            insulation: Math.max(insulation, least),
            inWind: where === "outdoors",
          }),
        ),
        run.diameter,
        untilWet,
      );
    const wet = (all: readonly Cell[]) => all.find(({ water }) => water > ZERO);
    const bare = cells(0);
    const first = wet(bare);
    const water = brand<"massFlow">(bare.reduce<number>((sum, cell) => sum + cell.water, 0));
    const last = bare.at(-1)!;
    const vapour = vapourPressure(air.ratio, air.pressure);
    const dew = dewPoint(vapour);
    formula("{vapour:pressure} = {total:pressure} * {ratio:number} / (0.621945 + {ratio:number})", {
      vapour,
      total: air.pressure,
      ratio: air.ratio,
    });
    const volume = flow / dryAir;
    formula("{dryAir:massFlow} = {flow:volumeFlow} / ({volume:number} * (1 m^3 / kg))", { dryAir, flow, volume });
    const coldest = Math.min(...bare.map(({ wall }) => wall));
    // What drips out takes its own heat with it at the wall's temperature.
    const drip = water * HEAT_OF_WATER * (coldest - FREEZING);
    const given = moistAirEnthalpy(air.temperature, air.ratio) - moistAirEnthalpy(last.air, last.ratio);
    const heat = brand<"power">(dryAir * given - drip);
    const wrap = first ? leastWrap((r) => wet(cells(r, true)) === undefined) : null;
    return {
      dewPoint: dew,
      outlet: last.air,
      coldestWall: brand<"temperature">(coldest),
      firstWet: first ? startOf(bare, first) : null,
      water,
      heat,
      wrap,
      reading: readingOf(first !== undefined, last.air > dew, wrap !== null),
      stretches: stretches.map(({ what, place: where }, i) => {
        const own = bare.filter(({ stretch }) => stretch === i);
        return {
          to: own.at(-1)!.end,
          what: `${what}, ${where}`,
          air: own.at(-1)!.air,
          wall: brand<"temperature">(Math.min(...own.map(({ wall }) => wall))),
          water: brand<"massFlow">(own.reduce<number>((sum, cell) => sum + cell.water, 0)),
        };
      }),
    };
  },
});

/** Where a cell begins. */
function startOf(cells: readonly Cell[], cell: Cell): Length {
  const before = cells[cells.indexOf(cell) - 1];
  return before?.end ?? brand<"length">(0);
}

/** The least wrap that keeps every wall dry, to a 250th of the thickest; nothing where even that does not. */
function leastWrap(dry: (insulation: number) => boolean) {
  if (!dry(THICKEST)) return null;
  let low = 0;
  let high = THICKEST;
  while (high - low > THICKEST / 250) {
    const middle = (low + high) / 2;
    if (dry(middle)) high = middle;
    else low = middle;
  }
  return brand<"thermalResistance">(high);
}

function readingOf(isWet: boolean, isBulkSafe: boolean, hasWrap: boolean): string {
  if (!isWet) return "no wall is below the dew point: the duct stays dry";
  const bulk = isBulkSafe
    ? "water forms on the wall although the air itself leaves above its dew point"
    : "water forms on the wall and the air leaves below its dew point";
  return hasWrap
    ? `${bulk}; wrap the duct and let it fall towards the hood`
    : `${bulk}; no wrap prevents it: shorten the cold run`;
}
