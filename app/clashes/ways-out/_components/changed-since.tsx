import { Temporal } from "temporal-polyfill";
import { Notice } from "@/app/_components/notice";
import { Stack } from "@/app/_components/page";
import { Panel } from "@/app/_components/panel";
import type { TriedWay } from "@/lib/contracts/ways-out";
import { changesOf, type MoveChange } from "@/lib/domain/settling/clash/difference";
import { runStates } from "@/lib/server/queries/run-states";
import type { Who } from "@/lib/server/who";
import type { WayOut } from "@/lib/server/ways-out/ways-out";
import { ChangeList } from "./change-list";
import { AIM_WORDS, costWords, placeWords } from "./way-words";

type Props = {
  readonly who: Who;
  readonly tried: TriedWay;
  readonly ways: readonly WayOut[];
  readonly titles: ReadonlyMap<string, string>;
  readonly today: string;
  readonly kilns: ReadonlyMap<string, string>;
  readonly say: (day: string) => string;
};

/** A way was accepted after the calendar had changed: what is different now that it is worked out again, move by move. */
export async function ChangedSince({ who, tried, ways, titles, today, kilns, say }: Props) {
  const now = ways.find(({ aim }) => aim === tried.aim) ?? ways[0];
  if (now === undefined) return null;
  const first = Temporal.PlainDate.from(today);
  const dayOf = (day: string): number => first.until(Temporal.PlainDate.from(day), { largestUnit: "days" }).days;
  const changes = changesOf(tried.moves.map(({ runId, kilnId, day }) => ({ runId, kilnId, day: dayOf(day) })), now.moves);
  const states = await runStates(who, changes.filter(({ change }) => change === "gone").map(({ runId }) => runId));
  const title = (change: MoveChange): string => ("after" in change ? change.after.title : (titles.get(change.runId) ?? states.get(change.runId)?.title ?? "A run that is not there any more"));
  return (
    <Stack>
      <Notice tone="trouble">The calendar has changed since “{AIM_WORDS[tried.aim].title}” was worked out, so nothing was moved. It is worked out again below.</Notice>
      <Panel title="What is different now" lead={costWords(tried.cost, now, tried.aim)}>
        <ChangeList changes={changes} title={title} place={placeWords(kilns, today, say)} state={(runId) => states.get(runId)?.state} />
      </Panel>
    </Stack>
  );
}
