"use server";

import { cookies, headers } from "next/headers";
import type { Outcome } from "@/lib/domain/refusal";
import { acceptInvitation } from "@/lib/server/accounts/accept-invitation";
import { requestAddress } from "@/lib/server/accounts/request-address";
import { currentPerson, WORKSHOP_COOKIE, workshopCookie } from "@/lib/server/session";

export async function acceptAction(token: string, password: string): Promise<Outcome<{ readonly email: string }>> {
  const person = await currentPerson();
  const address = requestAddress((await headers()).get("x-forwarded-for"));
  const outcome = await acceptInvitation({ token, password }, { personId: person?.personId ?? null, address });
  if (outcome.ok) (await cookies()).set(WORKSHOP_COOKIE, outcome.value.workshopId, workshopCookie());
  return outcome;
}
