import { createInterface } from "node:readline";
import { parseArgs } from "node:util";
import { found } from "@/lib/commands/found";
import { foundRequest } from "@/lib/schemas/set-up";
import { openDatabase } from "@/lib/storage/client";
import { migrate } from "@/lib/storage/migrate";
import { isFounded } from "@/lib/storage/sessions";
import { runMain } from "./main";
import { Problem } from "./problem";

const HELP = `npm run admin -- [options]     founds an organisation with its first facility and its first administrator

  DATABASE_OWNER_URL       postgresql://... as the role that owns the tables (the environment, not an option)

  --organisation "NAME"    the hospital or network
  --facility "NAME"        the department's facility
  --time-zone ZONE         such as America/Chicago or Europe/London
  --scheme US|ISO          whose words, connectors and limits
  --pressure-unit UNIT     psi, kPa or bar
  --name "NAME"            the administrator's own name
  --user-id ID             what they sign in with

The first password is read from YOKEBOARD_PASSWORD, or asked for.`;

const OPTIONS = ["organisation", "facility", "time-zone", "scheme", "pressure-unit", "name", "user-id"] as const;

async function main(): Promise<void> {
  const values = readArguments();
  if (values.help) {
    console.log(HELP);
    return;
  }
  const ownerUrl = process.env.DATABASE_OWNER_URL;
  if (!ownerUrl) throw new Problem(`DATABASE_OWNER_URL is not set.\n\n${HELP}`);
  const given = Object.fromEntries(OPTIONS.map((name) => [camel(name), values[name]]));
  const password = process.env.YOKEBOARD_PASSWORD ?? (await ask("First password (12 characters or more): "));
  const parsed = foundRequest.safeParse({ ...given, password });
  if (!parsed.success) {
    const lines = parsed.error.issues.map((issue) => `- --${kebab(String(issue.path[0]))} ${issue.message}`);
    throw new Problem(`These options must be mended first:\n${lines.join("\n")}\n\n${HELP}`);
  }
  await migrate(ownerUrl);
  const owner = openDatabase(ownerUrl);
  try {
    if (await isFounded(owner))
      throw new Problem(
        "This database has its organisation already. Its administrators add people and facilities under Set-up.",
      );
    await found(owner, { now: Date.now }, parsed.data);
    console.log(`${parsed.data.facility} is founded; ${parsed.data.userId} signs in as its administrator.`);
  } finally {
    await owner.close();
  }
}

function readArguments(): Readonly<Record<string, string | boolean | undefined>> {
  try {
    const named = Object.fromEntries(OPTIONS.map((name) => [name, { type: "string" as const }]));
    return parseArgs({ options: { ...named, help: { type: "boolean" as const } } }).values as Record<
      string,
      string | boolean | undefined
    >;
  } catch (error) {
    throw new Problem(`${(error as Error).message}\n\n${HELP}`);
  }
}

const camel = (name: string) => name.replace(/-(\w)/g, (_, letter: string) => letter.toUpperCase());
const kebab = (name: string) => name.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`);

/** Asks on the terminal without showing what is typed. */
function ask(question: string): Promise<string> {
  if (!process.stdin.isTTY)
    throw new Problem(`YOKEBOARD_PASSWORD is not set, and there is no terminal to ask on.\n\n${HELP}`);
  return new Promise((resolve) => {
    const terminal = createInterface({ input: process.stdin, output: process.stdout });
    terminal.question(question, (answer) => {
      terminal.close();
      process.stdout.write("\n");
      resolve(answer);
    });
    // After the question is printed, echo nothing of the answer.
    Object.assign(terminal, { _writeToOutput: () => {} });
  });
}

runMain(main);
