/** Message and formula texts with typed slots: `{developed:length}` takes a length, and the compiler checks it. */
import {
  type DimensionOfKind,
  type Quantity,
  type QuantityKind,
  same,
  show,
  showNumber,
  type UnitSystem,
} from "../quantity/index.js";

/** What a slot can hold: a kind of quantity, a count, a plain number, or a word. */
export type SlotKind = QuantityKind | "count" | "number" | "text";

type SlotValue<K extends string> = K extends QuantityKind
  ? Quantity<DimensionOfKind<K>>
  : K extends "count" | "number"
    ? number
    : K extends "text"
      ? string
      : never;

type Merge<T> = { [K in keyof T]: T[K] };
type SlotsIn<Text extends string> = Text extends `${string}{${infer Name}:${infer Kind}}${infer Rest}`
  ? { readonly [K in Name]: SlotValue<Kind> } & SlotsIn<Rest>
  : unknown;

/** The values that a text with slots needs. */
export type Slots<Text extends string> = Merge<SlotsIn<Text>>;

/** A value as findings carry it: the SI number for programs, the text for people. A word is its own text. */
export interface Shown {
  /** SI number, or `null` for a word. */
  readonly si: number | null;
  readonly kind: SlotKind;
  readonly text: string;
}

/** The raw values behind a text, by slot name. */
export type Data = Readonly<Record<string, number | string>>;

interface Piece {
  readonly before: string;
  readonly name: string;
  readonly kind: SlotKind;
}
interface Template {
  readonly pieces: readonly Piece[];
  readonly after: string;
}

const SLOT = /\{([A-Za-z]\w*):(\w+)\}/g;
const parsed = new Map<string, Template>();

/** The pieces of a text with slots. Texts are constants of the code, so each is taken apart once. */
export function templateOf(text: string): Template {
  const known = parsed.get(text);
  if (known) return known;
  const pieces: Piece[] = [];
  let from = 0;
  for (const match of text.matchAll(SLOT)) {
    pieces.push({ before: text.slice(from, match.index), name: match[1]!, kind: match[2] as SlotKind });
    from = match.index + match[0].length;
  }
  const template: Template = { pieces, after: text.slice(from) };
  parsed.set(text, template);
  return template;
}

const MOST_DIGITS = 15;

/** Digits that findings carry: far more than a site can measure, and fewer than engines agree on. */
const CARRIED_DIGITS = 12;

/**
 * A number as findings carry it. Powers, sines and logarithms may differ in their last bits between one JavaScript engine
 * and the next; with twelve digits the same input gives the same bytes everywhere. A zero has no sign.
 */
export const plain = (value: number): number =>
  (Number.isInteger(value) ? value : Number(value.toPrecision(CARRIED_DIGITS))) + 0;

/** The kind that a difference of two values of a kind has: degrees between two temperatures are not a temperature. */
export const differenceOf = (kind: SlotKind): SlotKind => (kind === "temperature" ? "temperatureDifference" : kind);

/** One value as text. */
export function showSlot(value: number | string, kind: SlotKind, units: UnitSystem, digits?: number): string {
  if (typeof value === "string") return value;
  if (kind === "count") return String(value);
  if (kind === "number" || kind === "text") return showNumber(value, digits);
  return show(value as never, kind, digits === undefined ? { units } : { units, digits });
}

/**
 * Texts of several values, each with as many digits as it takes to tell it from the others: a message never says that
 * 35 ft exceeds 35 ft.
 */
export function showApart(
  values: readonly { readonly value: number | string; readonly kind: SlotKind }[],
  units: UnitSystem,
): string[] {
  const texts = values.map(({ value, kind }) => showSlot(value, kind, units));
  for (let i = 0; i < values.length; i++) {
    for (let j = i + 1; j < values.length; j++) {
      const a = values[i]!;
      const b = values[j]!;
      if (texts[i] !== texts[j] || typeof a.value === "string" || typeof b.value === "string") continue;
      if (same(a.value, b.value)) continue;
      for (let digits = 3; digits <= MOST_DIGITS && texts[i] === texts[j]; digits++) {
        texts[i] = showSlot(a.value, a.kind, units, digits);
        texts[j] = showSlot(b.value, b.kind, units, digits);
      }
    }
  }
  return texts;
}

/** A text with its slots filled in. */
export function fill(text: string, data: Data, units: UnitSystem): string {
  const { pieces, after } = templateOf(text);
  const texts = showApart(
    pieces.map(({ name, kind }) => ({ value: data[name]!, kind })),
    units,
  );
  return pieces.map(({ before }, i) => before + texts[i]!).join("") + after;
}

/** The values of a text's slots, for programs and for people. */
export function shownData(text: string, data: Data, units: UnitSystem): Record<string, Shown> {
  const slots = templateOf(text).pieces.map(({ name, kind }) => ({ name, kind, value: data[name]! }));
  const texts = showApart(slots, units);
  return Object.fromEntries(
    slots.map(({ name, kind, value }, i) => [
      name,
      { si: typeof value === "number" ? plain(value) : null, kind, text: texts[i]! },
    ]),
  );
}

/** A formula with its slots as bare symbols, as mathjs parses it. */
export function formulaOf(text: string): string {
  const { pieces, after } = templateOf(text);
  return pieces.map(({ before, name }) => before + name).join("") + after;
}
