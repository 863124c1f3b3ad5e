import { recordEverywhere } from "@/lib/server/accounts/record-everywhere";
import { now } from "@/lib/server/clock";
import { asPerson } from "@/lib/server/db";

/** Signs a person out everywhere: a session carries the version it was made with, and this makes it an old one. */
export async function endSessions(personId: string): Promise<void> {
  await asPerson(personId, async (tx) => {
    await tx.person.update({ where: { personId }, data: { sessionVersion: { increment: 1 } } });
    await recordEverywhere(tx, personId, now(), "end-sessions");
  });
}
