/** A file that is written under another name and gets its own only when it is whole. */
import { once } from "node:events";
import { rmSync } from "node:fs";
import { type FileHandle, open, realpath, rename, rm, stat } from "node:fs/promises";
import { createGzip, type Gzip } from "node:zlib";
import { shownName } from "../files.js";
import { Unwritable, writingError } from "../io.js";
import { UsageError } from "../outcome.js";

/** How a file of answers is written, by its name. */
export type FileForm = "json" | "ndjson" | "csv";

/** What the name of an output says: its form and whether it is packed with gzip; `null` where it says neither. */
export function formOfName(path: string): FileForm | null {
  const [, extension] = /\.(ndjson|json|csv)(?:\.gz)?$/i.exec(path) ?? [];
  return (extension?.toLowerCase() as FileForm | undefined) ?? null;
}

/** The path itself, or where it leads if it is a link, and whether it can be put in the place of what is there. */
async function targetOf(path: string): Promise<{ readonly target: string; readonly isOrdinary: boolean }> {
  try {
    const target = await realpath(path);
    const found = await stat(target);
    if (found.isDirectory()) throw new Unwritable(`${shownName(path)} cannot be written: this is a directory`);
    return { target, isOrdinary: found.isFile() };
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === "ENOENT") return { target: path, isOrdinary: true };
    throw writingError(error, shownName(path));
  }
}

/** How an output begins: anew, or after what an earlier run has finished. */
export interface Opening {
  /** Bytes to keep of the file as an earlier run left it; `null` begins anew. */
  readonly keep: number | null;
  /** The unfinished file keeps one name from run to run, so that a later one finds it. */
  readonly isResumable: boolean;
}

/** The name of the unfinished file that a later run goes on with. */
export async function partName(path: string): Promise<string> {
  const { target, isOrdinary } = await targetOf(path);
  if (!isOrdinary) throw new UsageError(`--resume wants an ordinary file; ${shownName(path)} is none`);
  return `${target}.part`;
}

/** One output file. */
export class OutputFile {
  readonly #name: string;
  readonly #target: string;
  /** The name while it is unfinished; the target itself where that is no ordinary file and cannot be renamed to. */
  readonly #working: string;
  readonly #file: FileHandle;
  readonly #isPacked: boolean;
  #size: number;
  #gzip: Gzip | null = null;
  #pumped: Promise<void> = Promise.resolve();

  private constructor(name: string, target: string, working: string, file: FileHandle, size: number) {
    this.#name = name;
    this.#target = target;
    this.#working = working;
    this.#file = file;
    this.#size = size;
    this.#isPacked = /\.gz$/i.test(name);
  }

  /** Opens an output. Fails with {@link Unwritable} where it cannot be had. */
  static async open(path: string, { keep, isResumable }: Opening): Promise<OutputFile> {
    const { target, isOrdinary } = await targetOf(path);
    const working = isResumable ? await partName(path) : isOrdinary ? `${target}.${process.pid}.part` : target;
    try {
      const file = await open(working, keep === null ? "w" : "a");
      if (keep !== null) await file.truncate(keep);
      return new OutputFile(path, target, working, file, keep ?? 0);
    } catch (error) {
      throw writingError(error, shownName(path));
    }
  }

  /** Takes the unfinished file away at once, for a process that is about to be ended. */
  discard(): void {
    if (this.#working !== this.#target) rmSync(this.#working, { force: true });
  }

  /** Bytes written so far, up to the last {@link endMember}. */
  get size(): number {
    return this.#size;
  }

  async #append(bytes: Uint8Array): Promise<void> {
    try {
      for (let at = 0; at < bytes.length; ) {
        const { bytesWritten } = await this.#file.write(bytes, at, bytes.length - at, null);
        at += bytesWritten;
      }
      this.#size += bytes.length;
    } catch (error) {
      throw writingError(error, shownName(this.#name));
    }
  }

  /** Adds bytes. */
  async write(bytes: Uint8Array): Promise<void> {
    if (!this.#isPacked) return this.#append(bytes);
    if (this.#gzip === null) {
      const gzip = createGzip();
      this.#gzip = gzip;
      this.#pumped = (async () => {
        for await (const chunk of gzip) await this.#append(chunk as Uint8Array);
      })();
      this.#pumped.catch(() => {});
    }
    // a writer that failed takes no more: its error comes instead of the room it would have made
    if (!this.#gzip.write(bytes)) await Promise.race([once(this.#gzip, "drain"), this.#pumped]);
  }

  /** Ends a member of a gzip file, so that what was written so far can be read alone; RFC 1952 lets several follow. */
  async endMember(): Promise<void> {
    this.#gzip?.end();
    await this.#pumped;
    this.#gzip = null;
  }

  /** Sees to it that what was written is on the disk. */
  async sync(): Promise<void> {
    try {
      await this.#file.datasync();
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== "EINVAL") throw writingError(error, shownName(this.#name));
    }
  }

  /** The file is whole: it gets its name. */
  async finish(): Promise<void> {
    await this.endMember();
    await this.sync();
    await this.#file.close();
    if (this.#working === this.#target) return;
    try {
      await rename(this.#working, this.#target);
    } catch (error) {
      throw writingError(error, shownName(this.#name));
    }
  }

  /** The file will not be whole. What was written of it goes, unless a later run goes on with it. */
  async abandon(isKept: boolean): Promise<void> {
    this.#gzip?.destroy();
    await this.#file.close().catch(() => {});
    if (!isKept && this.#working !== this.#target) await rm(this.#working, { force: true });
  }
}
