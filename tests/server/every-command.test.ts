import { randomUUID } from "node:crypto";
import { readdirSync } from "node:fs";
import pg from "pg";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { z } from "zod";
import { can, type Capability, type Role } from "@/lib/domain/access/roles";
import type { Command } from "@/lib/server/command";
import { useFreshDatabase } from "@/tests/helpers/database";
import { makeWorkshop, type MadeWorkshop } from "@/tests/helpers/scenario";

type AnyCommand = Command<z.ZodType, unknown>;
type Found = { readonly file: string; readonly call: AnyCommand };

const database = await useFreshDatabase();
const { closeDatabase } = await import("@/lib/server/db");
const folder = new URL("../../lib/server/commands/", import.meta.url);
const files = readdirSync(folder).filter((file) => file.endsWith(".ts"));
const commands: Found[] = [];
for (const file of files) {
  const exports: Record<string, unknown> = await import(`../../lib/server/commands/${file.slice(0, -3)}.ts`);
  for (const value of Object.values(exports)) if (isCommand(value)) commands.push({ file, call: value });
}
let shed: MadeWorkshop;
let owner: pg.Client;

beforeAll(async () => {
  shed = await makeWorkshop(database.ownerUrl);
  owner = new pg.Client({ connectionString: database.ownerUrl });
  await owner.connect();
});
afterAll(async () => {
  await owner.end();
  await closeDatabase();
  await database.drop();
});

function isCommand(value: unknown): value is AnyCommand {
  return typeof value === "function" && "spec" in value;
}

async function auditRows(): Promise<number> {
  const { rows } = await owner.query<{ n: number }>("SELECT count(*)::int AS n FROM audit");
  return rows[0]?.n ?? -1;
}

const ROLE_SETS: readonly (readonly Role[])[] = [["member"], ["assistant"], ["manager"], []];

describe("every command", () => {
  it("stands in a file of its own, named after what it does", () => {
    expect(commands.length).toBeGreaterThan(10);
    for (const { file, call } of commands) expect(`${call.spec.name}.ts`).toBe(file);
    expect(new Set(commands.map(({ file }) => file)).size).toBe(files.length);
  });

  it.each(commands.map(({ file, call }) => [file, call] as const))("%s asks nobody's hand-made request to sign in", async (_file, call) => {
    const before = await auditRows();
    const outcome = await call(null, {});
    expect(!outcome.ok && outcome.problems[0].code).toBe("not-signed-in");
    expect(await auditRows()).toBe(before);
  });

  it.each(commands.map(({ file, call }) => [file, call] as const))("%s refuses every role that may not do it", async (_file, call) => {
    const needs: Capability = call.spec.needs;
    for (const roles of ROLE_SETS) {
      const outcome = await call({ ...shed.member, roles }, {});
      const code = outcome.ok ? "ok" : outcome.problems[0].code;
      if (can(roles, needs)) expect({ roles, code }).not.toEqual({ roles, code: "not-allowed" });
      else expect({ roles, code }).toEqual({ roles, code: "not-allowed" });
    }
  });

  it.each(commands.map(({ file, call }) => [file, call] as const))("%s refuses a request full of rubbish by name and changes nothing", async (_file, call) => {
    const before = await auditRows();
    const who = { ...shed.manager, roles: ["manager", "member", "assistant"] as const };
    const outcome = await call(who, { [`unknown-${randomUUID()}`]: 1 });
    if (outcome.ok) throw new Error("an unknown key was accepted");
    expect(outcome.problems.map((p) => p.code)).not.toContain("fault");
    expect(await auditRows()).toBe(before);
  });
});
