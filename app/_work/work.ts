import { liveAnswer, type LiveAnswer } from "@/app/castings/_components/live-answer";
import type { CastingForm } from "@/lib/contracts/casting-fields";
import type { ReadMesh } from "@/lib/contracts/mesh";
import type { CastingInput } from "@/lib/domain/firing/casting-input";
import type { CastingPlan } from "@/lib/domain/firing/casting-plan";
import type { KilnToPlan } from "@/lib/domain/firing/for-kiln";
import { planFiring } from "@/lib/domain/firing/plan";
import { planHistory, type PlanHistory } from "@/lib/domain/firing/plan-history";
import type { Outcome } from "@/lib/domain/refusal";
import type { MeshBody } from "@/lib/domain/shape/mesh/mesh-body";

type Planned = { readonly input: CastingInput; readonly mesh?: MeshBody | undefined };

/** What takes too long to be worked out between two keystrokes. Questions and answers travel to the worker and back by structured clone. */
export const WORK = {
  answer: ({ form, kilns, mesh }: { readonly form: CastingForm; readonly kilns: readonly KilnToPlan[]; readonly mesh: ReadMesh | null }): LiveAnswer => liveAnswer(form, kilns, mesh),
  plan: ({ input, mesh }: Planned): Outcome<CastingPlan> => planFiring(input, mesh),
  history: ({ input, mesh, plan }: Planned & { readonly plan: Pick<CastingPlan, "firing"> }): Outcome<PlanHistory> => planHistory(input, plan, mesh),
} as const;

export type WorkName = keyof typeof WORK;
export type WorkQuestion<N extends WorkName> = Parameters<(typeof WORK)[N]>[0];
export type WorkAnswer<N extends WorkName> = ReturnType<(typeof WORK)[N]>;

export type WorkMessage = { readonly id: number; readonly name: WorkName; readonly question: unknown };
export type WorkReply = { readonly id: number; readonly answer: unknown } | { readonly id: number; readonly failed: string };

export function replyTo({ id, name, question }: WorkMessage): WorkReply {
  try {
    const does = WORK[name] as (question: unknown) => unknown;
    return { id, answer: does(question) };
  } catch (error) {
    return { id, failed: error instanceof Error ? error.message : String(error) };
  }
}
