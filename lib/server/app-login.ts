import { createHash, createHmac, pbkdf2Sync, randomBytes } from "node:crypto";
import pg from "pg";
import { APP_ROLE, appDatabaseUrl, appRolePassword } from "@/lib/server/app-database-url";

/**
 * What Postgres stores of a password under SCRAM-SHA-256 (RFC 5802, RFC 7677). Sent in place of the password, so
 * that the password itself never stands in a statement that a server may log.
 */
export function scramVerifier(password: string, salt: Buffer = randomBytes(16), iterations = 4096): string {
  const salted = pbkdf2Sync(password, salt, iterations, 32, "sha256");
  const hmac = (text: string): Buffer => createHmac("sha256", salted).update(text).digest();
  const storedKey = createHash("sha256").update(hmac("Client Key")).digest("base64");
  return `SCRAM-SHA-256$${iterations}:${salt.toString("base64")}$${storedKey}:${hmac("Server Key").toString("base64")}`;
}

async function canSignIn(url: string): Promise<boolean> {
  const client = new pg.Client({ connectionString: url, connectionTimeoutMillis: 10_000 });
  try {
    await client.connect();
    return true;
  } catch {
    return false;
  } finally {
    await client.end().catch(() => undefined);
  }
}

/**
 * Lets the application's role sign in with the derived password. Does nothing when it already can, so that a second
 * start writes nothing and an owner who may not alter roles can prepare the login by hand.
 * @throws Error when the role is missing (the migrations create it) or may not be altered
 */
export async function ensureAppLogin(databaseUrl: string, authSecret: string): Promise<void> {
  if (await canSignIn(appDatabaseUrl(databaseUrl, authSecret))) return;
  const client = new pg.Client({ connectionString: databaseUrl, connectionTimeoutMillis: 10_000 });
  await client.connect();
  try {
    const verifier = client.escapeLiteral(scramVerifier(appRolePassword(authSecret)));
    await alterRole(client, `ALTER ROLE ${APP_ROLE} LOGIN PASSWORD ${verifier}`);
  } finally {
    await client.end();
  }
}

/** Roles belong to the whole server: two databases migrating at once may collide on the catalogue row, so try again. */
async function alterRole(client: pg.Client, statement: string): Promise<void> {
  for (let attempt = 1; ; attempt += 1) {
    try {
      await client.query(statement);
      return;
    } catch (error) {
      const collided = error instanceof Error && error.message.includes("tuple concurrently updated");
      if (!collided || attempt === 5) throw error;
      await new Promise((done) => setTimeout(done, 50 * attempt));
    }
  }
}
