/** The same check in a program and on a command line. */
import { literal } from "../markdown.js";

/** The name of an entry in a program: `venting/duct-length` is `ductLength`. */
export const exportOf = (id: string): string =>
  id.split("/")[1]!.replace(/-([a-z0-9])/g, (_, letter: string) => letter.toUpperCase());

const isEmpty = (at: object): boolean => Object.keys(at).length === 0;

/** A call of the library in TypeScript. */
export function programText(id: string, input: object, at: object = {}): string {
  const name = exportOf(id);
  const place = isEmpty(at) ? "" : `, ${literal(at, 80)}`;
  return `import { ${name} } from "dryfit/${id.split("/")[0]}";\n\n${name}(${literal(input, 80)}${place});`;
}

/** Text as one word of a POSIX shell. */
export const shellWord = (text: string): string =>
  /^[\w.,/-]+$/.test(text) ? text : `'${text.replaceAll("'", "'\\''")}'`;

const flags = ["units", "decision", "decimal"] as const;

/** Commands for a POSIX shell; what surrounds the check goes into a file where no flag says it. */
export function commandText(id: string, input: object, at: Readonly<Record<string, unknown>> = {}): string {
  const place = Object.fromEntries(Object.entries(at).filter(([key]) => !(flags as readonly string[]).includes(key)));
  // printf, since some shells' echo reads backslashes
  const print = (value: object): string => `printf '%s' ${shellWord(JSON.stringify(value))}`;
  const said = flags.flatMap((flag) => (at[flag] === undefined ? [] : [`--${flag} ${shellWord(String(at[flag]))}`]));
  const words = ["dryfit calc", id, "-", ...(isEmpty(place) ? [] : ["--at place.json"]), ...said];
  const line = `${print(input)} | ${words.join(" ")}`;
  return isEmpty(place) ? line : `${print(place)} > place.json\n${line}`;
}
