import path from "node:path";
import { readCastingInput } from "@/lib/contracts/casting-input";
import type { CastingPlan } from "@/lib/domain/firing/casting-plan";
import type { ColdWorkPlan } from "@/lib/domain/coldworking/cold-work";
import { coldWorkOf } from "@/lib/domain/firing/casting-cold-work";
import { mouldBatches } from "@/lib/domain/firing/casting-batches";
import { planFiring } from "@/lib/domain/firing/plan";
import type { MouldBatches } from "@/lib/domain/mould/batches";
import { ok, type Outcome } from "@/lib/domain/refusal";
import { endWithFaults, readJson } from "./read-json";
import { readMeshOf } from "./read-mesh";

/** npm run --silent plan -- casting.json: one JSON document on standard output, or exit 2 with a line per fault. */
const [name] = process.argv.slice(2);
const json = readJson(name);
if (!json.ok) endWithFaults([json.sentence]);
else {
  const plan = planOf(json.value);
  if (plan.ok) process.stdout.write(`${JSON.stringify(plan.value, null, 2)}\n`);
  else endWithFaults(plan.problems.map((problem) => problem.message));
}

/** The plan, and beside its promised keys what follows from it on the bench. */
type Printed = CastingPlan & { readonly mould: { readonly batches: MouldBatches | null }; readonly coldWorking: ColdWorkPlan };

function planOf(value: unknown): Outcome<Printed> {
  const input = readCastingInput(value);
  if (!input.ok) return input;
  const besides = name === undefined || name === "-" ? process.cwd() : path.dirname(name);
  const mesh = readMeshOf(input.value.piece, besides);
  if (!mesh.ok) return mesh;
  const plan = planFiring(input.value, mesh.value);
  if (!plan.ok) return plan;
  const batches = mouldBatches(input.value, plan.value, mesh.value);
  if (!batches.ok) return batches;
  const coldWorking = coldWorkOf(input.value, "usual", "by-shape", mesh.value);
  if (!coldWorking.ok) return coldWorking;
  return ok({ ...plan.value, mould: { ...plan.value.mould, batches: batches.value }, coldWorking: coldWorking.value });
}
