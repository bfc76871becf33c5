/** The command as it ships, in a process of its own, over files of a folder that goes afterwards. */
import { type ChildProcess, spawn } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";

const root = fileURLToPath(new URL("../..", import.meta.url));

export interface Ran {
  readonly code: number | null;
  readonly signal: NodeJS.Signals | null;
  readonly out: string;
  readonly err: string;
}

/** A built command and a folder to run it in. */
export class Command {
  readonly folder = mkdtempSync(join(tmpdir(), "dryfit-many-"));
  readonly main = join(this.folder, "cli", "main.js");

  /** Builds the command and its worker as the package has them. */
  static async built(): Promise<Command> {
    const command = new Command();
    await build({
      entryPoints: { main: `${root}src/cli/main.ts`, worker: `${root}src/cli/many/worker.ts` },
      outdir: join(command.folder, "cli"),
      bundle: true,
      platform: "node",
      format: "esm",
      target: "node20",
      mainFields: ["module", "main"],
      banner: {
        js: 'import { createRequire as makeRequire } from "node:module"; const require = makeRequire(import.meta.url);',
      },
      logLevel: "error",
    });
    writeFileSync(join(command.folder, "cli", "package.json"), '{"type":"module"}');
    return command;
  }

  path(name: string): string {
    return join(this.folder, name);
  }

  /** Writes a file into the folder. */
  write(name: string, parts: Iterable<Uint8Array> | string): void {
    writeFileSync(this.path(name), typeof parts === "string" ? parts : Buffer.concat([...parts]));
  }

  start(...args: string[]): ChildProcess {
    return spawn(process.execPath, [this.main, ...args], { cwd: this.folder });
  }

  async ended(child: ChildProcess): Promise<Ran> {
    const texts = { out: "", err: "" };
    child.stdout?.setEncoding("utf8").on("data", (text) => (texts.out += text));
    child.stderr?.setEncoding("utf8").on("data", (text) => (texts.err += text));
    child.stdin?.on("error", () => {});
    child.stdin?.end();
    return new Promise((resolve) => child.on("close", (code, signal) => resolve({ code, signal, ...texts })));
  }

  /** Runs `dryfit assess` to its end. */
  assess(...args: string[]): Promise<Ran> {
    return this.ended(this.start("assess", ...args));
  }

  remove(): void {
    rmSync(this.folder, { recursive: true });
  }
}
