import { once } from "node:events";
import type { Writable } from "node:stream";

/** Lines in, lines out: what the command lines that answer JSON share. */

export interface Line {
  /** Counted from one. */
  readonly number: number;
  /** Null where the bytes are not text in UTF-8. */
  readonly text: string | null;
}

const NEW_LINE = 0x0a;
const BYTE_ORDER_MARK = "\ufeff";
const utf8 = new TextDecoder("utf-8", { fatal: true, ignoreBOM: true });

/** The lines of the input, in batches as they arrive; the last one needs no line end. */
export async function* readLines(input: AsyncIterable<Uint8Array>): AsyncGenerator<readonly Line[]> {
  let number = 0;
  let rest: Uint8Array[] = [];
  const lineOf = (bytes: Uint8Array): Line => {
    const whole = rest.length === 0 ? bytes : Buffer.concat([...rest, bytes]);
    rest = [];
    number += 1;
    return { number, text: textOf(whole, number === 1) };
  };
  for await (const chunk of input) {
    const lines: Line[] = [];
    let from = 0;
    for (let to = chunk.indexOf(NEW_LINE); to >= 0; to = chunk.indexOf(NEW_LINE, from)) {
      lines.push(lineOf(chunk.subarray(from, to)));
      from = to + 1;
    }
    if (from < chunk.length) rest.push(chunk.subarray(from));
    if (lines.length > 0) yield lines;
  }
  if (rest.length > 0) yield [lineOf(new Uint8Array())];
}

function textOf(bytes: Uint8Array, first: boolean): string | null {
  try {
    const text = utf8.decode(bytes);
    const marked = first && text.startsWith(BYTE_ORDER_MARK) ? text.slice(1) : text;
    return marked.endsWith("\r") ? marked.slice(0, -1) : marked;
  } catch {
    return null;
  }
}

/** Writes, and waits where the reader is slower. */
export async function writeText(output: Writable, text: string): Promise<void> {
  if (!output.write(text)) await once(output, "drain");
}

/** A reader that has seen enough, as `head`, closes the pipe; that is an end and not an error. */
export function endQuietlyWhenUnread(output: Writable): void {
  output.on("error", (error: NodeJS.ErrnoException) => {
    if (error.code !== "EPIPE") throw error;
    process.exit(0);
  });
}
