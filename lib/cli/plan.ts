import path from "node:path";
import { readCastingInput } from "@/lib/contracts/casting-input";
import { planDocument, type PlanDocument } from "@/lib/domain/firing/plan-document";
import type { Outcome } from "@/lib/domain/refusal";
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

function planOf(value: unknown): Outcome<PlanDocument> {
  const input = readCastingInput(value);
  if (!input.ok) return input;
  const besides = name === undefined || name === "-" ? process.cwd() : path.dirname(name);
  const mesh = readMeshOf(input.value.piece, besides);
  return mesh.ok ? planDocument(input.value, mesh.value) : mesh;
}
