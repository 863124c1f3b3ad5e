import { setStaffedHoursSchema } from "@/lib/contracts/hours";
import { ok, refusalOf, type Problem } from "@/lib/domain/refusal";
import { checkWorkshopHours, type WeeklyHours } from "@/lib/domain/time/staffed-hours";
import { command } from "@/lib/server/command";
import { countThinLifts } from "@/lib/server/rows/thin-lifts";
import { loadHours } from "@/lib/server/rows/workshop-hours";
import { lockCalendar } from "@/lib/server/runs/lock-calendar";

/** Sets the whole week anew: when somebody is there, and how many of them can lift. */
export const setStaffedHours = command({
  name: "set-staffed-hours",
  needs: "manage-hours",
  input: setStaffedHoursSchema,
  run: async ({ tx, who, now, audit }, input) => {
    await lockCalendar({ tx, who, now });
    const weekly = input.weekly.map(({ weekday, opens, closes, hands }) => ({ weekday: weekday as WeeklyHours["weekday"], opensMin: opens, closesMin: closes, hands }));
    const checked = checkWorkshopHours({ timeZone: who.timeZone, weekly, closures: [] });
    if (!checked.ok) return refusalOf(checked.problems.map((problem) => onItsDay(problem, weekly))) ?? checked;
    const before = (await loadHours(tx, who)).weekly.map(inWords);
    await tx.staffedHours.deleteMany({});
    await tx.staffedHours.createMany({ data: weekly.map((span) => ({ workshopId: who.workshopId, ...span })) });
    const after = (await loadHours(tx, who)).weekly.map(inWords);
    await audit({ subject: "staffed-hours", subjectId: who.workshopId, before, after });
    return ok({ days: new Set(weekly.map((span) => span.weekday)).size, thinLifts: await countThinLifts(tx, who, now) });
  },
});

const DAYS = ["Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"];

/** Says the day with the problem, and leads to the field of the form, which has clock times. */
function onItsDay(problem: Problem, weekly: readonly WeeklyHours[]): Problem {
  const field = problem.field ?? "";
  const span = weekly[Number(/^weekly\.(\d+)/.exec(field)?.[1])];
  const day = DAYS[(span?.weekday ?? 0) - 1];
  const renamed = field.replace(/(opens|closes)Min$/, "$1");
  return { ...problem, field: /\.\d+$/.test(renamed) ? `${renamed}.opens` : renamed, message: day === undefined ? problem.message : `${day}: ${problem.message}` };
}

function inWords({ weekday, opensMin, closesMin, hands }: WeeklyHours): string {
  const clock = (minutes: number) => `${String(Math.floor(minutes / 60)).padStart(2, "0")}:${String(minutes % 60).padStart(2, "0")}`;
  return `${DAYS[weekday - 1] ?? weekday} ${clock(opensMin)} to ${clock(closesMin)}, hands ${hands}`;
}
