import { z } from "zod";
import type { CheckSheet, SheetMoment } from "@/lib/domain/safety/answer-check";
import type { CheckAnswer } from "@/lib/domain/safety/check-sheet";
import type { SheetItem } from "@/lib/domain/safety/sheet-for";
import { toInstant } from "@/lib/server/clock";
import type { Tx } from "@/lib/server/db";

const Item = z.object({
  code: z.string(),
  phase: z.enum(["wax-and-mould", "steam-out", "load", "start", "soak-and-cool", "open", "divest", "coldwork"]),
  level: z.enum(["block", "open", "remind"]),
  scope: z.enum(["firing", "kiln", "person", "person-and-kiln", "equipment", "workshop"]),
  text: z.string(),
  why: z.string(),
  source: z.string(),
  detail: z.string().nullable(),
  forbids: z.string().nullable(),
});

const Kind = z.enum(["tick", "untick", "override"]);

/** The sheet of one firing with its answers in the order they were given; null when there is none. */
export async function loadCheckSheet(tx: Tx, firingId: string): Promise<CheckSheet | null> {
  const sheet = await tx.checkSheet.findFirst({
    where: { firingId },
    include: { items: { where: { replacedAt: null }, orderBy: [{ position: "asc" }, { code: "asc" }] }, firing: { select: { status: true } } },
  });
  if (sheet === null) return null;
  const answers = await tx.checkAnswer.findMany({ where: { firingId }, orderBy: { answerId: "asc" } });
  return {
    items: sheet.items.map(itemOf),
    answers: answers.map((row): CheckAnswer => ({
      code: row.code,
      kind: Kind.parse(row.kind),
      byMemberId: row.memberId,
      at: toInstant(row.at),
      ...(row.reason === null ? {} : { reason: row.reason }),
    })),
    moment: momentOf(sheet.firing.status, sheet.closedAt),
  };
}

function itemOf(row: unknown): SheetItem {
  const { detail, forbids, ...item } = Item.parse(row);
  return { ...item, ...(detail === null ? {} : { detail }), ...(forbids === null ? {} : { forbids }) };
}

/** The sheet of a run that was cancelled or released is closed: nothing will happen any more. */
function momentOf(status: string, closedAt: Date | null): SheetMoment {
  if (closedAt !== null || status === "cancelled" || status === "released" || status === "lapsed") return "closed";
  return status === "planned" || status === "held" ? "before-start" : "running";
}
