import path from "node:path";
import { migrate } from "@/lib/server/migrate";
import { appDatabaseUrl } from "@/lib/server/app-database-url";
import { root, runStep, say, stateFolder, Trouble } from "../bootstrap.mjs";
import { portTaken } from "../wished-port.mjs";
import { checkOwnDatabase, startEmbeddedDatabase } from "./database";
import { keepJobsDone } from "./job-worker";
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
  const database = await openDatabase(opening);
  say("Bringing the database up to date …");
  await migrate(database.ownerUrl, { authSecret: database.authSecret });
  const signIns = database.demo ? await setUpDemo(environmentFor(opening, database, database.ownerUrl)) : "";
  const ownerUrl = await database.finish();
  if (!opening.dev) await buildPages(root, stateFolder);
  const environment = environmentFor(opening, database, ownerUrl);
  await serve(opening, withoutOwner(environment));
  opening.onStop(keepJobsDone({ root, environment: { ...environment, DATABASE_POOL: "3" }, onLine: say }));
  say(`\nLehrbook is ready at ${environment["LEHRBOOK_URL"]}`);
  if (signIns !== "") say(signIns);
  say("Ctrl-C stops it.");
}

/** What the demo and the web server are told. */
function environmentFor({ environment, port, dev }: Opening, { authSecret, demo, embedded }: OpenDatabase, ownerUrl: string): Environment {
  const address = environment["LEHRBOOK_URL"] ?? `http://localhost:${port}`;
  return {
    ...environment,
    DATABASE_URL: ownerUrl,
    APP_DATABASE_URL: environment["APP_DATABASE_URL"] ?? appDatabaseUrl(ownerUrl, authSecret),
    AUTH_SECRET: authSecret, NEXTAUTH_SECRET: authSecret,
    LEHRBOOK_URL: address, NEXTAUTH_URL: address, LEHRBOOK_DEMO: demo ? "1" : "0", PORT: String(port),
    LEHRBOOK_MAIL_FOLDER: environment["LEHRBOOK_MAIL_FOLDER"] ?? path.join(stateFolder, "mail"),
    LEHRBOOK_MAIL_PAGE: dev || embedded ? "1" : "0",
  };
}

type OpenDatabase = {
  readonly ownerUrl: string;
  readonly authSecret: string;
  readonly demo: boolean;
  /** Ours, in this folder. */
  readonly embedded: boolean;
  /** Gives the owner's address to use once the tables and the demo are in. */
  finish(): Promise<string>;
};

async function openDatabase({ environment, onStop, onLost }: Opening): Promise<OpenDatabase> {
  const given = environment["AUTH_SECRET"];
  if (given !== undefined && given.length < 32) throw new Trouble(`AUTH_SECRET has ${given.length} characters; it needs 32 or more.`);
  const wish = environment["LEHRBOOK_DEMO"];
  const own = environment["DATABASE_URL"];
  if (own !== undefined && own !== "") {
    await checkOwnDatabase(own);
    const authSecret = given ?? (await readOrMakeSecrets(stateFolder)).authSecret;
    return { ownerUrl: own, authSecret, demo: wish === "1", embedded: false, finish: async () => own };
  }
  const secrets = await readOrMakeSecrets(stateFolder);
  say("Starting the database …");
  const { cluster, url, finish } = await startEmbeddedDatabase(root, stateFolder, secrets.databasePassword);
  onStop(() => cluster.stop());
  void cluster.ended.then(() => onLost(`PostgreSQL ended by itself; its last words are in ${path.join(stateFolder, "logs", "postgres.log")}.`));
  return { ownerUrl: url, authSecret: given ?? secrets.authSecret, demo: wish !== "0", embedded: true, finish };
}

/** The demo's own program decides whether the database is empty; it prints the sign-ins. */
async function setUpDemo(env: Environment): Promise<string> {
  const demo = path.join("lib", "cli", "demo.ts");
  const args = ["--no-warnings", "--import", "tsx", demo];
  const words = await runStep("Setting up the demo workshop", "demo", process.execPath, args, { env });
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
