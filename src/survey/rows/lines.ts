/** Physical lines of a stream of bytes, in constant memory, each decoded as UTF-8 or said not to be. */

/** One physical line. `text` is `null` where it cannot be used, and `fault` says why. */
export interface Line {
  readonly line: number;
  readonly text: string | null;
  readonly fault: "encoding" | "utf16" | "tooLong" | null;
  /** The line as well as it can be shown, for refusals. */
  readonly shown: string;
}

/** The longest line that is read; a longer one is refused without being held in memory. */
export const LONGEST_LINE = 1_048_576;

const NEWLINE = 10;
const RETURN = 13;
const strict = new TextDecoder("utf-8", { fatal: true, ignoreBOM: true });
const lenient = new TextDecoder("utf-8", { ignoreBOM: true });

/** A byte-order mark of UTF-16, or a zero byte beside the first character, as ASCII in UTF-16 has it. */
function isUtf16([first, second]: Uint8Array): boolean {
  if ((first === 0xff && second === 0xfe) || (first === 0xfe && second === 0xff)) return true;
  return (first === 0) !== (second === 0) && first !== undefined && second !== undefined;
}

function decode(bytes: Uint8Array, line: number): Line {
  let end = bytes.length;
  if (end > 0 && bytes[end - 1] === RETURN) end--;
  const start = line === 1 && bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf ? 3 : 0;
  const body = bytes.subarray(start, end);
  if (line === 1 && isUtf16(bytes)) return { line, text: null, fault: "utf16", shown: lenient.decode(body) };
  try {
    const text = strict.decode(body);
    return { line, text, fault: null, shown: text };
  } catch {
    return { line, text: null, fault: "encoding", shown: lenient.decode(body) };
  }
}

function join(pieces: readonly Uint8Array[], length: number): Uint8Array {
  if (pieces.length === 1) return pieces[0]!;
  const whole = new Uint8Array(length);
  let at = 0;
  for (const piece of pieces) {
    whole.set(piece, at);
    at += piece.length;
  }
  return whole;
}

/**
 * The physical lines of a stream, ended by LF or CRLF. A byte-order mark is dropped. A line over 1 MiB is passed over
 * and reported. A file that is not UTF-8 at all ends with the line that says so.
 *
 * @param first - number of the first line, where the stream is a later part of a file
 */
export async function* linesOf(
  chunks: AsyncIterable<Uint8Array> | Iterable<Uint8Array>,
  first = 1,
): AsyncGenerator<Line> {
  let line = first;
  let pieces: Uint8Array[] = [];
  let length = 0;
  let overlong = false;
  const take = (): Line => {
    const found: Line = overlong
      ? { line, text: null, fault: "tooLong", shown: lenient.decode(join(pieces, length).subarray(0, 200)) }
      : decode(length === 0 ? new Uint8Array(0) : join(pieces, length), line);
    line++;
    pieces = [];
    length = 0;
    overlong = false;
    return found;
  };
  const add = (piece: Uint8Array): void => {
    if (overlong || piece.length === 0) return;
    const room = LONGEST_LINE - length;
    pieces.push(piece.length > room ? piece.subarray(0, room) : piece);
    length += Math.min(piece.length, room);
    if (piece.length > room) overlong = true;
  };
  for await (const chunk of chunks) {
    let from = 0;
    for (;;) {
      const at = chunk.indexOf(NEWLINE, from);
      if (at < 0) break;
      add(chunk.subarray(from, at));
      const found = take();
      yield found;
      if (found.fault === "utf16") return;
      from = at + 1;
    }
    // copied, since whoever gives the bytes may fill the same memory again; the slice of a Buffer would be a view
    if (from < chunk.length) add(new Uint8Array(chunk.subarray(from)));
  }
  if (length > 0 || overlong) yield take();
}
