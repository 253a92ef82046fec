import pg from "pg";
import type { Passwords } from "./passwords";

export const OWNER_ROLE = "yokeboard_owner";
export const APP_ROLE = "yokeboard_app";
export const DATABASE = "yokeboard";

/** The owner migrates, the app runs; neither is a superuser, so row-level security holds for both. */
export async function ensureRolesAndDatabase(superuserUrl: string, passwords: Passwords): Promise<void> {
  const client = new pg.Client({ connectionString: superuserUrl });
  await client.connect();
  try {
    await ensureRole(client, OWNER_ROLE, passwords.owner);
    await ensureRole(client, APP_ROLE, passwords.app);
    const found = await client.query("SELECT 1 FROM pg_database WHERE datname = $1", [DATABASE]);
    if (found.rowCount === 0) await createDatabase(client);
  } finally {
    await client.end();
  }
}

/** Throws away what is in the database. */
export async function recreateDatabase(superuserUrl: string): Promise<void> {
  const client = new pg.Client({ connectionString: superuserUrl });
  await client.connect();
  try {
    await client.query(`DROP DATABASE IF EXISTS ${DATABASE} WITH (FORCE)`);
    await createDatabase(client);
  } finally {
    await client.end();
  }
}

async function createDatabase(client: pg.Client): Promise<void> {
  await client.query(`CREATE DATABASE ${DATABASE} OWNER ${OWNER_ROLE}`);
  await client.query(`REVOKE ALL ON DATABASE ${DATABASE} FROM PUBLIC`);
  await client.query(`GRANT CONNECT ON DATABASE ${DATABASE} TO ${APP_ROLE}`);
}

async function ensureRole(client: pg.Client, role: string, password: string): Promise<void> {
  const found = await client.query("SELECT 1 FROM pg_roles WHERE rolname = $1", [role]);
  const attributes = "LOGIN NOSUPERUSER NOCREATEDB NOCREATEROLE NOBYPASSRLS";
  const verb = found.rowCount === 0 ? "CREATE" : "ALTER";
  await client.query(`${verb} ROLE ${role} ${attributes} PASSWORD ${client.escapeLiteral(password)}`);
}
