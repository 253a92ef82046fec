import type { Writable } from "node:stream";
import { type Line, readLines, writeText } from "./json-lines";

/**
 * Documents in, answers out, in the same order and as they arrive. A document may stand on one line or be spread over several, as
 * a person or an indenting program writes it; its answer is written in the same manner.
 */
export type Reply = { readonly ok: true; readonly body: unknown } | { readonly ok: false; readonly problems: unknown };

export interface Tally {
  readonly answered: number;
  readonly refused: number;
}

/** Answers every document of the input; one that is refused gets what is wrong with it, in its place. */
export async function answerDocuments(
  input: AsyncIterable<Uint8Array>,
  output: Writable,
  reply: (document: unknown) => Reply,
): Promise<Tally> {
  const tally = { answered: 0, refused: 0 };
  for await (const batch of readDocuments(input)) {
    const answers = batch.map((read) => {
      const replied = replyTo(read, reply);
      tally[replied.ok ? "answered" : "refused"] += 1;
      const body = replied.ok ? replied.body : { error: { line: read.line, problems: replied.problems } };
      return `${JSON.stringify(body, null, read.spread ? 2 : undefined)}\n`;
    });
    if (answers.length > 0) await writeText(output, answers.join(""));
  }
  return tally;
}

/** One JSON value of the input, with the line it began on. */
interface ReadDocument {
  readonly line: number;
  readonly value?: unknown;
  /** Why there is no value. */
  readonly unreadable?: string;
  readonly spread: boolean;
}

function replyTo({ value, unreadable }: ReadDocument, reply: (document: unknown) => Reply): Reply {
  if (unreadable === undefined) return reply(value);
  return { ok: false, problems: [{ path: "", value: null, message: unreadable }] };
}

async function* readDocuments(input: AsyncIterable<Uint8Array>): AsyncGenerator<readonly ReadDocument[]> {
  const gathering = new Gathering();
  for await (const lines of readLines(input)) yield lines.flatMap((line) => gathering.take(line));
  yield gathering.end();
}

/** The lines of a document that has begun and not ended yet. */
class Gathering {
  #lines: Line[] = [];
  #depth = new BracketDepth();
  /** After a spread document that is none, its own further lines are passed over until another one begins. */
  #lost = false;

  take(line: Line): ReadDocument[] {
    if (this.#lines.length === 0 && !this.#begin(line)) return [];
    if (this.#lines.length === 0) {
      const alone = parsed([line]);
      if (alone.unreadable === undefined || line.text === null) return [alone];
    }
    this.#lines.push(line);
    this.#depth.read(line.text ?? "");
    return this.#depth.isOpen() ? [] : this.end();
  }

  #begin({ text }: Line): boolean {
    if (text?.trim() === "") return false;
    if (this.#lost && text?.startsWith("{") !== true) return false;
    this.#lost = false;
    return true;
  }

  /** What was gathered, as one document, or where a line was cut short, line by line. */
  end(): ReadDocument[] {
    const lines = this.#lines;
    this.#lines = [];
    this.#depth = new BracketDepth();
    if (lines.length === 0) return [];
    const whole = parsed(lines);
    if (whole.unreadable === undefined || lines.length === 1) return [whole];
    const each = lines.filter(({ text }) => text?.trim() !== "").map((line) => parsed([line]));
    if (each.some((one, place) => place > 0 && isDocument(one, lines))) return each;
    this.#lost = true;
    return [whole];
  }
}

/** A line on its own that holds a whole object and is not part of an indented one. */
const isDocument = ({ line, value }: ReadDocument, lines: readonly Line[]): boolean =>
  typeof value === "object" && value !== null && lines.some(({ number, text }) => number === line && text?.[0] === "{");

function parsed(lines: readonly Line[]): ReadDocument {
  const line = lines[0]?.number ?? 1;
  const spread = lines.length > 1;
  if (lines.some(({ text }) => text === null)) return { line, spread, unreadable: "is not text in UTF-8" };
  const text = lines.map((one) => one.text).join("\n");
  try {
    return { line, spread, value: JSON.parse(text) };
  } catch (error) {
    return { line, spread, unreadable: notJson(text, line, (error as Error).message) };
  }
}

function notJson(text: string, firstLine: number, message: string): string {
  const position = Number(/at position (\d+)/.exec(message)?.[1] ?? text.length);
  const before = text.slice(0, position).split("\n");
  const place = `line ${firstLine + before.length - 1}, column ${(before.at(-1)?.length ?? 0) + 1}`;
  return `is not JSON: ${message.replace(/ at position \d+.*$/s, "")} (${place}); one document, or one on each line, is read`;
}

/** How many brackets are open after what was read, those in texts aside. */
class BracketDepth {
  #depth = 0;

  read(text: string): void {
    // A text of JSON never runs over the end of its line.
    for (const [token] of text.matchAll(/"(?:[^"\\]|\\.)*"?|[[\]{}]/g)) {
      if (token === "{" || token === "[") this.#depth += 1;
      if (token === "}" || token === "]") this.#depth -= 1;
    }
  }

  isOpen(): boolean {
    return this.#depth > 0;
  }
}
