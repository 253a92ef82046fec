import pg from "pg";
import { inject } from "vitest";
import { APP_ROLE, OWNER_ROLE } from "@/lib/cli/embedded/roles";
import { connectTo, EMPTY_TEMPLATE } from "./cluster-address";
import { seededTemplate } from "./seeded-template";

export interface TestDatabase {
  readonly name: string;
  /** The role the product runs as: row-level security holds. */
  readonly appUrl: string;
  /** The role that migrates. */
  readonly ownerUrl: string;
  drop(): Promise<void>;
}

export interface TestDatabaseOptions {
  /** Days of the invented hospital's history before `SEED_NOW`; none at all if not given. */
  readonly seededDays?: number;
}

let made = 0;

/** A migrated database of the test's own, copied from a template in some 20 ms. */
export async function createTestDatabase({ seededDays }: TestDatabaseOptions = {}): Promise<TestDatabase> {
  const template = seededDays === undefined ? EMPTY_TEMPLATE : await seededTemplate(inject("testCluster"), seededDays);
  return createFrom(template);
}

/** A database without a single table, to try migrations on. */
export function createBareDatabase(): Promise<TestDatabase> {
  return createFrom("template1");
}

async function createFrom(template: string): Promise<TestDatabase> {
  const cluster = inject("testCluster");
  made += 1;
  const name = `test_${process.pid}_${process.env.VITEST_POOL_ID ?? 0}_${made}_${Date.now()}`;
  await asSuperuser(cluster.superuserUrl, [
    `CREATE DATABASE ${name} OWNER ${OWNER_ROLE} TEMPLATE ${template} STRATEGY file_copy`,
    // A copy takes over everything except the rights on the database itself.
    `REVOKE ALL ON DATABASE ${name} FROM PUBLIC`,
    `GRANT CONNECT ON DATABASE ${name} TO ${APP_ROLE}`,
  ]);
  return {
    name,
    appUrl: connectTo(cluster.appUrl, name),
    ownerUrl: connectTo(cluster.ownerUrl, name),
    drop: () => asSuperuser(cluster.superuserUrl, [`DROP DATABASE IF EXISTS ${name} WITH (FORCE)`]),
  };
}

async function asSuperuser(url: string, statements: string[]): Promise<void> {
  const admin = new pg.Client({ connectionString: url });
  await admin.connect();
  try {
    for (const statement of statements) await admin.query(statement);
  } finally {
    await admin.end();
  }
}
