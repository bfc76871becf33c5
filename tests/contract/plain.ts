/** Plain values: what JSON would lose, setting one at a path, comparing one with what a text prints. */

/** Paths of what JSON would lose or change: undefined, NaN, infinities, minus zero aside. */
export function lossesIn(value: unknown, path = ""): string[] {
  if (value === undefined) return [`${path} is undefined`];
  if (typeof value === "number") return Number.isFinite(value) ? [] : [`${path} is ${value}`];
  if (typeof value === "function" || typeof value === "bigint" || typeof value === "symbol")
    return [`${path} is a ${typeof value}`];
  if (typeof value === "string")
    return /NaN|Infinity|undefined|\[object/.test(value) ? [`${path} says "${value}"`] : [];
  if (typeof value !== "object" || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => lossesIn(inner, `${path}.${key}`));
}

/** Sets a value at a path, making what is missing on the way. */
export function put(
  target: Record<string | number, unknown>,
  path: readonly (string | number)[],
  value: unknown,
): void {
  const [key, ...rest] = path as [string | number, ...(string | number)[]];
  if (rest.length === 0) target[key] = value;
  else {
    target[key] ??= {};
    put(target[key] as Record<string | number, unknown>, rest, value);
  }
}

/** Half of the last digit that a number prints. */
function halfDigit(printed: string): number {
  const [, fraction = "", exponent = "0"] = /^-?\d*\.?(\d*)(?:e([-+]?\d+))?$/i.exec(printed.replaceAll("_", "")) ?? [];
  return 0.5 * 10 ** (Number(exponent) - fraction.length);
}

/**
 * Numbers to the digits printed, a whole number exactly where the code gives one; everything else exactly. In a list
 * or an object number by number, each to the digits of its own.
 */
export function agrees(got: unknown, want: unknown): boolean {
  if (typeof got === "number" && typeof want === "number") {
    const slack = Number.isInteger(got) && Number.isInteger(want) ? 0 : halfDigit(String(want)) * (1 + 1e-9);
    return Math.abs(got - want) <= Math.max(slack, 1e-12 * Math.abs(want));
  }
  if (typeof got !== "object" || typeof want !== "object" || got === null || want === null) return Object.is(got, want);
  const keys = Object.keys(want);
  return (
    Array.isArray(got) === Array.isArray(want) &&
    keys.length === Object.keys(got).length &&
    keys.every((key) => agrees((got as Record<string, unknown>)[key], (want as Record<string, unknown>)[key]))
  );
}
