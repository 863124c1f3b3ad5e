import { can } from "@/lib/domain/access/roles";
import { mayOpen, mayStart, stateOf, type ItemState } from "@/lib/domain/safety/check-sheet";
import type { SheetMoment } from "@/lib/domain/safety/answer-check";
import { query } from "@/lib/server/query";
import { loadCheckSheet } from "@/lib/server/rows/check-sheet";
import { isIn } from "@/lib/server/rows/in-firing";
import { PLAN_TITLE, titleOf } from "@/lib/server/rows/firing-title";

export type SheetLine = {
  readonly item: ItemState["item"];
  readonly status: ItemState["status"];
  readonly byName: string | null;
  readonly atMs: number | null;
  readonly reason: string | null;
  /** Everything that was ever answered on this line, oldest first. */
  readonly history: readonly { readonly kind: string; readonly byName: string; readonly atMs: number; readonly reason: string | null }[];
};

export type CheckSheetScreen = {
  readonly firingId: string;
  readonly title: string;
  readonly owner: string;
  readonly kiln: string;
  readonly kilnFromMs: number;
  readonly status: string;
  readonly moment: SheetMoment;
  readonly lines: readonly SheetLine[];
  readonly startBlockedBy: readonly string[];
  readonly openBlockedBy: readonly string[];
  readonly mine: boolean;
  readonly mayStart: boolean;
  readonly mayOverride: boolean;
  readonly mayClose: boolean;
};

/** The check sheet of one firing, or null when this workshop has no such firing. */
export const checkSheetScreen = query({
  name: "check-sheet",
  needs: "tick-checks",
  run: async ({ who, tx }, firingId: string): Promise<CheckSheetScreen | null> => {
    const sheet = await loadCheckSheet(tx, firingId);
    const firing = await tx.firing.findFirst({
      where: { firingId },
      include: {
        member: { select: { name: true } },
        plan: { select: PLAN_TITLE },
        castings: { where: { standing: true }, select: { casting: { select: { memberId: true } } } },
        bookings: { where: { purpose: "kiln" }, orderBy: { createdAt: "desc" }, take: 1, include: { equipment: { select: { name: true } } } },
      },
    });
    const kiln = firing?.bookings[0];
    if (sheet === null || firing === null || kiln === undefined) return null;
    const members = await tx.member.findMany({ select: { memberId: true, name: true } });
    const names = new Map(members.map((m) => [m.memberId, m.name]));
    const name = (memberId: string) => names.get(memberId) ?? "somebody who left";
    const start = mayStart(sheet.items, sheet.answers);
    const open = mayOpen(sheet.items, sheet.answers);
    const mine = isIn(firing, who.memberId);
    const helps = mine || can(who.roles, "manage-runs") || who.roles.includes("assistant");
    return {
      firingId,
      title: titleOf(firing.plan),
      owner: firing.member.name,
      kiln: kiln.equipment.name,
      kilnFromMs: kiln.startsAt.getTime(),
      status: firing.status,
      moment: sheet.moment,
      lines: stateOf(sheet.items, sheet.answers).map(({ item, status, answer }) => ({
        item,
        status,
        byName: answer === undefined ? null : name(answer.byMemberId),
        atMs: answer?.at.epochMilliseconds ?? null,
        reason: answer?.reason ?? null,
        history: sheet.answers
          .filter((a) => a.code === item.code)
          .map((a) => ({ kind: a.kind, byName: name(a.byMemberId), atMs: a.at.epochMilliseconds, reason: a.reason ?? null })),
      })),
      startBlockedBy: start.ok ? [] : start.problems.map((p) => p.message),
      openBlockedBy: open.ok ? [] : open.problems.map((p) => p.message),
      mine,
      mayStart: helps,
      mayOverride: can(who.roles, "override-checks"),
      mayClose: mine || can(who.roles, "manage-runs"),
    };
  },
});
