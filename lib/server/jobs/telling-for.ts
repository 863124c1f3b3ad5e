import { now } from "@/lib/server/clock";
import type { Tx } from "@/lib/server/db";
import type { Telling } from "@/lib/server/tell";

/** What a job tells with, in a transaction of its workshop; undefined when there is no such workshop any more. */
export async function tellingFor(tx: Tx, workshopId: string): Promise<(Telling & { readonly tx: Tx }) | undefined> {
  const workshop = await tx.workshop.findFirst({ where: { workshopId } });
  return workshop === null ? undefined : { tx, now: now(), who: { workshopId, workshopName: workshop.name, timeZone: workshop.timeZone } };
}
