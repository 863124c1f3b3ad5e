import path from "node:path";
import { migrate } from "@/lib/server/migrate";
import { appDatabaseUrl } from "@/lib/server/app-database-url";
import { root, runStep, say, stateFolder, Trouble } from "../bootstrap.mjs";
import { portTaken } from "../wished-port.mjs";
import { checkOwnDatabase, startEmbeddedDatabase } from "./database";
import { readOrMakeSecrets } from "./secrets";
import { buildPages } from "./web-build";
import { startWebServer } from "./web-server";

type Environment = Readonly<Record<string, string | undefined>>;

export type Opening = {
  readonly port: number;
  readonly host: string;
  readonly dev: boolean;
  readonly environment: Environment;
  /** Called with what has to be closed when stopping; closed in the opposite order. */
  readonly onStop: (close: () => Promise<void>) => void;
  /** Called when something that must run has ended by itself. */
  readonly onLost: (sentence: string) => void;
};

/** Everything after the packages are there: database, migrations, demo, pages, web server. */
export async function openWorkshop(opening: Opening): Promise<void> {
  const { ownerUrl, authSecret, embedded } = await openDatabase(opening);
  say("Bringing the database up to date …");
  await migrate(ownerUrl, { authSecret });
  const address = opening.environment["LEHRBOOK_URL"] ?? `http://localhost:${opening.port}`;
  const demo = opening.environment["LEHRBOOK_DEMO"] ?? (embedded ? "1" : "0");
  const environment = {
    ...opening.environment,
    APP_DATABASE_URL: opening.environment["APP_DATABASE_URL"] ?? appDatabaseUrl(ownerUrl, authSecret),
    AUTH_SECRET: authSecret, NEXTAUTH_SECRET: authSecret,
    LEHRBOOK_URL: address, NEXTAUTH_URL: address, LEHRBOOK_DEMO: demo, PORT: String(opening.port),
  };
  const signIns = demo === "1" ? await setUpDemo({ ...environment, DATABASE_URL: ownerUrl }) : "";
  if (!opening.dev) await buildPages(root, stateFolder);
  await serve(opening, withoutOwner(environment));
  say(`\nLehrbook is ready at ${address}`);
  if (signIns !== "") say(signIns);
  say("Ctrl-C stops it.");
}

type OpenDatabase = { readonly ownerUrl: string; readonly authSecret: string; readonly embedded: boolean };

async function openDatabase({ environment, onStop, onLost }: Opening): Promise<OpenDatabase> {
  const given = environment["AUTH_SECRET"];
  if (given !== undefined && given.length < 32) throw new Trouble(`AUTH_SECRET has ${given.length} characters; it needs 32 or more.`);
  const own = environment["DATABASE_URL"];
  if (own !== undefined && own !== "") {
    await checkOwnDatabase(own);
    return { ownerUrl: own, authSecret: given ?? (await readOrMakeSecrets(stateFolder)).authSecret, embedded: false };
  }
  const secrets = await readOrMakeSecrets(stateFolder);
  say("Starting the database …");
  const { cluster, url } = await startEmbeddedDatabase(root, stateFolder, secrets.databasePassword);
  onStop(() => cluster.stop());
  void cluster.ended.then(() => onLost(`PostgreSQL ended by itself; its last words are in ${path.join(stateFolder, "logs", "postgres.log")}.`));
  return { ownerUrl: url, authSecret: given ?? secrets.authSecret, embedded: true };
}

/** The demo's own program decides whether the database is empty; it prints the sign-ins. */
async function setUpDemo(env: Environment): Promise<string> {
  const demo = path.join("lib", "cli", "demo.ts");
  const words = await runStep("Setting up the demo workshop", "demo", process.execPath, ["--import", "tsx", demo], { env });
  return words.trim();
}

/** The web server signs in as the application's role only: it never learns the owner's address. */
function withoutOwner(environment: Environment): Environment {
  return Object.fromEntries(Object.entries(environment).filter(([name]) => name !== "DATABASE_URL"));
}

async function serve({ port, host, dev, onStop, onLost }: Opening, environment: Environment): Promise<void> {
  try {
    const server = await startWebServer({ root, port, host, dev, environment, onLine: say, onLaunch: onStop });
    void server.ended.then(() => onLost("The web server ended by itself."));
  } catch (error) {
    throw error instanceof Error && error.message === "EADDRINUSE" ? portTaken(port) : error;
  }
}
