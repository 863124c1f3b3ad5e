import type { CastingInput } from "@/lib/domain/firing/casting-input";
import type { CastingPlan } from "@/lib/domain/firing/casting-plan";
import { loadMasses, meshNotRead, type LoadMasses } from "@/lib/domain/firing/load-masses";
import { planFiring } from "@/lib/domain/firing/plan";
import { bodyOfCasting, lagOfCasting } from "@/lib/domain/firing/planned-body";
import { completeGlass } from "@/lib/domain/glass/complete-glass";
import type { Glass } from "@/lib/domain/glass/glass";
import { ok, refuse, type Outcome, type Problem } from "@/lib/domain/refusal";
import type { CoolingBody } from "@/lib/domain/shape/cooling-body";
import type { MeshBody } from "@/lib/domain/shape/mesh/mesh-body";
import { stressLimits, type StressLimits } from "@/lib/domain/stress/stress-level";

/** One casting of a shared firing. Its `input` names the kiln, the same for all of them. */
export type Sharer = {
  readonly castingId: string;
  readonly title: string;
  readonly input: CastingInput;
  /** The body of a mesh piece. */
  readonly mesh?: MeshBody | undefined;
};

/** A casting with its glass, masses and body, but without a plan: enough to see whether it could share at all. */
export type LaidSharer = Sharer & {
  readonly glass: Glass;
  readonly load: LoadMasses;
  readonly body: CoolingBody;
  readonly lagHours: number;
  readonly limits: StressLimits;
};

/** A casting with what is worked out from it alone, in the same kiln. */
export type PreparedSharer = LaidSharer & { readonly alone: CastingPlan };

/** Plans each casting alone; a refusal names the casting. In the order of their ids, so that no order given to it matters. */
export function prepareSharers(sharers: readonly Sharer[]): Outcome<readonly PreparedSharer[]> {
  const prepared: PreparedSharer[] = [];
  for (const sharer of [...sharers].sort((a, b) => (a.castingId < b.castingId ? -1 : 1))) {
    const one = prepare(sharer);
    if (!one.ok) return one;
    prepared.push(one.value);
  }
  return ok(prepared);
}

function prepare(sharer: Sharer): Outcome<PreparedSharer> {
  const { input, mesh, title } = sharer;
  const alone = planFiring(input, mesh);
  if (!alone.ok) {
    const [first, ...rest] = alone.problems;
    const named = (problem: Problem): Problem => ({ ...problem, message: `${title}: ${problem.message}` });
    return refuse(named(first), ...rest.map(named));
  }
  const laid = layOut(sharer);
  return laid.ok ? ok({ ...laid.value, alone: alone.value }) : laid;
}

/** @param sharer one whose input has been checked, as every stored casting's has */
export function layOut(sharer: Sharer): Outcome<LaidSharer> {
  const { input, mesh } = sharer;
  const completed = completeGlass(input.glass);
  if (!completed.ok) return completed;
  const unread = meshNotRead(input, mesh);
  if (unread !== undefined) return unread;
  const { glass } = completed.value;
  const load = loadMasses(input, glass, mesh);
  return ok({ ...sharer, glass, load, body: bodyOfCasting(input, load), lagHours: lagOfCasting(input, load, glass), limits: stressLimits(input.stress) });
}
