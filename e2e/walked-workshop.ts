import type { Browser, BrowserContext } from "@playwright/test";
import { SCENARIO_PASSWORD, makeWorkshop, type MadeWorkshop } from "@/tests/helpers/scenario";
import { signIn } from "./people";
import { rows } from "./rows";

export type InWorkshop = "member" | "otherMember" | "assistant" | "manager";
export type Person = InWorkshop | "nobody" | "stranger";

/** A workshop that only the walk over the actions changes, everybody in it signed in, and a stranger from another. */
export type WalkedWorkshop = {
  readonly shed: MadeWorkshop;
  readonly stranger: MadeWorkshop;
  readonly browsers: Readonly<Record<Person, BrowserContext>>;
};

export const WALKED_NAME = "Walked Glass Barn";

export async function walkedWorkshop(browser: Browser): Promise<WalkedWorkshop> {
  const ownerUrl = process.env["LEHRBOOK_E2E_DATABASE_URL"] ?? "";
  const shed = await makeWorkshop(ownerUrl, { name: WALKED_NAME });
  const stranger = await makeWorkshop(ownerUrl, { name: "Dune Glass Room" });
  const as = async (email?: string) => {
    const context = await browser.newContext({ baseURL: process.env["LEHRBOOK_E2E_URL"] ?? "" });
    if (email !== undefined) await signIn(await context.newPage(), email, SCENARIO_PASSWORD);
    return context;
  };
  const browsers = {
    nobody: await as(),
    stranger: await as(stranger.manager.email),
    member: await as(shed.member.email),
    otherMember: await as(shed.otherMember.email),
    assistant: await as(shed.assistant.email),
    manager: await as(shed.manager.email),
  };
  return { shed, stranger, browsers };
}

/** One number over every row that belongs to the workshop or to its people, so that no change goes unseen. */
export async function fingerprint({ shed }: WalkedWorkshop): Promise<string> {
  const tables = await rows<{ name: string }>(
    "SELECT table_name AS name FROM information_schema.columns WHERE table_schema = 'public' AND column_name = 'workshop_id' ORDER BY 1",
  );
  const parts = tables.map(({ name }) => `(SELECT count(*) || md5(coalesce(string_agg(t::text, ';' ORDER BY t::text), '')) FROM "${name}" t WHERE workshop_id = $1)`);
  const people = "(SELECT md5(string_agg(p::text, ';' ORDER BY p::text)) FROM person p WHERE person_id IN (SELECT person_id FROM member WHERE workshop_id = $1))";
  const [row] = await rows<{ all: string }>(`SELECT concat_ws(' ', ${[...parts, people].join(", ")}) AS all`, shed.workshopId);
  return row?.all ?? "";
}

/** One id, looked up in the walked workshop: $1 is the workshop. */
export async function idIn({ shed }: Pick<WalkedWorkshop, "shed">, sql: string, ...values: unknown[]): Promise<string> {
  const [row] = await rows<{ id: string }>(sql, shed.workshopId, ...values);
  return row?.id ?? "";
}

/** What the walked workshop's record says this person did last. */
export async function lastAct({ shed }: Pick<WalkedWorkshop, "shed">, person: InWorkshop): Promise<string> {
  return idIn({ shed }, "SELECT action || ' ' || audit_id AS id FROM audit WHERE workshop_id = $1 AND member_id = $2 ORDER BY audit_id DESC LIMIT 1", shed[person].memberId);
}
