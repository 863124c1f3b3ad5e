import { getServerSession } from "next-auth";
import { cookies } from "next/headers";
import { connection } from "next/server";
import { cache } from "react";
import { z } from "zod";
import { rolesOf } from "@/lib/domain/access/roles";
import { authOptions } from "@/lib/server/auth-options";
import { accounts, asPerson } from "@/lib/server/db";
import { env } from "@/lib/server/env";
import type { Who } from "@/lib/server/who";

export const WORKSHOP_COOKIE = "lehrbook-workshop";

/** Remembers the chosen workshop; whether the person belongs to it is asked anew at every request. */
export function workshopCookie() {
  return { httpOnly: true, sameSite: "lax", secure: env().publicUrl.startsWith("https:"), path: "/", maxAge: 365 * 24 * 3600 } as const;
}

const Token = z.object({ personId: z.uuid(), sessionVersion: z.number().int() });

export type SignedInPerson = { readonly personId: string; readonly email: string };

/** The person whose session this request carries, unless it was revoked. */
export const currentPerson = cache(async (): Promise<SignedInPerson | null> => {
  await connection(); // never while building: a build knows neither secrets nor database
  const token = Token.safeParse(await getServerSession(authOptions()));
  if (!token.success) return null;
  const person = await accounts().person.findUnique({ where: { personId: token.data.personId } });
  if (person === null || person.sessionVersion !== token.data.sessionVersion) return null;
  return { personId: person.personId, email: person.email };
});

/** Every workshop this person belongs to now. */
export const currentMemberships = cache(async (): Promise<readonly Who[]> => {
  const person = await currentPerson();
  return person === null ? [] : membershipsOf(person.personId);
});

/** Who is asking, in the workshop they chose (or their first). Null when not signed in or in no workshop. */
export const currentWho = cache(async (): Promise<Who | null> => {
  const memberships = await currentMemberships();
  const chosen = (await cookies()).get(WORKSHOP_COOKIE)?.value;
  return memberships.find((m) => m.workshopId === chosen) ?? memberships[0] ?? null;
});

export async function membershipsOf(personId: string): Promise<readonly Who[]> {
  const rows = await asPerson(personId, (tx) =>
    tx.member.findMany({ where: { personId, active: true }, include: { workshop: true }, orderBy: { createdAt: "asc" } }),
  );
  return rows.map((row) => ({
    personId,
    memberId: row.memberId,
    workshopId: row.workshopId,
    workshopName: row.workshop.name,
    timeZone: row.workshop.timeZone,
    name: row.name,
    email: row.email,
    roles: rolesOf(row.roles),
  }));
}
