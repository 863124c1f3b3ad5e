import type { CastingPlan, Lift } from "@/lib/domain/firing/casting-plan";
import type { Kiln, Steamer, Trolley } from "@/lib/domain/booking/equipment";
import { steamerFit, trolleyFit } from "@/lib/domain/booking/fits";
import { DRAIN_HOURS, loadMinutes, MAX_DAYS_FROM_STEAM_TO_LOAD, UNLOAD_MINUTES } from "@/lib/domain/booking/run-plan";
import type { RunQuestion } from "@/lib/domain/booking/run-question";
import type { LiftNeed } from "@/lib/domain/booking/search-space";
import { heatingHours } from "@/lib/domain/booking/stage-times";
import { longestStaffedDayHours, type SteamNeed } from "@/lib/domain/booking/steam-slot";
import { showHours } from "@/lib/domain/time/show-time";

/** What one plan asks of everything but the kiln. Hours are elapsed hours. */
export type RunNeeds = {
  readonly plan: CastingPlan;
  readonly load: LiftNeed;
  readonly unload: LiftNeed;
  /** Null when there is nothing to steam out, or when that is done. */
  readonly steam: SteamNeed | null;
  /** From the end of steam-out until the mould may be loaded. */
  readonly gapHours: number;
  /** A longer gap that is taken when the days allow it: the upper end of the drying time. */
  readonly likedGapHours: number;
  readonly reservationHours: number;
  readonly heatingHours: number;
};

export type NeedsOrProblems = { readonly needs: RunNeeds | null; readonly problems: readonly string[] };

export function planFor(question: RunQuestion, kiln: Kiln): CastingPlan {
  return question.planByKiln?.get(kiln.equipmentId) ?? question.plan;
}

/** Works out the needs once, or says in full sentences what the workshop lacks. */
export function runNeeds(question: RunQuestion, plan: CastingPlan): NeedsOrProblems {
  const problems: string[] = [];
  const trolleys = question.equipment.filter((item): item is Trolley => item.kind === "trolley");
  const load = liftNeed(question, plan, "load", trolleys, problems);
  const unload = liftNeed(question, plan, "unload", trolleys, problems);
  const steam = steamNeed(question, plan, problems);
  const gap = gapHours(question, plan, problems);
  if (!(plan.reservation.hours > 0)) problems.push("The firing plan has no length, so no kiln time can be booked for it.");
  if (load === null || unload === null || problems.length > 0) return { needs: null, problems };
  return {
    problems,
    needs: {
      plan,
      load,
      unload,
      steam,
      ...gap,
      reservationHours: plan.reservation.hours,
      heatingHours: heatingHours(plan.firing.stages),
    },
  };
}

/** All movements of a kind, one after another: several where castings share a firing. */
export function liftsOf(plan: CastingPlan, what: Lift["what"]): readonly Lift[] {
  return plan.lifts.filter((lift) => lift.what === what);
}

/** All of them as one: minutes one after another, and the hands of whichever takes most. */
export function liftsTogether(plan: CastingPlan, what: Lift["what"]): { readonly minutes: number; readonly hands: number } {
  const lifts = liftsOf(plan, what);
  return { minutes: lifts.reduce((sum, one) => sum + liftMinutes(one), 0), hands: Math.max(1, ...lifts.map((one) => one.hands)) };
}

/** How long one of them takes, minutes. */
export function liftMinutes(lift: Lift): number {
  return lift.what === "load" ? loadMinutes(lift.hands) : UNLOAD_MINUTES;
}

export function liftOf(plan: CastingPlan, what: Lift["what"]): Lift | undefined {
  return plan.lifts.find((lift) => lift.what === what);
}

function liftNeed(question: RunQuestion, plan: CastingPlan, what: "load" | "unload", trolleys: readonly Trolley[], problems: string[]): LiftNeed | null {
  const lifts = liftsOf(plan, what);
  const [first, ...others] = lifts;
  if (first === undefined) {
    problems.push(`The plan does not say what is lifted to ${what} the kiln.`);
    return null;
  }
  const lift = others.reduce((heaviest, one) => (one.kg > heaviest.kg ? one : heaviest), first);
  const { minutes, hands } = liftsTogether(plan, what);
  const duty = { kg: lift.kg, what: what === "load" ? "the load" : "the fired mould" };
  const fitting = trolleys.filter((trolley) => trolleyFit(duty, trolley, question.floor).length === 0);
  if (fitting.length === 0 && lifts.some((one) => one.trolley)) {
    problems.push(
      trolleys.length === 0
        ? `To ${what} ${lift.kg.toFixed(1)} kg a trolley is needed, and the workshop has none.`
        : `To ${what} ${lift.kg.toFixed(1)} kg a trolley is needed, and none is rated for it: ${trolleys.flatMap((trolley) => trolleyFit(duty, trolley, question.floor)).join(" ")}`,
    );
  }
  refuseHands(question, hands, `${what} ${lift.kg.toFixed(1)} kg`, problems);
  return { minutes, hands, trolleys: inOrder(fitting) };
}

function refuseHands(question: RunQuestion, hands: number, what: string, problems: string[]): void {
  const most = question.hours.weekly.reduce((sofar, day) => Math.max(sofar, day.hands), 0);
  if (hands <= most) return;
  const onDuty = most === 0 ? "the workshop has no staffed hours" : `at most ${most} ${most === 1 ? "is" : "are"} on duty at any time`;
  problems.push(`To ${what} takes ${hands} ${hands === 1 ? "person" : "people"}; ${onDuty}.`);
}

/** The weakest trolley that will do comes first, so that the strong one stays free for heavy loads. */
function inOrder(trolleys: readonly Trolley[]): readonly Trolley[] {
  return [...trolleys].sort((a, b) => a.limits.ratedKg - b.limits.ratedKg || compareText(a.equipmentId, b.equipmentId));
}

function compareText(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}

function steamNeed(question: RunQuestion, plan: CastingPlan, problems: string[]): SteamNeed | null {
  if (!(plan.steamOut.hours > 0) || (question.steamedOutAt ?? null) !== null) return null;
  const steamers = question.equipment.filter((item): item is Steamer => item.kind === "steamer");
  const fitting = steamers.filter((steamer) => steamerFit(plan, steamer).length === 0);
  if (steamers.length === 0) problems.push("The wax must be steamed out, and the workshop has no steamer.");
  else if (fitting.length === 0) problems.push(`No steamer takes this mould. ${steamers.flatMap((steamer) => steamerFit(plan, steamer)).join(" ")}`);
  const hands = Math.max(liftOf(plan, "to-steamer")?.hands ?? 1, liftOf(plan, "from-steamer")?.hands ?? 1);
  refuseHands(question, hands, "lift the mould into or out of the steamer", problems);
  return {
    hours: plan.steamOut.hours,
    hands,
    steamers: [...fitting].sort((a, b) => compareText(a.equipmentId, b.equipmentId)),
    overnight: plan.steamOut.hours > longestStaffedDayHours(question.hours),
  };
}

function gapHours(question: RunQuestion, plan: CastingPlan, problems: string[]): { gapHours: number; likedGapHours: number } {
  if (!question.driedBeforeLoading) return { gapHours: DRAIN_HOURS, likedGapHours: DRAIN_HOURS };
  const least = Math.max(DRAIN_HOURS, plan.drying.airDaysFrom * 24);
  const mostHours = MAX_DAYS_FROM_STEAM_TO_LOAD * 24;
  if (least + plan.steamOut.hours > mostHours && (question.steamedOutAt ?? null) === null && plan.steamOut.hours > 0) {
    problems.push(
      `Drying this mould in air takes at least ${showHours(least)}, and a steamed mould waits no longer than ${MAX_DAYS_FROM_STEAM_TO_LOAD} days for its kiln. Let it dry in the kiln instead.`,
    );
  }
  return { gapHours: least, likedGapHours: Math.max(least, Math.min(plan.drying.airDaysTo * 24, mostHours)) };
}
