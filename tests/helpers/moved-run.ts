import { randomUUID } from "node:crypto";
import type { Who } from "@/lib/server/who";
import { must } from "./booking";

/** Import after useFreshDatabase: the commands read the environment when they are loaded. */
const { moveRun } = await import("@/lib/server/commands/move-run");
const { moveTimes } = await import("@/lib/server/queries/move-times");

/** Moves a run to the first other time that is offered on this kiln. */
export async function movedRun(who: Who, firingId: string, kilnId: string): Promise<{ readonly kilnFrom: string }> {
  const screen = await moveTimes(who, { firingId });
  const runs = screen?.offers.kilns.find((kiln) => kiln.kilnId === kilnId)?.runs ?? [];
  const there = runs.find(({ kilnFrom }) => Date.parse(kilnFrom) !== Date.parse(screen?.kilnFrom ?? ""));
  if (screen === null || there === undefined) throw new Error("nothing to move to");
  return must(await moveRun(who, { firingId, kilnId, kilnFrom: there.kilnFrom, version: screen.version, requestKey: randomUUID() }));
}
