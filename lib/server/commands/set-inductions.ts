import { paths } from "@/lib/contracts/paths";
import { setInductionsSchema } from "@/lib/contracts/people";
import { ok, refuse } from "@/lib/domain/refusal";
import { toDate } from "@/lib/server/clock";
import { command } from "@/lib/server/command";
import { NO_SUCH_MEMBER } from "@/lib/server/rows/active-managers";
import { NO_SUCH_EQUIPMENT } from "@/lib/server/rows/find-equipment";
import { tell } from "@/lib/server/tell";

/** Records which kilns a person was shown. Runs booked before stay; new ones are offered by it at once. */
export const setInductions = command({
  name: "set-inductions",
  needs: "manage-people",
  input: setInductionsSchema,
  run: async (ctx, { memberId, kilnIds }) => {
    const { tx, who, now, audit } = ctx;
    const member = await tx.member.findFirst({ where: { memberId } });
    if (member === null) return refuse(NO_SUCH_MEMBER);
    const kilns = await tx.equipment.findMany({ where: { kind: "kiln", needsInduction: true }, orderBy: { name: "asc" } });
    const given = await tx.induction.findMany({ where: { memberId }, select: { equipmentId: true } });
    const namesOf = (ids: readonly string[]) => kilns.filter((kiln) => ids.includes(kiln.equipmentId)).map((kiln) => kiln.name);
    if (namesOf(kilnIds).length !== new Set(kilnIds).size) return refuse({ ...NO_SUCH_EQUIPMENT, field: "kilnIds" });
    const before = given.map(({ equipmentId }) => equipmentId);
    const added = kilnIds.filter((id) => !before.includes(id));
    await tx.induction.deleteMany({ where: { memberId, equipmentId: { notIn: kilnIds } } });
    await tx.induction.createMany({
      data: added.map((equipmentId) => ({ workshopId: who.workshopId, memberId, equipmentId, givenBy: who.memberId, givenAt: toDate(now) })),
    });
    await audit({ subject: "member", subjectId: memberId, before: { name: member.name, inductions: namesOf(before) }, after: { name: member.name, inductions: namesOf(kilnIds) } });
    if (memberId !== who.memberId && added.length > 0) {
      await tell(ctx, { to: [memberId], kind: "membership", text: `${who.name} recorded your induction on ${namesOf(added).join(", ")}.`, href: paths.home });
    }
    return ok({ name: member.name, kilns: namesOf(kilnIds) });
  },
});
