import { readCastingInput } from "@/lib/contracts/casting-input";
import { planFiring } from "@/lib/domain/firing/plan";
import { endWithFaults, readJson } from "./read-json";

/** npm run --silent plan -- casting.json: one JSON document on standard output, or exit 2 with a line per fault. */
const json = readJson(process.argv[2]);
if (!json.ok) endWithFaults([json.sentence]);
else {
  const input = readCastingInput(json.value);
  const plan = input.ok ? planFiring(input.value) : input;
  if (plan.ok) process.stdout.write(`${JSON.stringify(plan.value, null, 2)}\n`);
  else endWithFaults(plan.problems.map((problem) => problem.message));
}
