/** A copy of a value with one place in it changed; everything off the path is shared. */
export function setPath<T>(root: T, path: readonly (string | number)[], value: unknown): T {
  const [key, ...rest] = path;
  if (key === undefined) return value as T;
  if (Array.isArray(root)) return root.map((item, i) => (i === key ? setPath(item, rest, value) : item)) as T;
  const record = root as Record<string | number, unknown> | undefined;
  return { ...record, [key]: setPath(record?.[key], rest, value) } as T;
}
