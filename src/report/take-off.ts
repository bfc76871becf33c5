/** The take-off as text, as Markdown and as CSV. */
import type { TakeOff, TakeOffLine } from "../survey/index.js";
import { cleanText, markdownText } from "./text.js";

const named = ({ what, size }: TakeOffLine): string => (size === null ? what : `${what}, ${size}`);
const counted = ({ count }: TakeOffLine): string => (count === null ? "?" : String(count));
/** How the groups of a take-off are called. */
export const supplyHeadings = { bring: "Bring", open: "Cannot be told yet", there: "There already" } as const;
const order = ["bring", "open", "there"] as const;
const note = ({ open, why }: TakeOffLine): string => (open === null ? why : `${why} Measure ${open}.`);

/** Parts and tools as plain text, by whether they have to be brought. */
export function takeOffText({ site, lines }: TakeOff): string {
  const groups = order.flatMap((supply) => {
    const held = lines.filter((line) => line.supply === supply);
    if (held.length === 0) return [];
    return [
      "",
      supplyHeadings[supply],
      ...held.map((line) => {
        const head = `  ${counted(line).padStart(3)} x ${named(line)}`;
        return supply === "there" ? head : `${head}\n        ${note(line)}`;
      }),
    ];
  });
  const text = [`Parts and tools: ${site}`, ...groups].flatMap((line) => line.split("\n"));
  return `${text.map(cleanText).join("\n")}\n`;
}

/** Parts and tools as a Markdown page with boxes to tick. */
export function takeOffMarkdown({ site, lines }: TakeOff): string {
  const groups = order.flatMap((supply) => {
    const held = lines.filter((line) => line.supply === supply);
    if (held.length === 0) return [];
    return [
      "",
      `## ${supplyHeadings[supply]}`,
      "",
      ...held.map((line) => `- [ ] ${markdownText(`${counted(line)} x ${named(line)}`)}: ${markdownText(note(line))}`),
    ];
  });
  return `${[`# ${markdownText(`Parts and tools: ${site}`)}`, ...groups].join("\n")}\n`;
}

/**
 * A cell of CSV after RFC 4180. One that a spreadsheet would take for a formula gets an apostrophe before it.
 *
 * @example csvCell("=1+1") // "'=1+1"
 */
export function csvCell(text: string): string {
  const safe = /^[=+\-@\t\r]/.test(text) ? `'${text}` : text;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}

const columns = ["site", "kind", "trade", "supply", "count", "what", "size", "why", "measure", "from"] as const;

/** Parts and tools as CSV with a header, one line each. */
export function takeOffCsv({ site, lines }: TakeOff): string {
  const rows = lines.map(({ kind, trade, supply, count, what, size, why, open, from }) => [
    site,
    kind,
    trade,
    supply,
    count === null ? "" : String(count),
    what,
    size ?? "",
    why,
    open ?? "",
    from.join(" "),
  ]);
  return [columns, ...rows].map((row) => `${row.map((text) => csvCell(text)).join(",")}\r\n`).join("");
}
