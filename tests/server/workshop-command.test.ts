import { spawnSync } from "node:child_process";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { useFreshDatabase } from "@/tests/helpers/database";

const database = await useFreshDatabase();
const { closeDatabase } = await import("@/lib/server/db");
const { acceptInvitation } = await import("@/lib/server/accounts/accept-invitation");
const { membershipsOf } = await import("@/lib/server/session");
const { accounts } = await import("@/lib/server/db");

const asked = ["create", "--name", "Dune Glass Room", "--time-zone", "Pacific/Auckland", "--manager-name", "Aroha Pike", "--manager-email", "Aroha@dune.example"];

function workshop(args: readonly string[], env: Record<string, string> = { DATABASE_URL: database.ownerUrl }) {
  const { DATABASE_URL: _own, ...rest } = process.env;
  return spawnSync(process.execPath, ["--import", "tsx", "lib/cli/workshop.ts", ...args], { encoding: "utf8", env: { ...rest, LEHRBOOK_URL: "https://glass.example", ...env } });
}

let made: ReturnType<typeof workshop>;
beforeAll(() => {
  made = workshop(asked);
});
afterAll(async () => {
  await closeDatabase();
  await database.drop();
});

describe("creating the first workshop", () => {
  it("prints a link by which its manager joins, once", async () => {
    expect(made.stderr).toBe("");
    const token = /https:\/\/glass\.example\/invitation\/(\S+)/.exec(made.stdout)?.[1] ?? "";
    const joined = await acceptInvitation({ token, password: "long enough to keep" }, { personId: null, address: "unknown" });
    expect(joined.ok).toBe(true);
    const person = await accounts().person.findUnique({ where: { email: "aroha@dune.example" } });
    const [membership] = await membershipsOf(person?.personId ?? "");
    expect(membership).toMatchObject({ workshopName: "Dune Glass Room", timeZone: "Pacific/Auckland", roles: ["manager"] });
    const again = await acceptInvitation({ token, password: "long enough to keep" }, { personId: null, address: "unknown" });
    expect(again.ok).toBe(false);
  });

  it.each([
    ["an unknown zone", asked.map((word) => (word === "Pacific/Auckland" ? "Middle/Nowhere" : word)), "time-zone"],
    ["no e-mail address", asked.map((word) => (word.includes("@") ? "aroha" : word)), "manager-email"],
    ["no name", asked.filter((word) => word !== "--name" && word !== "Dune Glass Room"), "name"],
  ])("refuses %s, naming it", (_what, args, field) => {
    const { status, stdout, stderr } = workshop(args);
    expect({ status, stdout }).toEqual({ status: 2, stdout: "" });
    expect(stderr).toContain(field);
  });

  it("says how it is used when the database is not named", () => {
    const { status, stderr } = workshop(asked, {});
    expect(status).toBe(2);
    expect(stderr).toContain("DATABASE_URL");
  });
});
