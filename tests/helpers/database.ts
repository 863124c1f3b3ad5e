import { randomBytes } from "node:crypto";
import pg from "pg";
import { inject } from "vitest";
import { appDatabaseUrl } from "@/lib/server/app-database-url";
import { TEST_AUTH_SECRET } from "./test-secret";

export type TestDatabase = {
  /** Owns the tables; row-level security does not bind it. */
  readonly ownerUrl: string;
  /** What the application connects with. */
  readonly appUrl: string;
  drop(): Promise<void>;
};

/** A migrated, empty database of the test file's own, copied from the template in a moment. Drop it in `afterAll`. */
export async function freshDatabase(): Promise<TestDatabase> {
  const { adminUrl, template } = inject("postgres");
  const name = `lehrbook_${randomBytes(6).toString("hex")}`;
  await onServer(adminUrl, `CREATE DATABASE ${name} TEMPLATE ${template}`);
  const url = new URL(adminUrl);
  url.pathname = `/${name}`;
  return {
    ownerUrl: url.toString(),
    appUrl: appDatabaseUrl(url.toString(), TEST_AUTH_SECRET),
    drop: () => onServer(adminUrl, `DROP DATABASE IF EXISTS ${name} WITH (FORCE)`),
  };
}

/**
 * A fresh database, with the environment set for modules that read it when imported. Call it before importing
 * anything of lib/server, for instance `const db = await useFreshDatabase(); const { ... } = await import("@/lib/server/...")`.
 */
export async function useFreshDatabase(): Promise<TestDatabase> {
  const database = await freshDatabase();
  process.env["DATABASE_URL"] = database.ownerUrl;
  process.env["APP_DATABASE_URL"] = database.appUrl;
  process.env["AUTH_SECRET"] = TEST_AUTH_SECRET;
  process.env["LEHRBOOK_URL"] = "http://localhost:3000";
  return database;
}

async function onServer(url: string, statement: string): Promise<void> {
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  try {
    await client.query(statement);
  } finally {
    await client.end();
  }
}
