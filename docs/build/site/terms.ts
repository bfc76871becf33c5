/** What a text is found by: words, section numbers with and without their letter, and quantities in any spelling. */
import type { Options } from "minisearch";
import { units } from "../../../src/core/quantity/units.js";

/** A part of a page under one heading. */
export interface Entry {
  readonly id: number;
  /** Where it is: path of the page and, after #, its heading. */
  readonly at: string;
  readonly title: string;
  readonly heading: string;
  readonly text: string;
}

const unitBySpelling = new Map(
  Object.entries(units).flatMap(([unit, { spellings }]) => spellings.map((spelling) => [spelling.toLowerCase(), unit])),
);

const PIECE = /[\p{L}\p{N}°%µ]+(?:[./'-][\p{L}\p{N}°%µ]+)*(?:\([\p{L}\p{N}]{1,3}\))*["']?/gu;
const NUMBER = /^\d+(?:[.,/]\d+)*(?:-\d+\/\d+)?$/;
/** A number with its unit in one piece: `30A`, `120V`, `90°`. */
const WITH_UNIT = /^(\d+(?:\.\d+)?)([\p{L}°%µ"'/]+)$/u;
/** A section with its letter: `M1502.4`. */
const SECTION = /^\p{L}{1,2}(\d+(?:\.\d+)*)$/u;
/** A section deep enough that it is no plain number: `504.9.4` is also found by `504`. */
const DEEP = /^(\p{L}{0,2}\d+)\.\d+\.[\d.]+$/u;

const pieces = (text: string): string[] => text.toLowerCase().match(PIECE) ?? [];

/** Terms of a text; a quantity is one term, its unit as the library names it. */
export function termsOf(text: string): string[] {
  const found = pieces(text);
  return found.flatMap((piece, i) => {
    const before = found[i - 1] ?? "";
    const unit = unitBySpelling.get(piece);
    const joined = unit !== undefined && NUMBER.test(before) ? [`${before}${unit}`] : [];
    const [, number, spelling] = WITH_UNIT.exec(piece) ?? [];
    const own = spelling === undefined ? undefined : unitBySpelling.get(spelling);
    const whole = /\d/.test(piece) ? piece.replace(/\(.*/, "") : piece;
    const section = SECTION.exec(whole)?.[1];
    const deep = DEEP.exec(whole)?.[1];
    const parts = /\d/.test(piece) ? [] : piece.split(/[./'()-]/).filter((part) => part !== "" && part !== piece);
    return [
      piece,
      ...(whole === piece ? [] : [whole]),
      ...joined,
      ...(own ? [`${number}${own}`] : []),
      ...(section ? [section] : []),
      ...(deep ? [deep] : []),
      ...parts,
    ];
  });
}

/** Terms that a question asks for: a number before a unit is asked for as the quantity alone. */
export function termsAsked(text: string): string[] {
  const found = pieces(text);
  const asked: string[] = [];
  for (let i = 0; i < found.length; i++) {
    const piece = found[i]!;
    const unit = unitBySpelling.get(found[i + 1] ?? "");
    const [, number, spelling] = WITH_UNIT.exec(piece) ?? [];
    const own = spelling === undefined ? undefined : unitBySpelling.get(spelling);
    if (NUMBER.test(piece) && unit !== undefined) {
      asked.push(`${piece}${unit}`);
      i++;
    } else if (own) asked.push(`${number}${own}`);
    else if (/\d/.test(piece)) asked.push(piece);
    else asked.push(...piece.split(/[./'()-]/).filter(Boolean));
  }
  return asked;
}

/** How the index is made and read; both sides must agree. */
export const indexOptions: Options<Entry> = {
  fields: ["title", "heading", "text"],
  storeFields: ["at", "title", "heading", "text"],
  tokenize: termsOf,
  processTerm: (term) => term,
  searchOptions: {
    tokenize: termsAsked,
    processTerm: (term) => term,
    combineWith: "AND",
    boost: { title: 4, heading: 2 },
    // the last word may be half written, and a section leads to those below it; a quantity is meant as it stands
    prefix: (term, i, terms) => /^\p{L}{0,2}\d+\.[\d.]*$/u.test(term) || (i === terms.length - 1 && !/^\d/.test(term)),
  },
};
