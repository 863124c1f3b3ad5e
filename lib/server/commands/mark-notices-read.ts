import { z } from "zod";
import { ok } from "@/lib/domain/refusal";
import { toDate } from "@/lib/server/clock";
import { command } from "@/lib/server/command";

/** Marks one's own notices read, up to the newest one that was on the screen. */
export const markNoticesRead = command({
  name: "mark-notices-read",
  needs: "see-workshop",
  input: z.strictObject({ upTo: z.iso.datetime() }),
  run: async ({ who, tx, now, audit }, { upTo }) => {
    const { count } = await tx.notice.updateMany({
      where: { memberId: who.memberId, readAt: null, createdAt: { lte: upTo } },
      data: { readAt: toDate(now) },
    });
    await audit({ subject: "notices", subjectId: who.memberId, after: { read: count, upTo } });
    return ok({ read: count });
  },
});
