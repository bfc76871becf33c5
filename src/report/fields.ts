/** Reading single fields of a survey that was assessed before, for the drawings. */
import { type Dimension, isReadingProblem, readQuantity } from "../core/quantity/index.js";

type Records = Readonly<Record<string, unknown>>;
const isRecord = (value: unknown): value is Records => typeof value === "object" && value !== null;

/** One record of a survey, its fields by path: `"machine.body.width"`. A field that was left out is `undefined`. */
export class Fields {
  readonly #root: unknown;
  readonly #decimal: "." | ",";

  constructor(root: unknown, decimal: "." | "," = ".") {
    this.#root = root;
    this.#decimal = decimal;
  }

  #at(path: string): unknown {
    return path
      .split(".")
      .reduce<unknown>(
        (inner, key) => (isRecord(inner) && Object.hasOwn(inner, key) ? inner[key] : undefined),
        this.#root,
      );
  }

  /**
   * A quantity as an SI number.
   *
   * @throws RangeError where it cannot be read: then the survey is not the one that was assessed
   */
  quantity(path: string, dimension: Dimension): number | undefined {
    const value = this.#at(path);
    if (value === undefined) return undefined;
    const read = readQuantity(value, dimension, { decimal: this.#decimal });
    if (isReadingProblem(read))
      throw new RangeError(`${path} cannot be read, so this is not the survey that was assessed: ${read.message}`);
    return read.value;
  }

  length = (path: string): number | undefined => this.quantity(path, "length");
  angle = (path: string): number | undefined => this.quantity(path, "angle");

  text(path: string): string | undefined {
    const value = this.#at(path);
    return typeof value === "string" ? value : undefined;
  }

  flag(path: string): boolean | undefined {
    const value = this.#at(path);
    return typeof value === "boolean" ? value : undefined;
  }

  /** The records of a list; `undefined` where the list was left out. */
  list(path: string): Fields[] | undefined {
    const value = this.#at(path);
    return Array.isArray(value) ? value.map((one) => new Fields(one, this.#decimal)) : undefined;
  }

  has = (path: string): boolean => this.#at(path) !== undefined;
}
