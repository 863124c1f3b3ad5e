import { spawnSync } from "node:child_process";
import pg from "pg";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { freshDatabase, type TestDatabase } from "@/tests/helpers/database";
import { TEST_AUTH_SECRET } from "@/tests/helpers/test-secret";

let database: TestDatabase;
let owner: pg.Client;

beforeAll(async () => {
  database = await freshDatabase();
  owner = new pg.Client({ connectionString: database.ownerUrl });
  await owner.connect();
});
afterAll(async () => {
  await owner.end();
  await database.drop();
});

function demo(clockStart: string) {
  return spawnSync(process.execPath, ["--import", "tsx", "lib/cli/demo.ts"], {
    encoding: "utf8",
    env: { ...process.env, DATABASE_URL: database.ownerUrl, APP_DATABASE_URL: database.appUrl, AUTH_SECRET: TEST_AUTH_SECRET, LEHRBOOK_CLOCK_START: clockStart },
  });
}

const rows = async (sql: string) => (await owner.query(sql)).rows;

describe("the demo workshop", () => {
  it("is set up once in an empty database, across a clock change, with everything there is to see", async () => {
    const first = demo("2027-03-10T07:00:00Z");
    expect(first.stderr.replace(/\(.*\n?/g, "")).not.toMatch(/Error/);
    expect(first.status).toBe(0);
    for (const address of ["mette@", "ingrid@", "tomasz@"]) expect(first.stdout).toContain(`${address}saltmarsh.example`);
    const statuses = (await rows("SELECT status, count(*)::int AS n FROM firing GROUP BY 1")).map((row) => row.status).sort();
    expect(statuses).toEqual(["opened", "planned", "started"]);
    expect(await rows("SELECT 1 FROM ask WHERE status = 'open'")).toHaveLength(1);
    expect(await rows("SELECT 1 FROM outage")).toHaveLength(1);
    expect(await rows("SELECT 1 FROM firing WHERE expected_end IS NOT NULL")).toHaveLength(1);
    const learned = "p.outputs->'reservation'->'margin'->'learnedFrom'->>'firings'";
    expect(await rows(`SELECT DISTINCT (${learned})::int AS n FROM firing f JOIN plan p USING (workshop_id, plan_id) WHERE f.status = 'planned' ORDER BY 1`)).toEqual([{ n: 3 }, { n: 7 }, { n: null }]);
  });

  it("only tells the sign-ins again when it is there already", async () => {
    const before = await rows("SELECT count(*)::int AS n FROM audit");
    const second = demo("2027-03-10T07:00:00Z");
    expect(second.status).toBe(0);
    expect(second.stdout).toContain("mette@saltmarsh.example");
    expect(await rows("SELECT count(*)::int AS n FROM audit")).toEqual(before);
  });

  it("books kiln time in elapsed hours across the change of 28 March 2027", async () => {
    const across = await rows(
      `SELECT b.starts_at, b.ends_at, (p.outputs->'reservation'->>'hours')::float AS hours
         FROM booking b JOIN firing f USING (workshop_id, firing_id) JOIN plan p USING (workshop_id, plan_id)
        WHERE b.purpose = 'kiln' AND b.standing AND b.starts_at < '2027-03-28T01:00:00Z' AND b.ends_at > '2027-03-28T01:00:00Z'`,
    );
    expect(across.length).toBeGreaterThan(0);
    for (const { starts_at, ends_at, hours } of across) expect((ends_at.getTime() - starts_at.getTime()) / 3_600_000).toBeGreaterThanOrEqual(hours);
  });

  it("leaves a database with other people in it alone", async () => {
    await owner.query("UPDATE person SET email = 'somebody@elsewhere.example' WHERE email = 'mette@saltmarsh.example'");
    const third = demo("2027-03-10T07:00:00Z");
    expect({ status: third.status, stdout: third.stdout }).toEqual({ status: 0, stdout: "" });
  });
});
