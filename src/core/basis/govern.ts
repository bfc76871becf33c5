/** Which of several limits governs at a place, and why the others were set aside. */
import { same } from "../quantity/index.js";
import { type Basis, cite } from "./basis.js";
import { type Adopted, type Building, bindingTexts, documentOf, type Fuel, type Text } from "./documents.js";
import { basisOf, type Conditions, coversEdition, type Limit, printedSi } from "./limit.js";

/** A limit's value that the caller states, already in SI: a local amendment or the maker's figure. */
export interface StatedValue {
  readonly limit: string;
  readonly value: number;
  readonly basis: Basis;
  /** For a local amendment: the text it amends; every text of the subject where left out. */
  readonly amends?: Text;
  /** Holds only where each of these facts is so; always where left out. */
  readonly when?: Conditions;
}

/** What governing needs to know of the place. */
export interface Place {
  readonly adopted: Adopted;
  readonly building: Building;
  readonly local: readonly StatedValue[];
  readonly maker: readonly StatedValue[];
}

/** Where the governing value comes from. */
export type Origin = "local" | "maker" | "code" | "practice";

/** One candidate value with its basis. */
export interface Candidate {
  readonly value: number;
  readonly origin: Origin;
  readonly basis: Basis;
  readonly text: Text | "practice" | null;
}

/** The outcome of resolving a limit at a place. */
export interface Governing extends Candidate {
  readonly limit: Limit;
  /** The candidates that do not govern, each with the reason. */
  readonly setAside: readonly { readonly candidate: Candidate; readonly reason: string }[];
}

function stricter(limit: Limit, a: Candidate, b: Candidate): Candidate {
  const smaller = limit.sense === "atMost";
  return smaller === b.value < a.value && a.value !== b.value ? b : a;
}

const matches = (value: { readonly when?: Conditions }, conditions: Conditions): boolean =>
  value.when === undefined || Object.entries(value.when).every(([key, wanted]) => conditions[key] === wanted);

function codeCandidates(limit: Limit, place: Place, texts: readonly Text[], conditions: Conditions): Candidate[] {
  const found: Candidate[] = [];
  for (const text of texts) {
    const edition = place.adopted[documentOf(text)]!;
    const value = limit.values.find(
      (entry) => entry.text === text && coversEdition(entry, edition) && matches(entry, conditions),
    );
    if (value) found.push({ value: printedSi(value.value), origin: "code", basis: basisOf(value, edition), text });
  }
  return found;
}

/**
 * Resolves a limit: a local amendment in place of the text it amends; the maker's figure in place of the code where the
 * code defers to the listing, beside it otherwise; the binding texts in their adopted editions; common practice last,
 * where nothing else speaks. Of several that bind, the stricter governs.
 *
 * @param fuel - what heats the machine, which decides whether the fuel-gas texts bind
 * @param conditions - facts of the case that values depend on
 * @returns the governing value with the trace, or `undefined` where no text says anything
 */
export function govern(limit: Limit, place: Place, fuel: Fuel, conditions: Conditions = {}): Governing | undefined {
  const setAside: { candidate: Candidate; reason: string }[] = [];
  const texts = bindingTexts(place.adopted, limit.subject, place.building, fuel);
  let bound = codeCandidates(limit, place, texts, conditions);

  const local: Candidate[] = [];
  for (const stated of place.local) {
    if (stated.limit !== limit.id || !matches(stated, conditions)) continue;
    const amendment: Candidate = {
      value: stated.value,
      origin: "local",
      basis: stated.basis,
      text: stated.amends ?? null,
    };
    if (stated.amends !== undefined && !texts.includes(stated.amends)) {
      setAside.push({ candidate: amendment, reason: "it amends a text that does not bind here" });
      continue;
    }
    const amended = bound.filter(({ text }) => stated.amends === undefined || text === stated.amends);
    for (const candidate of amended) {
      setAside.push({ candidate, reason: `amended locally by ${cite(stated.basis)}` });
    }
    bound = bound.filter((candidate) => !amended.includes(candidate));
    local.push(amendment);
  }
  bound = [...local, ...bound];

  const maker = place.maker
    .filter((stated) => stated.limit === limit.id && matches(stated, conditions))
    .map((stated): Candidate => ({ value: stated.value, origin: "maker", basis: stated.basis, text: null }));
  if (maker.length > 0) {
    if (limit.maker === "replaces" && local.length === 0) {
      for (const candidate of bound) {
        setAside.push({ candidate, reason: "the code defers to the maker's instructions" });
      }
      bound = maker;
    } else {
      bound = [...bound, ...maker];
    }
  }

  const practice = limit.values.find((entry) => entry.text === "practice" && matches(entry, conditions));
  if (practice) {
    const candidate: Candidate = {
      value: printedSi(practice.value),
      origin: "practice",
      basis: basisOf(practice, 0),
      text: "practice",
    };
    if (bound.length === 0) bound = [candidate];
    else setAside.push({ candidate, reason: "a code, a local amendment or the maker speaks" });
  }

  const [first, ...rest] = bound;
  if (first === undefined) return undefined;
  const governing = rest.reduce((best, candidate) => stricter(limit, best, candidate), first);
  for (const candidate of bound) {
    if (candidate !== governing) {
      setAside.push({
        candidate,
        reason: same(candidate.value, governing.value) ? "it says the same" : "it is less strict",
      });
    }
  }
  return { ...governing, limit, setAside };
}

/**
 * What a limit rests on at a place whatever the facts of the case: one basis for each text that binds and says
 * anything, or common practice. For citing a rule that could not yet ask for its value.
 */
export function basesOfLimit(
  limit: Limit,
  { adopted, building }: Pick<Place, "adopted" | "building">,
  fuel: Fuel,
): Basis[] {
  const bases = bindingTexts(adopted, limit.subject, building, fuel).flatMap((text) => {
    const edition = adopted[documentOf(text)]!;
    const value = limit.values.find((entry) => entry.text === text && coversEdition(entry, edition));
    return value ? [basisOf(value, edition)] : [];
  });
  if (bases.length > 0) return bases;
  const practice = limit.values.find((entry) => entry.text === "practice");
  return practice ? [basisOf(practice, 0)] : [];
}
