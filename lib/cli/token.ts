import { parseArgs } from "node:util";
import { z } from "zod";
import { emailSchema } from "@/lib/contracts/email";
import { problemsOf } from "@/lib/contracts/problems";
import { scopesSchema } from "@/lib/contracts/tokens";
import { SCOPES } from "@/lib/domain/access/scopes";
import { ok, refuse, type Outcome } from "@/lib/domain/refusal";
import { makeToken } from "@/lib/server/commands/make-token";
import { accounts, closeDatabase } from "@/lib/server/db";
import { membershipsOf } from "@/lib/server/session";
import type { Who } from "@/lib/server/who";
import { stateFolder } from "./bootstrap.mjs";
import { ownEnvironment } from "./own-environment";
import { endWithFaults } from "./read-json";
import { readSecrets } from "./start/secrets";

const USAGE = 'Usage: npm run --silent token -- --email … [--scope read,plan,book] [--name "…"] [--workshop "…"]';

const Asked = z.strictObject({
  email: emailSchema,
  scope: z.array(z.string()).default([...SCOPES]).transform((words) => words.flatMap((word) => word.split(/[\s,]+/))).pipe(scopesSchema),
  name: z.string().trim().min(1).max(60).default("Command line"),
  workshop: z.string().optional(),
});

/** Makes a script's token for a member and prints it, and nothing else, on standard output: it is not shown again. */
async function main(): Promise<void> {
  const text = { type: "string" } as const;
  const { values } = parseArgs({ options: { email: text, scope: { type: "string", multiple: true }, name: text, workshop: text } });
  const parsed = Asked.safeParse(values);
  if (!parsed.success) return endWithFaults([...problemsOf(parsed.error, values).map(({ field = "", message }) => `--${field}: ${message}`), USAGE]);
  if (!(await settle())) return endWithFaults(["There is no database yet: start Lehrbook here with npm start, or set DATABASE_URL and AUTH_SECRET."]);
  const made = await make(parsed.data);
  if (made.ok) process.stdout.write(`${made.value}\n`);
  else endWithFaults(made.problems.map(({ message }) => message));
}

/** Tells the server part which database to use: the one it was given, or that of `npm start` in this folder. */
async function settle(): Promise<boolean> {
  const given = (process.env["DATABASE_URL"] ?? process.env["APP_DATABASE_URL"] ?? "") !== "";
  const own = given ? undefined : await ownEnvironment(stateFolder);
  const secret = process.env["AUTH_SECRET"] ?? (await readSecrets(stateFolder))?.authSecret;
  Object.assign(process.env, own, secret === undefined ? {} : { AUTH_SECRET: secret });
  return given || own !== undefined;
}

async function make({ email, scope, name, workshop }: z.infer<typeof Asked>): Promise<Outcome<string>> {
  const person = await accounts().person.findUnique({ where: { email } });
  const who = whoIn(person === null ? [] : await membershipsOf(person.personId), email, workshop);
  if (!who.ok) return who;
  const made = await makeToken(who.value, { name, scopes: scope });
  return made.ok ? ok(made.value.token) : made;
}

function whoIn(memberships: readonly Who[], email: string, workshop: string | undefined): Outcome<Who> {
  const fitting = memberships.filter(({ workshopName, workshopId }) => workshop === undefined || workshop === workshopName || workshop === workshopId);
  const [who, another] = fitting;
  const names = memberships.map(({ workshopName }) => workshopName).join(", ");
  if (who !== undefined && another === undefined) return ok(who);
  if (memberships.length === 0) return refuse({ code: "not-found", message: `Nobody with the address ${email} belongs to a workshop here.` });
  return refuse({ code: "unclear", message: `${email} belongs to ${names}: name one of them with --workshop.` });
}

/** What stands in the way of the command line itself, in one line. */
function faultOf(error: unknown): string {
  const { code = "", message = String(error) } = error as { code?: string; message?: string };
  if (code.startsWith("ERR_PARSE_ARGS")) return `${message.split(". ")[0] ?? message}. ${USAGE}`;
  return `No token was made; does Lehrbook run, and is DATABASE_URL right? (${message.trim().split("\n").at(-1) ?? code})`;
}

await main()
  .catch((error: unknown) => endWithFaults([faultOf(error)]))
  .finally(() => closeDatabase());
