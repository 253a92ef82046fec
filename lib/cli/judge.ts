import { JSON_SCHEMAS, type JsonSchemaName } from "@/lib/exchange/judge/json-schemas";
import { judgeDocument } from "@/lib/exchange/judge/judge-document";
import { ruleTable } from "@/lib/exchange/judge/rule-table";
import { answerDocuments } from "./json-documents";
import { endQuietlyWhenUnread } from "./json-lines";
import { runMain } from "./main";
import { Problem } from "./problem";

const HELP = `npm run --silent judge < evidence.json     judges one room, or a spare workstation, from its evidence

  One JSON document, or one on each line; the answers come in the same order. A document that cannot be judged is answered with
  what is wrong, {"error": {"line", "problems": [{"path", "value", "message"}]}}, and the command ends with 1.

  npm run --silent judge -- --why                 also what clears each reason, and the shortest way to ready
  npm run --silent judge -- --schema              the JSON Schema of the document
  npm run --silent judge -- --schema judgement    the JSON Schema of the answer; explained: of the answer with --why
  npm run --silent judge -- --rules               every rule and site setting as data

docs/judge/README.md explains document and answer. A planning aid: it never replaces a qualified person's check.`;

async function main(): Promise<void> {
  endQuietlyWhenUnread(process.stdout);
  const [option, ...more] = process.argv.slice(2);
  if (option === "--help") return void console.log(HELP);
  if (option === "--schema") return print(JSON_SCHEMAS[schemaName(more)]());
  if (option === "--rules" && more.length === 0) return print(ruleTable());
  const why = option === "--why" && more.length === 0;
  if (option !== undefined && !why) throw new Problem(`${[option, ...more].join(" ")} is not known here.\n\n${HELP}`);
  if (process.stdin.isTTY) throw new Problem(HELP);
  const { answered, refused } = await answerDocuments(process.stdin, process.stdout, (document) =>
    judgeDocument(document, { why }),
  );
  if (answered + refused === 0) throw new Problem(`There was no document to judge.\n\n${HELP}`);
  if (refused > 0) process.exitCode = 1;
}

function schemaName([name = "evidence", ...more]: readonly string[]): JsonSchemaName {
  if (Object.hasOwn(JSON_SCHEMAS, name) && more.length === 0) return name as JsonSchemaName;
  throw new Problem(
    `--schema ${[name, ...more].join(" ")} is not known: it is one of ${Object.keys(JSON_SCHEMAS).join(", ")}.`,
  );
}

const print = (what: object): void => console.log(JSON.stringify(what, null, 2));

runMain(main);
