import { randomBytes } from "node:crypto";
import { spawnSync } from "node:child_process";
import { startTemporaryCluster } from "@/lib/cli/embedded/temporary-cluster";
import { freePort } from "@/lib/cli/embedded/free-port";
import { root, stateFolder } from "@/lib/cli/bootstrap.mjs";
import { keepJobsDone } from "@/lib/cli/start/job-worker";
import { buildPages } from "@/lib/cli/start/web-build";
import { startWebServer, type WebServer } from "@/lib/cli/start/web-server";
import { appDatabaseUrl } from "@/lib/server/app-database-url";
import { migrate } from "@/lib/server/migrate";

type Environment = Record<string, string | undefined>;

/**
 * The tests' own days: a Wednesday morning on which the demo is set up, and the Thursday on which people come. The
 * season ahead crosses Europe's change of the clock on 28 March 2027.
 */
const DEMO_AT = "2027-03-10T08:00:00+01:00";
const PEOPLE_COME_AT = "2027-03-11T10:40:00+01:00";

/**
 * A database in a temporary folder, migrated and with the demo workshop in it, and the production build served on a
 * free port. The tests find both through LEHRBOOK_E2E_URL and LEHRBOOK_E2E_DATABASE_URL. Of the jobs
 * only seasons are planned, or time would be offered to people in the middle of other tests.
 */
export default async function globalSetup(): Promise<() => Promise<void>> {
  await buildPages(root, stateFolder);
  const cluster = await startTemporaryCluster();
  try {
    const authSecret = randomBytes(32).toString("hex");
    await migrate(cluster.url, { authSecret });
    const environment = {
      ...process.env, AUTH_SECRET: authSecret, NEXTAUTH_SECRET: authSecret, LEHRBOOK_DEMO: "1", LEHRBOOK_MAIL_PAGE: "1",
      APP_DATABASE_URL: appDatabaseUrl(cluster.url, authSecret),
    };
    setUpDemo({ ...environment, DATABASE_URL: cluster.url, LEHRBOOK_CLOCK_START: DEMO_AT });
    const { server, address } = await serve({ ...environment, LEHRBOOK_CLOCK_START: PEOPLE_COME_AT });
    // Seasons are planned; mail and offers stay as the tests find them.
    const endJobs = keepJobsDone({ root, environment: { ...environment, DATABASE_URL: cluster.url, LEHRBOOK_URL: address, LEHRBOOK_CLOCK_START: PEOPLE_COME_AT }, onLine: (line) => process.stderr.write(`${line}\n`), only: ["replan"] });
    process.env["LEHRBOOK_E2E_URL"] = address;
    process.env["LEHRBOOK_E2E_DATABASE_URL"] = cluster.url;
    // For programs that make a workshop by commands, or do the other jobs, as the server itself would.
    Object.assign(process.env, { LEHRBOOK_E2E_APP_DATABASE_URL: environment.APP_DATABASE_URL, LEHRBOOK_E2E_AUTH_SECRET: authSecret, LEHRBOOK_E2E_CLOCK_START: PEOPLE_COME_AT });
    return async () => {
      await endJobs();
      await server.stop();
      await cluster.stop();
    };
  } catch (error) {
    await cluster.stop();
    throw error;
  }
}

function setUpDemo(env: Environment): void {
  const made = spawnSync(process.execPath, ["--import", "tsx", "lib/cli/demo.ts"], { cwd: root, encoding: "utf8", env: { ...process.env, ...env } });
  if (made.status !== 0) throw new Error(`The demo workshop could not be set up:\n${made.stdout}${made.stderr}`);
}

/** Another process may take a port between our finding it free and using it, so try a few. */
async function serve(environment: Environment): Promise<{ server: WebServer; address: string }> {
  for (let attempt = 1; ; attempt += 1) {
    const port = await freePort();
    const address = `http://localhost:${port}`;
    const own = { ...environment, LEHRBOOK_URL: address, NEXTAUTH_URL: address, PORT: String(port) };
    try {
      const server = await startWebServer({ root, port, host: "127.0.0.1", environment: own, onLine: (line) => process.stderr.write(`${line}\n`) });
      return { server, address };
    } catch (error) {
      if (attempt === 5 || !(error instanceof Error && error.message === "EADDRINUSE")) throw error;
    }
  }
}
