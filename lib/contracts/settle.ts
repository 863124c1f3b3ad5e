import { z } from "zod";
import { problemsOf } from "@/lib/contracts/problems";
import { dayFields, dayProblem } from "@/lib/contracts/settle-days";
import { hourFields, hourProblem } from "@/lib/contracts/settle-hours";
import { ok, refusalOf, refuse, type Outcome } from "@/lib/domain/refusal";
import type { DayProblem } from "@/lib/domain/settling/days/day-problem";
import type { HourProblem } from "@/lib/domain/settling/hours/hour-problem";

/** How long and how to search. With `iterations` the same seed gives the same plan. */
export type SettleLimits = { readonly budgetSeconds: number; readonly seed: number; readonly iterations: number | null };
export type SettleAsked = { readonly kind: "hours"; readonly problem: HourProblem } | { readonly kind: "days"; readonly problem: DayProblem };
export type SettleRequest = { readonly asked: SettleAsked; readonly limits: SettleLimits };

const limitFields = {
  budgetSeconds: z.number().gt(0).max(86_400),
  seed: z.int().exactOptional(),
  iterations: z.int().min(1).exactOptional(),
};
const hourForm = z.strictObject({ ...hourFields, ...limitFields });
const dayForm = z.strictObject({ days: dayFields, ...limitFields });

/** Reads an instance from parsed JSON: in whole hours, or in days under the key `days`. All faults at once. */
export function readSettleRequest(input: unknown): Outcome<SettleRequest> {
  return typeof input === "object" && input !== null && Object.hasOwn(input, "days") ? readDays(input) : readHours(input);
}

function readHours(input: unknown): Outcome<SettleRequest> {
  const parsed = hourForm.safeParse(input);
  if (!parsed.success) return unreadable(parsed.error, input);
  const { problem, faults } = hourProblem(parsed.data);
  return refusalOf(faults) ?? ok({ asked: { kind: "hours", problem }, limits: limitsOf(parsed.data) });
}

function readDays(input: unknown): Outcome<SettleRequest> {
  const parsed = dayForm.safeParse(input);
  if (!parsed.success) return unreadable(parsed.error, input);
  const { problem, faults } = dayProblem(parsed.data.days);
  return refusalOf(faults) ?? ok({ asked: { kind: "days", problem }, limits: limitsOf(parsed.data) });
}

function unreadable(error: z.ZodError, input: unknown): Outcome<SettleRequest> {
  return refusalOf(problemsOf(error, input)) ?? refuse({ code: "not-allowed", message: "The instance cannot be read." });
}

function limitsOf(given: { readonly budgetSeconds: number; readonly seed?: number; readonly iterations?: number }): SettleLimits {
  return { budgetSeconds: given.budgetSeconds, seed: given.seed ?? 1, iterations: given.iterations ?? null };
}
