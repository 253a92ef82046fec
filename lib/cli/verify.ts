import { readFileSync } from "node:fs";
import { parseArgs } from "node:util";
import type { ZodError } from "zod";
import { VERIFYING_TOOLS } from "@/lib/auth/head-keys";
import { verifyExport } from "@/lib/domain/history/decide";
import type { HistoryExport, SignedHead } from "@/lib/domain/history/model";
import { historyExport, signedHead } from "@/lib/schemas/history-export";
import { runMain } from "./main";
import { Problem } from "./problem";

const HELP = `npm run --silent verify -- EXPORT [options]   says whether an export of the history is what was recorded

  It needs the file and nothing else: no server, no database, no network.

  --head FILE   tree heads that were kept elsewhere (one JSON a line, as they are sent): the record must begin with them
  --key ID      a key that must be among those that signed; may be given more than once

It ends with 0 when everything fits, with 1 when something does not, and names the first thing that is wrong.`;

async function main(): Promise<void> {
  const { file, heads, keys } = given();
  const exported = exportIn(file);
  const earlier = heads.flatMap(headsIn);
  const missing = keys.find((id) => !exported.keys.some((key) => key.id === id));
  if (missing !== undefined) return wrong(`The key ${missing} signed nothing in this export.`);
  const outcome = verifyExport(exported, VERIFYING_TOOLS, earlier);
  if (!outcome.ok) return wrong(outcome.message);
  const { entries, size, root, keys: used } = outcome.value;
  const part = exported.whole ? `all ${entries} entries` : `${entries} of ${size} entries`;
  console.log(
    `Everything fits: ${part} of ${exported.facility.name}, ${outcome.value.heads} tree heads${kept(earlier)}.`,
  );
  console.log(`Root of ${size} entries: ${root}`);
  console.log(`Signed by: ${used.join(", ")}`);
  if (keys.length === 0)
    console.log("Compare the key with the one that the department published; a forger could bring a key of their own.");
}

const kept = (earlier: readonly SignedHead[]): string =>
  earlier.length === 0 ? "" : `, and ${earlier.length} that ${earlier.length === 1 ? "was" : "were"} kept elsewhere`;

function wrong(message: string): void {
  console.log(`WRONG: ${message}`);
  process.exitCode = 1;
}

function given(): { file: string; heads: string[]; keys: string[] } {
  const options = {
    head: { type: "string", multiple: true },
    key: { type: "string", multiple: true },
    help: { type: "boolean" },
  } as const;
  try {
    const { values, positionals } = parseArgs({ options, allowPositionals: true });
    const [file, ...more] = positionals;
    if (values.help || file === undefined || more.length > 0) throw new Problem(HELP);
    return { file, heads: values.head ?? [], keys: values.key ?? [] };
  } catch (error) {
    throw error instanceof Problem ? error : new Problem(`${(error as Error).message}\n\n${HELP}`);
  }
}

function textOf(file: string): string {
  try {
    return readFileSync(file, "utf8");
  } catch (error) {
    throw new Problem(`${file} cannot be read (${(error as NodeJS.ErrnoException).code}).`);
  }
}

function parsed(text: string, file: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    throw new Problem(`WRONG: ${file} is not whole JSON: it was cut, or is no export.`);
  }
}

function exportIn(file: string): HistoryExport {
  const read = historyExport.safeParse(parsed(textOf(file), file));
  if (!read.success) throw new Problem(`WRONG: ${file}: ${firstIn(read.error)}`);
  return read.data as HistoryExport;
}

const headsIn = (file: string): SignedHead[] =>
  textOf(file)
    .split("\n")
    .filter((line) => line.trim() !== "")
    .map((line, place) => {
      const read = signedHead.safeParse(parsed(line, file));
      if (!read.success) throw new Problem(`WRONG: ${file}, line ${place + 1}: ${firstIn(read.error)}`);
      return read.data;
    });

function firstIn(error: ZodError): string {
  const [issue] = error.issues;
  return issue ? `${issue.path.join(".") || "the whole"} ${issue.message}` : "is no export";
}

runMain(main);
