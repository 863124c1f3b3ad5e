import { createHmac } from "node:crypto";

/** The role the application signs in as; it owns no table and cannot step around row-level security. */
export const APP_ROLE = "lehrbook_app";

/** One secret to keep instead of two: the application role's password follows from AUTH_SECRET. */
export function appRolePassword(authSecret: string): string {
  return createHmac("sha256", authSecret).update(APP_ROLE).digest("hex");
}

/** The address the application connects with, from the owner's address used for migrations. */
export function appDatabaseUrl(databaseUrl: string, authSecret: string): string {
  const url = new URL(databaseUrl);
  url.username = APP_ROLE;
  url.password = appRolePassword(authSecret);
  return url.toString();
}
