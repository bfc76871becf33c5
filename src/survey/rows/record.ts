/** Taking lines of CSV apart into cells, after RFC 4180. */

/** What came of one more line: the record is whole, a quoted cell goes on in the next line, or it is broken. */
export type Fed = "whole" | "open" | { readonly problem: string; readonly at: number };

const QUOTE_INSIDE = 'a quote stands inside a cell; double it and put the whole cell in quotes: "5 ""in"""';

/** One record, fed line by line. */
export class RecordScanner {
  readonly cells: string[] = [];
  /** The quoted cell so far; `null` outside quotes. */
  #open: string | null = null;

  /** Takes one more line. */
  feed(line: string): Fed {
    let at = 0;
    for (;;) {
      if (this.#open === null) {
        if (line[at] !== '"') {
          const comma = line.indexOf(",", at);
          const cell = line.slice(at, comma < 0 ? line.length : comma);
          if (cell.includes('"')) return { problem: QUOTE_INSIDE, at: at + cell.indexOf('"') };
          this.cells.push(cell);
          if (comma < 0) return "whole";
          at = comma + 1;
          continue;
        }
        this.#open = "";
        at++;
      }
      const quote = line.indexOf('"', at);
      if (quote < 0) {
        this.#open += `${line.slice(at)}\n`;
        return "open";
      }
      this.#open += line.slice(at, quote);
      if (line[quote + 1] === '"') {
        this.#open += '"';
        at = quote + 2;
        continue;
      }
      this.cells.push(this.#open);
      this.#open = null;
      if (quote + 1 === line.length) return "whole";
      if (line[quote + 1] !== ",") return { problem: QUOTE_INSIDE, at: quote };
      at = quote + 2;
    }
  }
}
