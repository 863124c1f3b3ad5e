import { readdir, readFile } from "node:fs/promises";
import path from "node:path";
import type { MigrationDirectory, MigrationList } from "@prisma/schema-engine-wasm/schema_engine_bg";
import { Logger, runMigrations } from "graphile-worker";
import pg from "pg";
import { ensureAppLogin } from "./app-login";
import { JOBS_SCHEMA } from "./jobs/schema";
import { type SchemaEngine, withSchemaEngine } from "./schema-engine";

export { appDatabaseUrl } from "@/lib/server/app-database-url";

/** Any number will do, as long as every Lehrbook uses the same one. */
const MIGRATION_LOCK = 7_236_112_004;

/** What goes wrong is thrown; the rest need not be said. */
const SILENT = new Logger(() => () => undefined);

export type MigrateOptions = {
  /** When given, the application's role may sign in afterwards with the password derived from it. */
  readonly authSecret?: string;
  /** Where the migrations are; the repository's own by default. */
  readonly migrationsFolder?: string;
};

/**
 * Brings a database up to date and lets the application sign in to it. Running it again changes nothing; several at
 * once wait for each other. A migration is applied whole or not at all.
 * @param databaseUrl the owner's address of the database, which must exist
 * @returns the names of the migrations just applied, in order
 * @throws Error naming the migration that Postgres refused, and why
 */
export async function migrate(databaseUrl: string, options: MigrateOptions = {}): Promise<string[]> {
  const folder = options.migrationsFolder ?? path.join(process.cwd(), "prisma", "migrations");
  const migrationsList = await readMigrations(folder);
  const applied = await holdingLock(databaseUrl, async () => {
    const names = await withSchemaEngine(databaseUrl, async (engine) => {
      const filters = { externalTables: [], externalEnums: [] };
      await forgetUnfinished(engine, migrationsList);
      const output = await engine.applyMigrations({ migrationsList, filters });
      return output.appliedMigrationNames;
    });
    // After ours: Prisma begins a history only in a database where it finds nothing.
    await runMigrations({ connectionString: databaseUrl, schema: JOBS_SCHEMA, logger: SILENT, maxPoolSize: 2 });
    return names;
  });
  if (options.authSecret !== undefined) await ensureAppLogin(databaseUrl, options.authSecret);
  return applied;
}

/**
 * A migration that failed, or whose process was killed, stands in the history as begun and would block all later ones.
 * Each runs as one transaction, so nothing of it remains and it may be tried again.
 */
async function forgetUnfinished(engine: SchemaEngine, migrationsList: MigrationList): Promise<void> {
  const filters = { externalTables: [], externalEnums: [] };
  const found = await engine.diagnoseMigrationHistory({ migrationsList, optInToShadowDatabase: false, filters });
  for (const migrationName of found.failedMigrationNames) await engine.markMigrationRolledBack({ migrationName });
}

async function holdingLock<T>(databaseUrl: string, work: () => Promise<T>): Promise<T> {
  const client = new pg.Client({ connectionString: databaseUrl, connectionTimeoutMillis: 10_000 });
  await client.connect();
  try {
    await client.query("SELECT pg_advisory_lock($1)", [MIGRATION_LOCK]);
    return await work();
  } finally {
    await client.end();
  }
}

async function readMigrations(folder: string): Promise<MigrationList> {
  const entries = await readdir(folder, { withFileTypes: true });
  const names = entries.filter((entry) => entry.isDirectory()).map((entry) => entry.name).sort();
  const migrationDirectories = await Promise.all(names.map((name) => readMigration(folder, name)));
  const lockfile = await readFile(path.join(folder, "migration_lock.toml"), "utf8").catch(() => null);
  return {
    baseDir: folder,
    lockfile: { path: "migration_lock.toml", content: lockfile },
    shadowDbInitScript: "",
    migrationDirectories,
  };
}

async function readMigration(folder: string, name: string): Promise<MigrationDirectory> {
  const value = await readFile(path.join(folder, name, "migration.sql"), "utf8");
  return { path: name, migrationFile: { path: "migration.sql", content: { tag: "ok", value } } };
}
