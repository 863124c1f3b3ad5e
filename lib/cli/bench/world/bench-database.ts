import pg from "pg";
import { startTemporaryCluster } from "@/lib/cli/embedded/temporary-cluster";
import { appDatabaseUrl } from "@/lib/server/app-database-url";
import { migrate } from "@/lib/server/migrate";

export type BenchDatabase = { readonly owner: pg.Client; readonly ownerUrl: string; readonly appUrl: string; readonly environment: Readonly<Record<string, string>>; stop(): Promise<void> };

const SECRET = "only for measuring, never for a workshop";

/** A PostgreSQL of its own, migrated and empty; the environment is set for modules of the server that are imported after it. */
export async function benchDatabase(settings?: Readonly<Record<string, string>>): Promise<BenchDatabase> {
  const cluster = await startTemporaryCluster(settings);
  const ownerUrl = cluster.url;
  await migrate(ownerUrl, { authSecret: SECRET });
  const appUrl = appDatabaseUrl(ownerUrl, SECRET);
  const environment = { DATABASE_URL: ownerUrl, APP_DATABASE_URL: appUrl, AUTH_SECRET: SECRET, LEHRBOOK_URL: "http://localhost:3000", LEHRBOOK_API_PER_MINUTE: "1000000" };
  Object.assign(process.env, environment);
  const owner = new pg.Client({ connectionString: ownerUrl });
  await owner.connect();
  return { owner, ownerUrl, appUrl, environment, stop: async () => { await owner.end(); await cluster.stop(); } };
}
