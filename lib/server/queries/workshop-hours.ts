import { toPlainDate } from "@/lib/server/clock";
import { query } from "@/lib/server/query";
import { loadHours } from "@/lib/server/rows/workshop-hours";

export type ClosureLine = { readonly closureId: string; readonly from: string; readonly to: string; readonly reason: string };
export type HoursScreen = {
  readonly today: string;
  readonly weekly: readonly { readonly weekday: number; readonly opensMin: number; readonly closesMin: number; readonly hands: number }[];
  readonly closures: readonly ClosureLine[];
  /** From which full hour of the workshop's clock tomorrow is mailed. */
  readonly tomorrowHour: number;
};

/** Staffed hours and the closures that are not over. */
export const workshopHours = query<undefined, HoursScreen>({
  name: "workshop-hours",
  needs: "manage-hours",
  run: async ({ who, tx, now }) => {
    const { weekly } = await loadHours(tx, who);
    const today = now.toZonedDateTimeISO(who.timeZone).toPlainDate().toString();
    const rows = await tx.closure.findMany({ orderBy: { fromDate: "asc" } });
    const closures = rows.map((row) => ({ closureId: row.closureId, from: toPlainDate(row.fromDate).toString(), to: toPlainDate(row.toDate).toString(), reason: row.reason }));
    const { tomorrowHour } = await tx.workshop.findFirstOrThrow({ select: { tomorrowHour: true } });
    return { today, weekly, tomorrowHour, closures: closures.filter((closure) => closure.to >= today) };
  },
});
