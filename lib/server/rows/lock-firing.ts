import type { Prisma } from "@/lib/server/prisma-client/client";
import type { Tx } from "@/lib/server/db";
import { SHARED_TITLES } from "@/lib/server/rows/firing-title";

/**
 * Locks the firing's row and returns it: a move, a cancellation and a start that arrive at the same
 * instant are then decided one after another, each on what the one before left.
 */
export async function lockFiring(tx: Tx, firingId: string) {
  await tx.$executeRaw`SELECT 1 FROM firing WHERE firing_id = ${firingId}::uuid FOR UPDATE`;
  return readFiring(tx, firingId);
}

/** The same without waiting for anybody, for a page. */
export function readFiring(tx: Tx, firingId: string) {
  return tx.firing.findFirst({ where: { firingId }, include: ALL_OF_IT });
}

export function readFirings(tx: Tx, firingIds: readonly string[]) {
  return tx.firing.findMany({ where: { firingId: { in: [...firingIds] } }, include: ALL_OF_IT, orderBy: { firingId: "asc" } });
}

const ALL_OF_IT = {
  bookings: { where: { standing: true }, include: { equipment: true } },
  plan: { include: { casting: true, ...SHARED_TITLES } },
  castings: { where: { standing: true }, include: { casting: { include: { member: { select: { name: true } } } } }, orderBy: [{ joinedAt: "asc" }, { castingId: "asc" }] },
  member: { select: { name: true } },
} satisfies Prisma.FiringInclude;

export type LockedFiring = NonNullable<Awaited<ReturnType<typeof lockFiring>>>;

export const NO_SUCH_FIRING = { code: "not-found", message: "There is no such firing in this workshop.", field: "firingId" };
