import { migrate } from "@/lib/storage/migrate";
import { portFrom, readArguments, serveArguments } from "./arguments";
import { ensureBuilt } from "./ensure-built";
import { runMain } from "./main";
import { Problem } from "./problem";
import { openServer } from "./server";
import { stopOnSignal } from "./until-stopped";

const HELP = `npm start -- [options]        serves a department from a PostgreSQL server

  DATABASE_URL          postgresql://... as the application's role
  DATABASE_OWNER_URL    postgresql://... as the role that owns the tables and migrates
  NEXTAUTH_SECRET       32 characters or more, kept secret; made with: openssl rand -base64 32
  YOKEBOARD_PUBLIC_URL  where people find it, such as https://yokeboard.example.org
  YOKEBOARD_HOSTS       further host names it may be asked by, with commas between

  --port N        the port to serve on (PORT, else 4400)
  --host ADDRESS  the address to listen on (127.0.0.1; 0.0.0.0 for all)
  --cert FILE     speak https with this certificate ...
  --key FILE      ... and its key`;

const tell = (line: string) => console.log(line);

async function start(): Promise<void> {
  const given = readArguments({}, HELP);
  const settings = readSettings(process.env);
  const port = process.env.PORT ? portFrom(process.env.PORT, "PORT") : 4400;
  const serve = serveArguments(given, { port, host: "127.0.0.1" });
  const server = await openServer({ ...serve, publicUrl: settings.publicUrl, hosts: settings.hosts });
  const signalled = stopOnSignal(async () => {
    tell("\nStopping ...");
    await server.stop();
  });
  try {
    const { applied } = await migrate(settings.ownerUrl);
    if (applied.length > 0) tell(`Migrated the database: ${applied.join(", ")}.`);
    await ensureBuilt(tell);
    Object.assign(process.env, { NODE_ENV: "production" });
    await server.serve();
    tell(`Yokeboard is ready: ${server.url}`);
  } catch (error) {
    if (signalled()) return;
    await server.stop();
    throw error;
  }
}

interface Settings {
  readonly ownerUrl: string;
  readonly publicUrl: string;
  readonly hosts: readonly string[];
}

/** Says everything that is missing at once, so that nobody has to start five times. */
function readSettings(env: NodeJS.ProcessEnv): Settings {
  const { DATABASE_URL, DATABASE_OWNER_URL, NEXTAUTH_SECRET, YOKEBOARD_PUBLIC_URL, YOKEBOARD_HOSTS = "" } = env;
  const problems = [
    ...databaseProblems("DATABASE_URL", DATABASE_URL),
    ...databaseProblems("DATABASE_OWNER_URL", DATABASE_OWNER_URL),
    ...secretProblems(NEXTAUTH_SECRET),
    ...publicUrlProblems(YOKEBOARD_PUBLIC_URL),
  ];
  if (problems.length > 0)
    throw new Problem(`These settings must be mended first:\n- ${problems.join("\n- ")}\n\n${HELP}`);
  return {
    ownerUrl: DATABASE_OWNER_URL ?? "",
    publicUrl: new URL(YOKEBOARD_PUBLIC_URL ?? "").origin,
    hosts: YOKEBOARD_HOSTS.split(",").flatMap((name) => name.trim() || []),
  };
}

function databaseProblems(name: string, value: string | undefined): string[] {
  if (!value) return [`${name} is not set`];
  const ok = URL.canParse(value) && /^postgres(ql)?:$/.test(new URL(value).protocol);
  return ok ? [] : [`${name} does not begin with postgresql://`];
}

function secretProblems(value: string | undefined): string[] {
  if (!value) return ["NEXTAUTH_SECRET is not set"];
  return value.length >= 32 ? [] : [`NEXTAUTH_SECRET has ${value.length} characters, and at least 32 are needed`];
}

function publicUrlProblems(value: string | undefined): string[] {
  if (!value) return ["YOKEBOARD_PUBLIC_URL is not set"];
  const ok = URL.canParse(value) && /^https?:$/.test(new URL(value).protocol);
  return ok ? [] : [`YOKEBOARD_PUBLIC_URL ${value} is not an address such as https://yokeboard.example.org`];
}

runMain(start);
