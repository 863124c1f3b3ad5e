import { Temporal } from "temporal-polyfill";
import { readCastingInput } from "@/lib/contracts/casting-input";
import type { Casting } from "@/lib/contracts/casting";
import { can } from "@/lib/domain/access/roles";
import { ok, refuse, type Outcome } from "@/lib/domain/refusal";
import { fromPlainDate, toPlainDate } from "@/lib/server/clock";
import { NOT_ALLOWED, type Ctx } from "@/lib/server/command";
import type { Tx } from "@/lib/server/db";

export const NO_SUCH_CASTING = { code: "not-found", message: "There is no such casting in this workshop.", field: "castingId" };

/** Locks a casting that its owner or a manager is about to change; refused for everybody else. */
export async function lockCasting({ tx, who }: Ctx, castingId: string): Promise<Outcome<CastingRow>> {
  await tx.$executeRaw`SELECT 1 FROM casting WHERE casting_id = ${castingId}::uuid FOR UPDATE`;
  const row = await findCasting(tx, castingId);
  if (row === null || row.withdrawnAt !== null) return refuse(NO_SUCH_CASTING);
  if (row.memberId !== who.memberId && !can(who.roles, "manage-runs")) return refuse(NOT_ALLOWED);
  return ok(row);
}

async function findCasting(tx: Tx, castingId: string) {
  return tx.casting.findFirst({ where: { castingId }, include: { member: { select: { name: true } } } });
}

export type CastingRow = NonNullable<Awaited<ReturnType<typeof findCasting>>>;

type Stored = { readonly castingId: string; readonly title: string; readonly input: unknown; readonly neededBy: Date | null };

/** @throws when the stored input is not a casting; rows are only written through the same contract. */
export function castingOf({ castingId, title, input, neededBy }: Stored): Casting {
  const read = readCastingInput(input);
  if (!read.ok) throw new Error(`casting ${castingId}: ${read.problems[0].message}`);
  return { title, input: read.value, neededBy: neededBy === null ? null : toPlainDate(neededBy).toString() };
}

export function dateColumn(neededBy: Casting["neededBy"]): Date | null {
  return neededBy === null ? null : fromPlainDate(Temporal.PlainDate.from(neededBy));
}
