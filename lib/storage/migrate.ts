import { readdirSync, readFileSync } from "node:fs";
import { createRequire } from "node:module";
import path from "node:path";
import { PrismaPg } from "@prisma/adapter-pg";
import { bindMigrationAwareSqlAdapterFactory } from "@prisma/driver-adapter-utils";
import type { MigrationList } from "@prisma/schema-engine-wasm";
import pg from "pg";

/** The schema, its models and the folder of migrations. */
const SCHEMA = path.join(process.cwd(), "prisma");

interface MigrateOptions {
  readonly schema?: string;
  /** No others than these: the tables as they were at an earlier version. */
  readonly only?: readonly string[];
}

/**
 * Brings a database up to the migrations in prisma/migrations, as its owner.
 *
 * The engine is Prisma's own, as WebAssembly, because its native form is downloaded at first use and
 * a hospital's server may reach no such place. It writes the usual `_prisma_migrations` table, so
 * `prisma migrate deploy` goes on from where this ended and the other way round.
 */
export async function migrate(
  ownerUrl: string,
  { schema = SCHEMA, only }: MigrateOptions = {},
): Promise<{ applied: string[] }> {
  // Ours to end: the engine leaves its connection open, and with it the lock that keeps two migrations apart.
  const pool = new pg.Pool({ connectionString: ownerUrl, max: 1 });
  const adapter = new WholeScripts(pool);
  try {
    return { applied: await applyAll(adapter, schema, only) };
  } catch (error) {
    throw new Error(`The database could not be migrated: ${adapter.refusal ?? reasonOf(error)}`, { cause: error });
  } finally {
    await pool.end();
  }
}

async function applyAll(adapter: WholeScripts, schema: string, only?: readonly string[]): Promise<string[]> {
  const { SchemaEngine } = await loadEngine();
  const bound = bindMigrationAwareSqlAdapterFactory(adapter);
  const engine = await SchemaEngine.new({ datamodels: readDatamodels(schema) }, () => undefined, bound);
  const migrationsList = readMigrations(path.join(schema, "migrations"), only);
  const filters = { externalTables: [], externalEnums: [] };
  try {
    return (await engine.applyMigrations({ migrationsList, filters })).appliedMigrationNames;
  } catch (error) {
    if (adapter.refusal !== undefined) {
      // PostgreSQL has undone the whole script; saying so lets the mended one run at the next start.
      const seen = await engine.diagnoseMigrationHistory({ migrationsList, filters, optInToShadowDatabase: false });
      for (const migrationName of seen.failedMigrationNames) await engine.markMigrationRolledBack({ migrationName });
    }
    throw error;
  }
}

/**
 * The adapter cuts a script at every semicolon, also inside a function's body. Sent whole, PostgreSQL
 * reads it itself and runs it as one transaction, so a migration that fails leaves nothing behind.
 */
class WholeScripts extends PrismaPg {
  /** What the database said; the engine passes on no more than a number for it. */
  refusal: string | undefined;

  override async connect() {
    const adapter = await super.connect();
    adapter.executeScript = async (script) => {
      try {
        await adapter.underlyingDriver().query(script);
      } catch (error) {
        this.refusal = describe(error, script);
        throw error;
      }
    };
    return adapter;
  }
}

/** With the line of the script, which PostgreSQL gives as a count of characters from 1. */
function describe(error: unknown, script: string): string {
  if (!(error instanceof pg.DatabaseError)) return reasonOf(error);
  const at = Number(error.position);
  const line = Number.isInteger(at) && at > 0 ? script.slice(0, at - 1).split("\n").length : undefined;
  return [error.message, line && `line ${line}`, error.detail, error.where].filter(Boolean).join("; ");
}

type EngineModule = typeof import("@prisma/schema-engine-wasm/schema_engine_bg");

let loading: Promise<EngineModule> | undefined;

/** The package expects a bundler to link the WebAssembly; here it is linked by hand, once a process. */
function loadEngine(): Promise<EngineModule> {
  loading ??= (async () => {
    const engine = await import("@prisma/schema-engine-wasm/schema_engine_bg");
    const require = createRequire(path.join(process.cwd(), "package.json"));
    const home = path.dirname(require.resolve("@prisma/schema-engine-wasm/schema_engine_bg"));
    const bytes = readFileSync(path.join(home, "schema_engine_bg.wasm"));
    const { instance } = await WebAssembly.instantiate(bytes, {
      "./schema_engine_bg.js": engine as unknown as WebAssembly.ModuleImports,
    });
    const linkable = engine as EngineModule & { __wbg_set_wasm(exports: WebAssembly.Exports): void };
    linkable.__wbg_set_wasm(instance.exports);
    (instance.exports as { __wbindgen_start(): void }).__wbindgen_start();
    return engine;
  })();
  return loading;
}

/** In the order in which they are made. */
export function migrationNames(schema: string = SCHEMA): string[] {
  return readdirSync(path.join(schema, "migrations"), { withFileTypes: true })
    .filter((entry) => entry.isDirectory())
    .map((entry) => entry.name)
    .sort();
}

function readMigrations(folder: string, only?: readonly string[]): MigrationList {
  const names = migrationNames(path.dirname(folder)).filter((name) => only?.includes(name) ?? true);
  return {
    baseDir: folder,
    lockfile: {
      path: "./migration_lock.toml",
      content: readFileSync(path.join(folder, "migration_lock.toml"), "utf8"),
    },
    shadowDbInitScript: "",
    migrationDirectories: names.map((name) => ({
      path: name,
      migrationFile: {
        path: "migration.sql",
        content: { tag: "ok", value: readFileSync(path.join(folder, name, "migration.sql"), "utf8") },
      },
    })),
  };
}

function readDatamodels(schema: string): [string, string][] {
  return readdirSync(schema, { recursive: true, encoding: "utf8" })
    .filter((file) => file.endsWith(".prisma"))
    .sort()
    .map((file) => [path.join(schema, file), readFileSync(path.join(schema, file), "utf8")]);
}

function reasonOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}
