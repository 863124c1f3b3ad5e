import type { Temporal } from "temporal-polyfill";
import { inOrder, type Placed, type WaitingAsk } from "@/lib/domain/asking/order";
import { toInstant, toPlainDate } from "@/lib/server/clock";
import type { Tx } from "@/lib/server/db";
import { kilnHoursByMember } from "@/lib/server/rows/kiln-hours";
import { notLapsed } from "@/lib/server/rows/not-lapsed";

function openAsks(tx: Tx, now: Temporal.Instant) {
  return tx.ask.findMany({
    where: { status: "open", member: { active: true }, casting: { withdrawnAt: null } },
    include: {
      member: { select: { name: true } },
      kiln: { select: { name: true, retiredAt: true } },
      casting: { include: { firings: { where: { standing: true, firing: notLapsed(now) }, select: { firingId: true, firing: { select: { askId: true } } } } } },
      offers: { include: { bookings: { where: { purpose: "kiln" }, orderBy: { createdAt: "asc" }, take: 1, include: { equipment: { select: { name: true } } } } }, orderBy: { createdAt: "asc" } },
    },
  });
}

export type OpenAskRow = Awaited<ReturnType<typeof openAsks>>[number];
export type AskInOrder = Placed<WaitingAsk & { readonly row: OpenAskRow }>;

/** Every open ask of a workshop, in the order in which time is offered to them. */
export async function asksInOrder(tx: Tx, now: Temporal.Instant, timeZone: string): Promise<readonly AskInOrder[]> {
  const hours = await kilnHoursByMember(tx, now);
  const asks = (await openAsks(tx, now)).map((row) => ({
    askId: row.askId,
    title: row.casting.title,
    owner: row.member.name,
    kilnHours: hours.get(row.memberId) ?? 0,
    askedAt: toInstant(row.createdAt),
    neededBy: row.neededBy === null ? null : toPlainDate(row.neededBy),
    importance: row.importance,
    row,
  }));
  return inOrder(asks, now, timeZone);
}

/** The first day on which its run may begin. */
export function firstDayOf({ notBefore, wishedFrom }: Pick<OpenAskRow, "notBefore" | "wishedFrom">, timeZone: string): Temporal.PlainDate | null {
  if (notBefore !== null) return toPlainDate(notBefore);
  return wishedFrom === null ? null : toInstant(wishedFrom).toZonedDateTimeISO(timeZone).toPlainDate();
}
