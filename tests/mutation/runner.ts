/**
 * Runs every test once as it is, noting the faults it reaches, then again with each of those that still lives. A test that
 * fails has killed the fault. One process loads each test file once, so a fault costs what its tests cost and no more; slow
 * tests come last, when few faults live.
 *
 * A fault may leave something behind, such as half a table that is filled on first use. So each kill is followed by the test
 * without a fault; where that fails, the file is given up and run afresh, and what was tried since the last good run of a
 * test is tried apart, in a process each.
 */
import { closeSync, openSync, readFileSync, statSync, writeSync } from "node:fs";
import { performance } from "node:perf_hooks";
import { threadId } from "node:worker_threads";
import type { RunnerTestCase, RunnerTestFile, RunnerTestSuite } from "vitest";
import { TestRunner } from "vitest";
import { FOLDER, FROM_START, note, notes, type Plan } from "./plan.js";

/**
 * A loop may turn this many times as often as in the test without a fault, and so many more. Turns, not seconds: the
 * answer must not hang on what else the machine is doing.
 */
const PATIENCE = 10;
const LEAST_PATIENCE = 300_000;

/** A test that takes longer waits for the others of its file [ms]. */
const SLOW = 50;

/** A test as it ran without a fault. */
interface Tried {
  readonly name: string;
  readonly body: () => PromiseLike<void> | void;
  readonly reached: readonly number[];
  readonly took: number;
  readonly turns: number;
}

const folder = process.env[FOLDER]!;
const fromStart = Number(process.env[FROM_START] ?? 0);

export default class MutationRunner extends TestRunner {
  readonly #dead = new Set<number>();
  readonly #seen = new Set<number>();
  readonly #slow: Tried[] = [];
  /** Faults tried since a test last ran well without any; and whether one of them left something behind. */
  #suspects: number[] = [];
  #isSpoilt = false;
  #size = 0;
  /** What is being tried, for whoever watches from outside: a fault may hang where no loop of ours turns. */
  readonly #now = openSync(`${folder}/now-${process.pid}-${threadId}`, "w");

  onBeforeRunFiles(): void {
    if (fromStart !== 0) return;
    const { apart } = JSON.parse(readFileSync(`${folder}/plan.json`, "utf8")) as Plan;
    for (const id of apart) this.#dead.add(id);
    for (const id of globalThis.$faults.reached) note(folder, ["loaded", id]);
    globalThis.$faults.reached.clear();
  }

  override onAfterRunFiles(files?: RunnerTestFile[]): void {
    super.onAfterRunFiles();
    if (!this.#isSpoilt) for (const { filepath } of files ?? []) note(folder, ["done", filepath]);
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

    if (this.#isSpoilt) return;
    faults.reached.clear();
    faults.turns = 0;
    const began = performance.now();
    try {
      await body();
    } catch (error) {
      if (this.#suspects.length > 0) return this.#spoil();
      note(folder, ["broken", name, String(error)]);
      throw error;
    }
    this.#suspects = [];
    const tried = { name, body, reached: [...faults.reached], took: performance.now() - began, turns: faults.turns };
    for (const id of tried.reached) {
      if (this.#seen.has(id)) continue;
      this.#seen.add(id);
      note(folder, ["reached", id]);
    }
    if (tried.took > SLOW) this.#slow.push(tried);
    else await this.#tryAll(tried);
  }

  override async onAfterRunSuite(suite: RunnerTestSuite): Promise<void> {
    await super.onAfterRunSuite(suite);
    if (suite !== suite.file) return;
    for (const tried of this.#slow.toSorted((a, b) => a.took - b.took)) await this.#tryAll(tried);
    this.#slow.length = 0;
  }

  /** Gives this file up: what was tried since the last good run goes apart. */
  #spoil(): void {
    this.#isSpoilt = true;
    for (const id of this.#suspects) note(folder, ["apart", id]);
  }

  /** Runs a test again with each fault that it reaches and that still lives. */
  async #tryAll({ name, body, reached, turns }: Tried): Promise<void> {
    const faults = globalThis.$faults;
    this.#learn();
    for (const id of reached) {
      if (this.#isSpoilt) return;
      if (this.#dead.has(id)) continue;
      this.#say(id);
      this.#suspects.push(id);
      faults.turns = 0;
      faults.most = LEAST_PATIENCE + PATIENCE * turns;
      faults.active = id;
      let how: "killed" | "timedOut" | undefined;
      try {
        await body();
      } catch {
        how = faults.turns > faults.most ? "timedOut" : "killed";
      }
      faults.active = 0;
      faults.most = Infinity;
      if (how === undefined) continue;
      try {
        await body();
        this.#suspects = [];
      } catch {
        return this.#spoil();
      }
      this.#dead.add(id);
      note(folder, [how, id, name]);
    }
    this.#say(0);
  }
}
