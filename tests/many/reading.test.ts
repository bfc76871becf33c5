/** Files as they come: packed, broken, with other people's column names. */
import { gzipSync } from "node:zlib";
import { describe, expect, test } from "vitest";
import { dryfit, type Surroundings } from "../cli/harness.js";

const assess = (args: readonly string[], surroundings: Surroundings = {}) =>
  dryfit(["assess", ...args, "--ndjson", "--detail", "verdicts"], surroundings);
const survey = (id: string): string => JSON.stringify({ site: { id }, machine: { kind: "dryer", fuel: "electric" } });
const many = Array.from({ length: 2000 }, (_, i) => `${survey(`Alder Row ${i}`)}\n`).join("");
const CSV = "site.id,machine.kind,machine.fuel\nAlder Row 1,dryer,electric\nAlder Row 2,dryer,electric\n";

describe("a gzip file", () => {
  test("is read as what it holds, in one member or several, by its bytes and not by its name", async () => {
    const { out } = await assess(["a.ndjson"], { files: { "a.ndjson": many } });
    const half = Math.floor(many.length / 2);
    const members = Buffer.concat([gzipSync(many.slice(0, half)), gzipSync(many.slice(half)), Buffer.alloc(512)]);
    for (const body of [gzipSync(many), members]) {
      const packed = await assess(["a.ndjson"], { files: { "a.ndjson": body } });
      expect(packed).toMatchObject({ code: 2, out });
    }
  });

  test("tells its format by the extension before .gz, and comes through a pipe", async () => {
    const plain = await assess(["a.csv"], { files: { "a.csv": CSV } });
    expect(plain.out.trim().split("\n").length).toBe(2);
    const named = await assess(["a.csv.gz"], { files: { "a.csv.gz": gzipSync(CSV) } });
    expect(named.out).toBe(plain.out.replaceAll('"a.csv"', '"a.csv.gz"'));
    const piped = await assess(["-", "--format", "csv"], { stdin: gzipSync(CSV) });
    expect(piped.out).toBe(plain.out.replaceAll('"a.csv"', '"-"'));
  });

  test.each([
    ["is cut short", gzipSync(many).subarray(0, -20), "unexpected end of file"],
    ["has a wrong check sum", flipped(gzipSync(many), -6), "incorrect data check"],
    [
      "is followed by something else",
      Buffer.concat([gzipSync(CSV), Buffer.from("something else")]),
      "incorrect header",
    ],
    ["is its first two bytes", Buffer.from([0x1f, 0x8b]), "unexpected end of file"],
  ])("that %s is said to be broken, and the next file is read", async (_, body, why) => {
    const files = { "a.ndjson": body, "b.csv": CSV };
    const { code, out, err } = await assess(["a.ndjson", "b.csv"], { files });
    expect(code).toBe(3);
    expect(err).toContain(`dryfit: a.ndjson: it is a broken gzip file (${why}`);
    expect(err).toContain("; 1 file not read\n");
    expect(out.match(/"b\.csv"/g)?.length).toBe(2);
  });

  test("is unpacked for the other verbs too", async () => {
    const files = { "a.json": survey("Alder Row 1"), "b.json": gzipSync(survey("Alder Row 1")) };
    expect((await dryfit(["order", "b.json"], { files })).out).toBe((await dryfit(["order", "a.json"], { files })).out);
  });

  test("that holds more than memory is read in pieces", async () => {
    const body = gzipSync(Buffer.alloc(100_000_000, 32));
    const { code, out } = await assess(["a.ndjson"], { files: { "a.ndjson": body } });
    expect(code).toBe(3);
    expect(JSON.parse(out).refusal.issues[0].code).toBe("tooLong");
  });
});

function flipped(body: Buffer, at: number): Buffer {
  body[body.length + at]! ^= 255;
  return body;
}
