import { spawnSync } from "node:child_process";
import pg from "pg";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { useFreshDatabase } from "@/tests/helpers/database";
import { makeWorkshop, type MadeWorkshop } from "@/tests/helpers/scenario";

const database = await useFreshDatabase();
const { closeDatabase } = await import("@/lib/server/db");
const { bearerOf } = await import("@/lib/server/api/bearer");

let shed: MadeWorkshop;
beforeAll(async () => {
  shed = await makeWorkshop(database.ownerUrl, { name: "Dune Glass Room" });
});
afterAll(async () => {
  await closeDatabase();
  await database.drop();
});

function token(args: readonly string[], env: Record<string, string> = {}) {
  return spawnSync(process.execPath, ["--import", "tsx", "lib/cli/token.ts", ...args], { encoding: "utf8", env: { ...process.env, ...env } });
}

describe("a token from the command line", () => {
  it("is all that is printed, and opens the workshop with every scope unless some are named", async () => {
    const { stdout, stderr, status } = token(["--email", shed.member.email.toUpperCase()]);
    expect({ stderr, status }).toEqual({ stderr: "", status: 0 });
    expect(stdout).toMatch(/^lbk_[\w-]{43}\n$/);
    expect(await bearerOf(`Bearer ${stdout.trim()}`)).toMatchObject({ is: "known", scopes: ["read", "plan", "book"], who: { memberId: shed.member.memberId } });
  });

  it("takes scopes one by one or together, and a name", async () => {
    const { stdout } = token(["--email", shed.member.email, "--scope", "plan", "--scope", "read", "--name", "Door display"]);
    expect(await bearerOf(`Bearer ${stdout.trim()}`)).toMatchObject({ scopes: ["read", "plan"], who: { token: { name: "Door display" } } });
    const together = token(["--email", shed.member.email, "--scope", "book,read"]);
    expect(await bearerOf(`Bearer ${together.stdout.trim()}`)).toMatchObject({ scopes: ["read", "book"] });
  });

  it("asks which workshop is meant when there are several", async () => {
    const other = await makeWorkshop(database.ownerUrl, { name: "Reed Shed" });
    const owner = new pg.Client({ connectionString: database.ownerUrl });
    await owner.connect();
    await owner.query("INSERT INTO member (workshop_id, person_id, name, email, roles) VALUES ($1, $2, $3, $4, '{member}')", [other.workshopId, shed.otherMember.personId, shed.otherMember.name, shed.otherMember.email]);
    await owner.end();
    const unclear = token(["--email", shed.otherMember.email]);
    expect({ status: unclear.status, stdout: unclear.stdout }).toEqual({ status: 2, stdout: "" });
    expect(unclear.stderr).toContain("Reed Shed");
    const { stdout } = token(["--email", shed.otherMember.email, "--workshop", "Reed Shed"]);
    expect(await bearerOf(`Bearer ${stdout.trim()}`)).toMatchObject({ who: { workshopId: other.workshopId } });
  });

  it.each([
    ["no address", [], "--email"],
    ["nobody's address", ["--email", "nobody@dune.example"], "nobody@dune.example"],
    ["an unknown scope", ["--email", "a@dune.example", "--scope", "all"], "--scope"],
    ["an unknown option", ["--mail", "a@dune.example"], "Usage"],
  ])("refuses %s in a line, and prints no token", (_what, args, words) => {
    const { status, stdout, stderr } = token(args);
    expect({ status, stdout }).toEqual({ status: 2, stdout: "" });
    expect(stderr).toContain(words);
  });

  it("says so when the database does not answer", () => {
    const { status, stdout, stderr } = token(["--email", "a@dune.example"], { DATABASE_URL: "postgresql://x:y@127.0.0.1:1/z", APP_DATABASE_URL: "postgresql://x:y@127.0.0.1:1/z" });
    expect({ status, stdout }).toEqual({ status: 2, stdout: "" });
    expect(stderr.trim().split("\n")).toHaveLength(1);
  });
});
