import { Temporal } from "temporal-polyfill";
import { Panel } from "@/app/_components/panel";
import type { SeasonPlan } from "@/lib/contracts/replan";
import { changesOf, type MoveChange } from "@/lib/domain/settling/clash/difference";
import { ChangeList } from "../../ways-out/_components/change-list";
import { placeWords, points } from "../../ways-out/_components/way-words";

type Props = { readonly before: SeasonPlan; readonly plan: SeasonPlan; readonly kilns: ReadonlyMap<string, string>; readonly say: (day: string) => string };

/** What is different from the plan of the same days that was there before, move by move; nothing where nothing is. */
export function SeasonDifference({ before, plan, kilns, say }: Props) {
  const first = Temporal.PlainDate.from(plan.today);
  // Days are counted from when each was made.
  const shift = first.until(Temporal.PlainDate.from(before.today), { largestUnit: "days" }).days;
  const changes = changesOf(before.moves.map(({ runId, to }) => ({ runId, kilnId: to.kilnId, day: to.day + shift })), plan.moves);
  const different = changes.filter(({ change }) => change !== "same");
  if (different.length === 0) return null;
  const titleOf = (change: MoveChange): string => [...plan.moves, ...before.moves].find(({ runId }) => runId === change.runId)?.title ?? "";
  return (
    <Panel title="What is different from the plan before" lead={`It cost ${points(before.cost)} then and costs ${points(plan.cost)} now. ${changes.length - different.length} moves are as they were.`}>
      <ChangeList changes={different} title={titleOf} place={placeWords(kilns, plan.today, say)} />
    </Panel>
  );
}
