import { changeCastingSchema } from "@/lib/contracts/casting";
import { paths } from "@/lib/contracts/paths";
import { planFiring } from "@/lib/domain/firing/plan";
import { ok, refuse, type Problem } from "@/lib/domain/refusal";
import { showTime } from "@/lib/domain/time/show-time";
import { toDate, toInstant } from "@/lib/server/clock";
import { command } from "@/lib/server/command";
import { castingOf, dateColumn, lockCasting, type CastingRow } from "@/lib/server/rows/casting";
import { usableMesh } from "@/lib/server/rows/mesh";
import { tell } from "@/lib/server/tell";

/**
 * Describes a casting anew. A run that is booked for it keeps the plan it was booked with; the firing's
 * page shows the two side by side.
 */
export const changeCasting = command({
  name: "change-casting",
  needs: "write-castings",
  input: changeCastingSchema,
  run: async (ctx, { castingId, version, title, input, neededBy }) => {
    const { who, tx, now } = ctx;
    const locked = await lockCasting(ctx, castingId);
    if (!locked.ok) return locked;
    const before = locked.value;
    const mesh = await usableMesh(ctx, input, before.meshId);
    if (!mesh.ok) return mesh;
    const planned = planFiring(input, mesh.value);
    if (!planned.ok) return planned;
    if (before.version !== version) return refuse(changedMeanwhile(before, who.timeZone));
    await tx.casting.updateMany({
      where: { castingId },
      data: { title, input, neededBy: dateColumn(neededBy), version: { increment: 1 }, updatedAt: toDate(now) },
    });
    await ctx.audit({ subject: "casting", subjectId: castingId, before: castingOf(before), after: { title, input, neededBy } });
    if (before.memberId !== who.memberId) {
      await tell(ctx, { to: [before.memberId], kind: "casting", text: `${who.name} changed your casting ${title}.`, href: paths.casting(castingId) });
    }
    return ok({ castingId, version: version + 1 });
  },
});

/** `data.version` lets the person save over it after all, knowing what they do. */
function changedMeanwhile({ title, version, updatedAt }: CastingRow, timeZone: string): Problem {
  return {
    code: "changed-meanwhile",
    message: `${title} was changed in another window or by somebody else (${showTime(toInstant(updatedAt), timeZone)}). Nothing was saved; what you typed is still here.`,
    data: { version },
  };
}
