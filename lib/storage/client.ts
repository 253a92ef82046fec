import { PrismaPg } from "@prisma/adapter-pg";
import { Prisma, PrismaClient } from "@/lib/storage/generated/client";

/** A transaction of one scope. Storage functions take this and nothing else; the client itself stays in this file. */
export type Tx = Prisma.TransactionClient;

/** A piece of a statement, to be put into several: values in it stay parameters. */
export const sql = Prisma.sql;
export type Sql = Prisma.Sql;

/** Whose rows a transaction may see: row-level security compares both. */
export interface Scope {
  readonly organisationId: string;
  readonly facilityId: string;
}

export interface Database {
  /** Runs `work` in one transaction that sees the scope's rows alone. */
  inScope<Value>(scope: Scope, work: (tx: Tx) => Promise<Value>): Promise<Value>;
  /** Runs `work` in a transaction without a scope: only the listed functions answer there, until begin_command sets one. */
  withoutScope<Value>(work: (tx: Tx) => Promise<Value>): Promise<Value>;
  close(): Promise<void>;
}

const TRANSACTION = { maxWait: 10_000, timeout: 60_000 } as const;
/** Small on purpose: the work is short, and PostgreSQL serves few busy connections better than many. */
const POOL_SIZE = 10;

/** A statement's name within its connection, by its text. Only texts that come again are worth a plan that is kept. */
const MOST_NAMED = 500;
const names = new Map<string, string>();

/** Named, a statement is planned a few times and not at every call: for the widest ones planning costs more than running. */
function nameOf({ sql }: { readonly sql: string }): string {
  const known = names.get(sql);
  if (known) return known;
  if (names.size >= MOST_NAMED) return "";
  const name = `s${names.size}`;
  names.set(sql, name);
  return name;
}

export function openDatabase(url: string): Database {
  const prisma = new PrismaClient({
    adapter: new PrismaPg(
      { connectionString: url, max: POOL_SIZE, options: "-c timezone=UTC" },
      { statementNameGenerator: nameOf },
    ),
  });
  return {
    inScope: (scope, work) =>
      prisma.$transaction(async (tx) => {
        await tx.$queryRaw`SELECT set_config('app.organisation', ${scope.organisationId}, true), set_config('app.facility', ${scope.facilityId}, true)`;
        return work(tx);
      }, TRANSACTION),
    withoutScope: (work) => prisma.$transaction(work, TRANSACTION),
    close: () => prisma.$disconnect(),
  };
}

const shared = globalThis as { __yokeboardDatabase?: Database };

/** The application's database. On globalThis, because a page and a route may see two instances of one module. */
export function appDatabase(): Database {
  shared.__yokeboardDatabase ??= openDatabase(listenerConnectionString());
  return shared.__yokeboardDatabase;
}

/** The application role's connection string, also for the one connection that listens. */
export function listenerConnectionString(): string {
  const url = process.env.DATABASE_URL;
  if (!url) throw new Error("DATABASE_URL is not set: it must name the PostgreSQL database and the application's role");
  return url;
}

/** Is this the kind of error that a second try under fresh locks will mend? Serialization failure or deadlock. */
export function isWorthRetrying(error: unknown): boolean {
  if (error instanceof Prisma.PrismaClientKnownRequestError && error.code === "P2034") return true;
  const text =
    error instanceof Error ? `${error.message}${JSON.stringify((error as { meta?: unknown }).meta ?? "")}` : "";
  return /\b(40001|40P01)\b|TransactionWriteConflict/.test(text);
}
