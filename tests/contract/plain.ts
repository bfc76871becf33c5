/** Plain JSON: what it would lose, and setting a value in it. */

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
