import { answerLine } from "@/lib/exchange/calculator/answer-line";
import { listing } from "@/lib/exchange/calculator/listing";
import { endQuietlyWhenUnread, readLines, writeText } from "./json-lines";
import { runMain } from "./main";
import { Problem } from "./problem";

const HELP = `npm run --silent calc < requests.jsonl       one request a line, one answer a line, in the same order

  {"id": 1, "calculation": "cylinder-contents", "gas": "oxygen", "waterCapacityL": 4.8,
   "pressure": {"value": 1900, "unit": "psi"}, "temperatureC": 21.1}      (on one line)

  answer      {"id", "ok": true, "calculation", "value", "unit", "method", "uncertainty", "source"}
  no answer   {"id", "ok": false, "calculation", "refusal", "message"}

  npm run --silent calc -- --list            every calculation with its inputs as JSON Schema

docs/calculations.md explains them. A planning aid: it never replaces a qualified person's check.`;

async function main(): Promise<void> {
  endQuietlyWhenUnread(process.stdout);
  const [option, ...more] = process.argv.slice(2);
  if (option === "--help") return void console.log(HELP);
  if (option === "--list" && more.length === 0)
    return writeText(process.stdout, `${JSON.stringify(listing(), null, 2)}\n`);
  if (option !== undefined) throw new Problem(`${[option, ...more].join(" ")} is not known here.\n\n${HELP}`);
  for await (const lines of readLines(process.stdin)) {
    const answers = lines.map(({ text }) => answerLine(text)).filter((answer) => answer !== null);
    if (answers.length > 0) await writeText(process.stdout, `${answers.join("\n")}\n`);
  }
}

runMain(main);
