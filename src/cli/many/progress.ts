/** How far a run is, on one line of a terminal that is drawn over. */
import type { Sink } from "../io.js";

const EVERY_MS = 200;
const BAR = 24;

const spell = (seconds: number): string => {
  const whole = Math.round(seconds);
  const pad = (part: number): string => String(part).padStart(2, "0");
  const [hours, minutes] = [Math.floor(whole / 3600), Math.floor(whole / 60) % 60];
  return hours > 0 ? `${hours}:${pad(minutes)}:${pad(whole % 60)}` : `${minutes}:${pad(whole % 60)}`;
};

/** What a run has done at some moment. */
export interface Done {
  readonly rows: number;
  readonly bytes: number;
}

/**
 * The line that says how far a run is.
 *
 * @param total - bytes to read in all; `null` where that cannot be known
 * @param seconds - since this run began
 * @param before - what an earlier run had done
 */
export function progressLine(done: Done, total: number | null, seconds: number, before: Done): string {
  const rate = seconds > 0 ? Math.round((done.rows - before.rows) / seconds) : 0;
  const rows = `${done.rows.toLocaleString("en-US")} rows, ${rate.toLocaleString("en-US")} rows/s`;
  if (total === null || total === 0) return rows;
  const share = Math.min(1, done.bytes / total);
  const full = Math.floor(share * BAR);
  const fresh = done.bytes - before.bytes;
  const left = fresh > 0 ? `, ${spell((seconds * Math.max(0, total - done.bytes)) / fresh)} left` : "";
  return `[${"#".repeat(full)}${".".repeat(BAR - full)}] ${Math.floor(share * 100)}%  ${rows}${left}`;
}

/** Draws the line now and then. It writes nothing where standard error is no terminal, or answers go to one. */
export class Progress {
  readonly #sink: Sink | null;
  readonly #total: number | null;
  readonly #before: Done;
  readonly #started = performance.now();
  #last = 0;
  #isDrawn = false;

  constructor(sink: Sink | null, total: number | null, before: Done) {
    this.#sink = sink?.isTerminal ? sink : null;
    this.#total = total;
    this.#before = before;
  }

  /** Draws the line, if it is time. */
  async show(done: Done): Promise<void> {
    const now = performance.now();
    if (!this.#sink || now - this.#last < EVERY_MS) return;
    this.#last = now;
    const line = progressLine(done, this.#total, (now - this.#started) / 1000, this.#before);
    this.#isDrawn = true;
    await this.#sink.write(`\r\u001b[K${line.slice(0, (this.#sink.columns ?? 80) - 1)}`).catch(() => {});
  }

  /** Takes the line away, for others to write. */
  async clear(): Promise<void> {
    if (!this.#isDrawn) return;
    this.#isDrawn = false;
    await this.#sink?.write("\r\u001b[K").catch(() => {});
  }
}
