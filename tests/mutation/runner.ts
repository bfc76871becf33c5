/**
 * Runs every test once as it is, noting the faults it reaches, then again with each of those that still lives. A test that
 * fails has killed the fault. One process loads each test file once, so a fault costs what its tests cost and no more.
 */
import { closeSync, openSync, statSync, writeSync } from "node:fs";
import { performance } from "node:perf_hooks";
import { threadId } from "node:worker_threads";
import type { RunnerTestCase, RunnerTestFile } from "vitest";
import { TestRunner } from "vitest";
import { FOLDER, FROM_START, note, notes } from "./plan.js";

/** A loop may take this many times as long as the whole test did, and at least so long [ms]. */
const PATIENCE = 10;
const LEAST_PATIENCE = 500;

const folder = process.env[FOLDER]!;
const fromStart = Number(process.env[FROM_START] ?? 0);

export default class MutationRunner extends TestRunner {
  readonly #dead = new Set<number>();
  readonly #seen = new Set<number>();
  #size = 0;
  /** What is being tried, for whoever watches from outside: a fault may hang where no loop of ours turns. */
  readonly #now = openSync(`${folder}/now-${process.pid}-${threadId}`, "w");

  onBeforeRunFiles(): void {
    for (const id of globalThis.$faults.reached) note(folder, ["loaded", id]);
    globalThis.$faults.reached.clear();
  }

  override onAfterRunFiles(files?: RunnerTestFile[]): void {
    super.onAfterRunFiles();
    for (const { filepath } of files ?? []) note(folder, ["done", filepath]);
    this.#say(0);
    closeSync(this.#now);
  }

  #say(id: number): void {
    writeSync(this.#now, `${id} ${Date.now()}`.padEnd(40), 0);
  }

  /** Takes in what other workers have killed. */
  #learn(): void {
    const { size } = statSync(`${folder}/notes.jsonl`);
    if (size === this.#size) return;
    const news = notes(folder, this.#size);
    this.#size = size;
    for (const [what, id] of news) if (what === "killed" || what === "timedOut") this.#dead.add(id as number);
  }

  async runTask(test: RunnerTestCase): Promise<void> {
    const body = TestRunner.getTestFn(test);
    const name = `${test.file.name} > ${test.name}`;
    const faults = globalThis.$faults;
    if (fromStart !== 0) {
      try {
        await body();
      } catch (error) {
        note(folder, ["killed", fromStart, name]);
        throw error;
      }
      return;
    }

    faults.reached.clear();
    const began = performance.now();
    try {
      await body();
    } catch (error) {
      note(folder, ["broken", name, String(error)]);
      throw error;
    }
    const took = performance.now() - began;
    const reached = [...faults.reached];
    for (const id of reached) {
      if (this.#seen.has(id)) continue;
      this.#seen.add(id);
      note(folder, ["reached", id]);
    }

    this.#learn();
    for (const id of reached) {
      if (this.#dead.has(id)) continue;
      this.#say(id);
      const start = performance.now();
      faults.deadline = start + Math.max(LEAST_PATIENCE, PATIENCE * took);
      faults.active = id;
      try {
        await body();
      } catch {
        faults.active = 0;
        this.#dead.add(id);
        note(folder, [performance.now() > faults.deadline ? "timedOut" : "killed", id, name]);
      }
      faults.active = 0;
      faults.deadline = Infinity;
    }
    this.#say(0);
  }
}
