/** JSON with one spelling for each value, so that a hash of it means something. */

/**
 * A value as canonical JSON after RFC 8785: no space, members in the order of their names' UTF-16 units, numbers and
 * texts as ECMAScript writes them.
 *
 * @param value - plain JSON
 * @throws TypeError where the value has no JSON, such as `undefined` or a number that is not finite
 * @example canonicalJson({ b: 1, a: "x" }) // '{"a":"x","b":1}'
 */
export function canonicalJson(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(canonicalJson).join(",")}]`;
  if (typeof value === "object" && value !== null) {
    // the usual order of texts is by UTF-16 units, as the document asks
    const members = Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1));
    return `{${members.map(([name, member]) => `${JSON.stringify(name)}:${canonicalJson(member)}`).join(",")}}`;
  }
  const text = typeof value === "number" && !Number.isFinite(value) ? undefined : JSON.stringify(value);
  if (text === undefined) throw new TypeError("only plain JSON can be written as canonical JSON");
  return text;
}
