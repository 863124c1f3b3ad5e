import { readCastingInput } from "@/lib/contracts/casting-input";
import { readPlannedInput } from "@/lib/contracts/planned-input";
import { inputForKiln, type KilnToPlan } from "@/lib/domain/firing/for-kiln";
import type { CastingInput } from "@/lib/domain/firing/casting-input";
import { ok, type Outcome } from "@/lib/domain/refusal";
import type { Sharer } from "@/lib/domain/sharing/sharer";
import type { Tx } from "@/lib/server/db";
import { meshOf } from "@/lib/server/rows/mesh";

/** A casting of a shared firing, whose it is, and how it is planned: its input names the kiln. */
export type OwnedSharer = Sharer & { readonly memberId: string; readonly owner: string };

type CastingRow = { readonly castingId: string; readonly title: string; readonly memberId: string; readonly member: { readonly name: string } };
type PlanRow = { readonly planId: string; readonly castingId: string; readonly inputs: unknown };

/** The castings that hang on a firing, each as it was planned, in this kiln as it is now. In the order they joined. */
export async function plannedSharers(tx: Tx, plan: PlanRow, castings: readonly CastingRow[], kiln: KilnToPlan): Promise<Outcome<readonly OwnedSharer[]>> {
  const joined = await tx.planCasting.findMany({ where: { planId: plan.planId } });
  const sharers: OwnedSharer[] = [];
  for (const casting of castings) {
    const inputs = joined.find(({ castingId }) => castingId === casting.castingId)?.inputs ?? (casting.castingId === plan.castingId ? plan.inputs : undefined);
    const read = readPlannedInput(inputs);
    if (!read.ok) return read;
    sharers.push(await owned(tx, casting, read.value, kiln));
  }
  return ok(sharers);
}

/** A casting that may join, as it is described now. */
export async function newSharer(tx: Tx, casting: CastingRow & { readonly input: unknown }, kiln: KilnToPlan): Promise<Outcome<OwnedSharer>> {
  const read = readCastingInput(casting.input);
  return read.ok ? ok(await owned(tx, casting, read.value, kiln)) : read;
}

async function owned(tx: Tx, { castingId, title, memberId, member }: CastingRow, input: CastingInput, kiln: KilnToPlan): Promise<OwnedSharer> {
  return { castingId, title, memberId, owner: member.name, input: inputForKiln(input, kiln), mesh: await meshOf(tx, input) };
}
