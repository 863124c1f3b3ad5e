import { existsSync } from "node:fs";
import { chmod, chown, mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import path from "node:path";
import pg from "pg";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { canRun, claimFolder, postgresAccount } from "@/lib/cli/embedded/account";
import { copyPostgres, packagedPostgres, programPath } from "@/lib/cli/embedded/binaries";
import { type ClusterPlace, startCluster } from "@/lib/cli/embedded/cluster";
import { isFree } from "@/lib/cli/embedded/free-port";

let folder = "";
let place: ClusterPlace;

async function ask(url: string, text: string): Promise<unknown[]> {
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  try {
    return (await client.query(text)).rows;
  } finally {
    await client.end();
  }
}

beforeAll(async () => {
  const account = postgresAccount();
  folder = await mkdtemp(path.join(tmpdir(), "embedded-"));
  await chmod(folder, 0o755);
  await claimFolder(account, folder);
  const packaged = await packagedPostgres();
  const home = canRun(account, programPath(packaged, "postgres")) ? packaged : await copyPostgres(packaged, path.join(folder, "home"));
  place = { home, account, dataFolder: path.join(folder, "data"), logFile: path.join(folder, "log"), password: "a password of the tests" };
});

afterAll(() => rm(folder, { recursive: true, force: true }));

describe("the PostgreSQL that comes with the packages", () => {
  it("keeps its data from one start to the next, and its port when that is free", async () => {
    const first = await startCluster(place);
    await ask(first.url, "CREATE TABLE kept AS SELECT 42 AS answer");
    await first.stop();
    expect(await isFree(first.port)).toBe(true);
    const second = await startCluster(place, { port: first.port });
    expect(second.port).toBe(first.port);
    expect(await ask(second.url, "SELECT answer FROM kept")).toEqual([{ answer: 42 }]);
    await second.stop();
  });

  it("is version 18 with what exclusion constraints need, works in UTF-8 and UTC, and listens on this machine only", async () => {
    const cluster = await startCluster(place);
    const [row] = await ask(cluster.url, `SELECT current_setting('server_version_num')::int / 10000 AS major, current_setting('server_encoding') AS encoding,
      current_setting('TimeZone') AS zone, current_setting('listen_addresses') AS host,
      (SELECT count(*)::int FROM pg_available_extensions WHERE name = 'btree_gist') AS gist`);
    await cluster.stop();
    expect(row).toEqual({ major: 18, encoding: "UTF8", zone: "UTC", host: "127.0.0.1", gist: 1 });
  });

  it("stops the server that a killed start left running, and goes on with its data", async () => {
    const left = await startCluster(place);
    const next = await startCluster(place);
    await left.ended;
    expect(await ask(next.url, "SELECT answer FROM kept")).toEqual([{ answer: 42 }]);
    await next.stop();
  });

  it("starts although a pid file of before names a process that is something else now", async () => {
    const pidFile = path.join(place.dataFolder, "postmaster.pid");
    await writeFile(pidFile, `${process.pid}\n${place.dataFolder}\n1\n5432\n\n127.0.0.1\n`);
    if (place.account) await chown(pidFile, place.account.uid, place.account.gid);
    const cluster = await startCluster(place);
    await cluster.stop();
    expect(existsSync(pidFile)).toBe(false);
  });

  it("says in one sentence that the password is another", async () => {
    await expect(startCluster({ ...place, password: "not that one" })).rejects.toThrow("made with another password than the one in secrets.json");
  });

  it("says in one sentence that the data folder is damaged, and runs again once that is put right", async () => {
    const control = path.join(place.dataFolder, "global", "pg_control");
    const whole = await readFile(control);
    await writeFile(control, whole.subarray(0, 100));
    await expect(startCluster(place)).rejects.toThrow(/^The data folder .* may be damaged \(PostgreSQL says: .*\): restore a backup/);
    await writeFile(control, whole);
    const cluster = await startCluster(place);
    await cluster.stop();
  });
});
