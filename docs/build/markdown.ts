/** Small pieces of Markdown. */

/** A cell of a table: one line, with the bars that would end it escaped. */
const cell = (text: string): string => text.replace(/\s*\n\s*/g, " ").replaceAll("|", "\\|");

/** A table; nothing where it has no rows. */
export function table(head: readonly string[], rows: readonly (readonly string[])[]): string {
  if (rows.length === 0) return "";
  const line = (cells: readonly string[]): string => `| ${cells.map(cell).join(" | ")} |`;
  return [line(head), `|${" --- |".repeat(head.length)}`, ...rows.map(line)].join("\n");
}

/** Text that stands as code; what closes it is not in any id or spelling here. */
export const code = (text: string): string => `\`${text}\``;

/** Blocks with one empty line between them; empty ones are left out. */
export const blocks = (...parts: readonly (string | false)[]): string => parts.filter(Boolean).join("\n\n");

const isPlainName = (key: string): boolean => /^[A-Za-z_$][\w$]*$/.test(key);

/** A value as it is written in a program, on one line where that fits. */
export function literal(value: unknown, width = 100, indent = ""): string {
  if (typeof value !== "object" || value === null) return JSON.stringify(value);
  const list = Array.isArray(value);
  const inner = `${indent}  `;
  const parts = Object.entries(value)
    .filter(([, field]) => field !== undefined)
    .map(([key, field]): [string, unknown] => [list ? "" : `${isPlainName(key) ? key : JSON.stringify(key)}: `, field]);
  const [open, close] = list ? ["[", "]"] : ["{", "}"];
  if (parts.length === 0) return open + close;
  const oneLine = parts.map(([key, field]) => key + literal(field, Number.POSITIVE_INFINITY)).join(", ");
  const whole = list ? `[${oneLine}]` : `{ ${oneLine} }`;
  if (indent.length + whole.length <= width) return whole;
  const lines = parts.map(([key, field]) => `${inner}${key}${literal(field, width - key.length, inner)},`);
  return `${open}\n${lines.join("\n")}\n${indent}${close}`;
}
