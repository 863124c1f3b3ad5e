import type { Weekday, WorkshopHours } from "@/lib/domain/time/staffed-hours";
import { toPlainDate } from "@/lib/server/clock";
import type { Tx } from "@/lib/server/db";
import type { Who } from "@/lib/server/who";

const WEEKDAYS: readonly Weekday[] = [1, 2, 3, 4, 5, 6, 7];

export async function loadHours(tx: Tx, who: Pick<Who, "timeZone">): Promise<WorkshopHours> {
  const [weekly, closures] = [
    await tx.staffedHours.findMany({ orderBy: [{ weekday: "asc" }, { opensMin: "asc" }] }),
    await tx.closure.findMany({ orderBy: { fromDate: "asc" } }),
  ];
  return {
    timeZone: who.timeZone,
    weekly: weekly.flatMap(({ weekday, opensMin, closesMin, hands }) => {
      const day = WEEKDAYS.find((known) => known === weekday);
      return day === undefined ? [] : [{ weekday: day, opensMin, closesMin, hands }];
    }),
    closures: closures.map((c) => ({
      from: toPlainDate(c.fromDate).toString(),
      to: toPlainDate(c.toDate).toString(),
      reason: c.reason,
    })),
  };
}
