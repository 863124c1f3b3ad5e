import pg from "pg";
import type { TestProject } from "vitest/node";
import { startTemporaryCluster } from "@/lib/cli/embedded/temporary-cluster";
import { migrate } from "@/lib/server/migrate";
import { TEST_AUTH_SECRET } from "./test-secret";

declare module "vitest" {
  // Vitest reads what is provided from this interface, so it cannot be a type.
  // eslint-disable-next-line @typescript-eslint/consistent-type-definitions
  interface ProvidedContext {
    postgres: { adminUrl: string; template: string };
  }
}

/**
 * One real PostgreSQL for the whole run (TEST_DATABASE_URL when set: its user must be allowed to create databases and
 * roles) with one migrated template, from which every test file copies its own database.
 */
export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  const given = process.env["TEST_DATABASE_URL"];
  const cluster = given === undefined ? await startTemporaryCluster() : undefined;
  const adminUrl = cluster?.url ?? given ?? "";
  const template = `lehrbook_template_${process.pid}`;
  try {
    await run(adminUrl, `CREATE DATABASE ${template}`);
    const url = new URL(adminUrl);
    url.pathname = `/${template}`;
    await migrate(url.toString(), { authSecret: TEST_AUTH_SECRET });
  } catch (error) {
    await cluster?.stop();
    throw error;
  }
  project.provide("postgres", { adminUrl, template });
  return async () => {
    if (cluster) await cluster.stop();
    else await run(adminUrl, `DROP DATABASE IF EXISTS ${template} WITH (FORCE)`);
  };
}

async function run(url: string, statement: string): Promise<void> {
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  try {
    await client.query(statement);
  } finally {
    await client.end();
  }
}
