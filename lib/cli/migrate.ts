import { migrate } from "@/lib/server/migrate";
import { checkOwnDatabase } from "./start/database";

/** `npx tsx lib/cli/migrate.ts`: brings the database of DATABASE_URL up to date and lets the application sign in. */
async function main(): Promise<void> {
  const { DATABASE_URL: databaseUrl, AUTH_SECRET: authSecret, APP_DATABASE_URL: appUrl } = process.env;
  if (!databaseUrl) throw new Error("DATABASE_URL must be set: the database, with its owner's name and password.");
  if (!appUrl && (authSecret ?? "").length < 32) {
    throw new Error("AUTH_SECRET must be set to 32 characters or more: the application's database password follows from it.");
  }
  await checkOwnDatabase(databaseUrl);
  const applied = await migrate(databaseUrl, appUrl || authSecret === undefined ? {} : { authSecret });
  process.stdout.write(applied.length === 0 ? "The database is up to date.\n" : applied.map((name) => `applied ${name}\n`).join(""));
}

main().catch((error: unknown) => {
  process.stderr.write(`${error instanceof Error ? error.message : String(error)}\n`);
  process.exitCode = 1;
});
