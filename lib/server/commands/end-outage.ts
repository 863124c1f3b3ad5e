import { endOutageSchema } from "@/lib/contracts/equipment";
import { ok, refuse } from "@/lib/domain/refusal";
import { showTime } from "@/lib/domain/time/show-time";
import { toDate, toInstant } from "@/lib/server/clock";
import { command } from "@/lib/server/command";

/** Puts equipment back into service now; an outage that has not begun is withdrawn instead. */
export const endOutage = command({
  name: "end-outage",
  needs: "manage-equipment",
  input: endOutageSchema,
  run: async ({ tx, who, now, audit }, { outageId }) => {
    await tx.$executeRaw`SELECT 1 FROM outage WHERE outage_id = ${outageId}::uuid FOR UPDATE`;
    const outage = await tx.outage.findFirst({ where: { outageId }, include: { equipment: true } });
    if (outage === null) return refuse({ code: "not-found", message: "There is no such outage in this workshop.", field: "outageId" });
    const at = toDate(now);
    const { name } = outage.equipment;
    if (outage.withdrawnAt !== null) return refuse({ code: "outage-over", message: `This outage of ${name} was withdrawn already.` });
    if (outage.endsAt !== null && outage.endsAt <= at) {
      return refuse({ code: "outage-over", message: `This outage of ${name} ended ${showTime(toInstant(outage.endsAt), who.timeZone)} already.` });
    }
    const begun = outage.startsAt < at;
    await tx.outage.updateMany({ where: { outageId }, data: begun ? { endsAt: at } : { withdrawnAt: at } });
    await audit({
      subject: "equipment",
      subjectId: outage.equipmentId,
      before: { name, outageId, to: outage.endsAt?.toISOString() ?? null },
      after: { name, outageId, ...(begun ? { to: now.toString() } : { withdrawn: true }) },
    });
    return ok({ name, withdrawn: !begun });
  },
});
