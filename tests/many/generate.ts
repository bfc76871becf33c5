/** Files of invented surveys with exactly so many faults of each kind. The same seed gives the same bytes. */
import { readFileSync } from "node:fs";
import { tryAssess } from "../../src/survey/index.js";

/** Numbers from 0 up to 1, the same for the same seed (mulberry32, a published generator of 32 bits). */
export function randomOf(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
}

/** Rows with faults, by the code under which each must be refused. */
export type Faults = Readonly<Record<string, number>>;

/** How many rows a list of faults holds. */
export const faultsIn = (faults: Faults): number => Object.values(faults).reduce((sum, times) => sum + times, 0);

type Survey = Record<string, unknown> & { site: { id: string } };

const invalid = Buffer.from([0xff, 0xfe, 0xc0]);

const ndjsonFaults: Readonly<Record<string, (survey: Survey) => string | Buffer>> = {
  brokenJson: (survey) => JSON.stringify(survey).slice(0, -1),
  unknownField: (survey) => JSON.stringify({ ...survey, colour: "red" }),
  noUnit: (survey) => JSON.stringify({ ...survey, venting: { duct: { straight: 18 } } }),
  twice: (survey) => JSON.stringify(survey).replace('"id":', '"id":"another","id":'),
  tooDeep: (survey) => `${JSON.stringify(survey).slice(0, -1)},"more":${"[".repeat(100)}${"]".repeat(100)}}`,
  tooLong: (survey) => JSON.stringify({ ...survey, notes: "x".repeat(1_100_000) }),
  encoding: (survey) => {
    const [before, after] = JSON.stringify({ ...survey, notes: "|" }).split("|");
    return Buffer.concat([Buffer.from(before!), invalid, Buffer.from(after!)]);
  },
};

const csvFaults: Readonly<Record<string, (cells: readonly string[]) => string | Buffer>> = {
  cellCount: (cells) => cells.slice(0, -1).join(","),
  wrongDimension: (cells) => [...cells.slice(0, -1), "18 kg"].join(","),
  encoding: (cells) => Buffer.concat([invalid, Buffer.from(cells.join(","))]),
};

/** Codes of rows by place: all those with a fault, shuffled among those without. */
function placesOf(rows: number, faults: Faults, random: () => number): (string | null)[] {
  const codes = Object.entries(faults).flatMap(([code, times]) => new Array<string>(times).fill(code));
  if (codes.length > rows) throw new Error("more faults than rows");
  const places: (string | null)[] = [...codes, ...new Array<null>(rows - codes.length).fill(null)];
  for (let i = places.length - 1; i > 0; i--) {
    const other = Math.floor(random() * (i + 1));
    [places[i], places[other]] = [places[other]!, places[i]!];
  }
  return places;
}

const note = (random: () => number): string => "A note of some length. ".repeat(5 + Math.floor(random() * 25));
const straight = (random: () => number): string => `${Math.round(random() * 60)}`;

/** One small survey of a dryer. */
function smallSurvey(i: number, random: () => number): Survey {
  return {
    site: { id: `Alder Row ${i + 1} – ${String.fromCodePoint(0x1f9fa)}` },
    machine: { kind: "dryer", fuel: "electric" },
    venting: { duct: { straight: `${straight(random)} ft`, elbows: [] } },
    notes: note(random),
  };
}

let measured: readonly Survey[] | undefined;
/** One of the co-operative's surveys that were measured in full, of those that are not refused. */
function fullSurvey(i: number, random: () => number): Survey {
  measured ??= readFileSync(new URL("../../examples/co-op.ndjson", import.meta.url), "utf8")
    .split("\n")
    .flatMap((line) => {
      try {
        const survey = JSON.parse(line) as Survey;
        return tryAssess(survey, { detail: "verdicts" }).ok ? [survey] : [];
      } catch {
        return [];
      }
    });
  const survey = measured[Math.floor(random() * measured.length)]!;
  return { ...survey, site: { ...survey.site, id: `Alder Row ${i + 1}` } };
}

/** What to make. */
export interface Wanted {
  readonly rows: number;
  readonly seed: number;
  readonly faults: Faults;
  /** A blank line, which is no row, after so many rows; none where left out. */
  readonly blankAfter?: number;
  /** Surveys measured in full in place of small ones. */
  readonly isFull?: boolean;
}

/** Lines of NDJSON, each with its line end. */
export function* ndjsonFile({ rows, seed, faults, blankAfter = 0, isFull = false }: Wanted): Generator<Buffer> {
  const random = randomOf(seed);
  const places = placesOf(rows, faults, random);
  for (const [i, code] of places.entries()) {
    const survey = isFull ? fullSurvey(i, random) : smallSurvey(i, random);
    const line = code === null ? JSON.stringify(survey) : ndjsonFaults[code]!(survey);
    yield Buffer.concat([Buffer.from(line), Buffer.from(random() < 0.5 ? "\n" : "\r\n")]);
    if (blankAfter > 0 && (i + 1) % blankAfter === 0) yield Buffer.from(" \n");
  }
}

/** Lines of CSV under a header, without a quote. */
export function* csvFile({ rows, seed, faults, blankAfter = 0 }: Wanted): Generator<Buffer> {
  const random = randomOf(seed);
  yield Buffer.from("site.id,machine.kind,machine.fuel,venting.duct.elbows,notes,venting.duct.straight [ft]\n");
  for (const [i, code] of placesOf(rows, faults, random).entries()) {
    const cells = [`Alder Row ${i + 1}`, "dryer", "electric", "none", note(random), straight(random)];
    yield Buffer.concat([Buffer.from(code === null ? cells.join(",") : csvFaults[code]!(cells)), Buffer.from("\n")]);
    if (blankAfter > 0 && (i + 1) % blankAfter === 0) yield Buffer.from("\n");
  }
}
