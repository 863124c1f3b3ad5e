import { randomUUID } from "node:crypto";
import { parseArgs } from "node:util";
import pg from "pg";
import { Temporal } from "temporal-polyfill";
import { z } from "zod";
import { emailSchema } from "@/lib/contracts/email";
import { paths } from "@/lib/contracts/paths";
import { problemsOf } from "@/lib/contracts/problems";
import { INVITATION_VALID_DAYS } from "@/lib/server/accounts/invitation-problems";
import { newToken } from "@/lib/server/tokens";
import { endWithFaults } from "./read-json";

const USAGE =
  'Usage: npm run --silent workshop -- create --name "…" --time-zone Europe/Copenhagen --manager-name "…" --manager-email …  (with DATABASE_URL, the owner\'s address, and LEHRBOOK_URL)';

const Create = z.object({
  "name": z.string().trim().min(1).max(80),
  "time-zone": z.string().refine(isZone, "time-zone must be the name of a time zone such as Europe/Copenhagen."),
  "manager-name": z.string().trim().min(1).max(80),
  "manager-email": emailSchema,
});

/** Creates a workshop and prints the invitation link of its first manager. Everybody else is invited in the browser. */
async function main(): Promise<void> {
  const text = { type: "string" } as const;
  const { values, positionals } = parseArgs({
    allowPositionals: true,
    options: { "name": text, "time-zone": text, "manager-name": text, "manager-email": text },
  });
  const url = process.env["DATABASE_URL"];
  if (positionals.join(" ") !== "create" || url === undefined) return endWithFaults([USAGE]);
  const parsed = Create.safeParse(values);
  if (!parsed.success) return endWithFaults(problemsOf(parsed.error, values).map((problem) => `--${problem.field ?? ""}: ${problem.message}`));
  const link = await create(url, parsed.data);
  process.stdout.write(`${parsed.data.name} is there. Its manager joins by this link, which works once, for ${INVITATION_VALID_DAYS} days:\n${link}\n`);
}

async function create(url: string, { name, "time-zone": timeZone, "manager-name": manager, "manager-email": email }: z.infer<typeof Create>): Promise<string> {
  const { token, tokenHash } = newToken();
  const workshopId = randomUUID();
  const expiresAt = Temporal.Now.instant().add({ hours: 24 * INVITATION_VALID_DAYS }).toString();
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  try {
    await client.query("BEGIN");
    await client.query("SELECT set_config('lehrbook.workshop', $1, true)", [workshopId]);
    await client.query("INSERT INTO workshop (workshop_id, name, time_zone) VALUES ($1, $2, $3)", [workshopId, name, timeZone]);
    await client.query("INSERT INTO invitation (workshop_id, email, name, roles, token_hash, expires_at) VALUES ($1, $2, $3, '{manager}', $4, $5)", [workshopId, email, manager, tokenHash, expiresAt]);
    await client.query("INSERT INTO audit (workshop_id, at, action, subject, subject_id, after) VALUES ($1, now(), 'create-workshop', 'workshop', $2, $3)", [workshopId, workshopId, JSON.stringify({ name, timeZone, manager, email })]);
    await client.query("COMMIT");
  } finally {
    await client.end();
  }
  return `${process.env["LEHRBOOK_URL"] ?? "http://localhost:3000"}${paths.invitation(token)}`;
}

function isZone(timeZone: string): boolean {
  try {
    Temporal.Instant.fromEpochMilliseconds(0).toZonedDateTimeISO(timeZone);
    return true;
  } catch {
    return false;
  }
}

/** What stands in the way of the command line itself, in one line. */
function faultOf(error: unknown): string {
  const { code = "", message = String(error) } = error as { code?: string; message?: string };
  if (code.startsWith("ERR_PARSE_ARGS")) return `${message.split(". ")[0] ?? message}. ${USAGE}`;
  if (code === "42P01") return "This database has no Lehrbook tables yet. Start Lehrbook on it once with npm start, then try again.";
  return `The workshop could not be created: ${message || code}`;
}

await main().catch((error: unknown) => endWithFaults([faultOf(error)]));
