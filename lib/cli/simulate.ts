import { readSimulationRequest } from "@/lib/contracts/simulation-request";
import { simulateRequest } from "@/lib/domain/stress/simulation-request";
import { endWithFaults, readJson } from "./read-json";

/** npm run --silent simulate -- run.json: one JSON document on standard output, or exit 2 with a line per fault. */
const json = readJson(process.argv[2]);
if (!json.ok) endWithFaults([json.sentence]);
else {
  const request = readSimulationRequest(json.value);
  const answer = request.ok ? simulateRequest(request.value) : request;
  if (answer.ok) process.stdout.write(`${JSON.stringify(answer.value, null, 2)}\n`);
  else endWithFaults(answer.problems.map((problem) => problem.message));
}
