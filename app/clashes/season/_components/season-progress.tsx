import { KeyFigure, KeyFigures } from "@/app/_components/key-figure";
import { Stack } from "@/app/_components/page";
import { Panel } from "@/app/_components/panel";
import { percentAbove } from "@/lib/domain/settling/clash/settlement";
import type { SeasonScreen } from "@/lib/server/queries/season";
import { LookAgain } from "./look-again";
import { StopPlanning } from "./stop-planning";
import styles from "../season.module.css";

const SAYS: Readonly<Record<string, string>> = {
  waiting: "Waits for the process that does the jobs.",
  searching: "Looks for plans, in days.",
  placing: "Tries the plan out to the quarter hour; what the hours refuse is ruled out, and it is settled again.",
};
const LOOK_EVERY_MS = 1_500;

/** How far the planning is: time, the best so far, and how far from the best possible that can be at most. */
export function SeasonProgress({ screen, spanWords }: { readonly screen: SeasonScreen; readonly spanWords: string }) {
  const { replanId, state, ran, seconds, runs, moves, cost, bound, isStopping, by } = screen;
  const percent = cost === null || bound === null ? null : percentAbove(cost, bound);
  return (
    <Panel title="Being planned" lead={`${spanWords}, asked for by ${by}. You may leave this page; it goes on, and nothing moves before you accept the plan.`}>
      <Stack>
        <p data-season={state}>{isStopping && state === "searching" ? "Stopping: the best so far is taken." : SAYS[state]}</p>
        <progress className={styles["progress"]} value={Math.min(ran ?? 0, seconds)} max={seconds} aria-label={`${Math.round(ran ?? 0)} of ${seconds} seconds`} />
        <KeyFigures>
          <KeyFigure small label="gone by" value={Math.round(ran ?? 0)} unit={`of ${seconds} s`} />
          <KeyFigure small label="runs and asks" value={runs ?? "–"} />
          <KeyFigure small label="of them the best plan so far moves or books" value={moves ?? "–"} />
          <KeyFigure small label="what it costs, in points" value={cost === null ? "–" : Math.round(cost * 10) / 10} />
          <KeyFigure small label="no plan can cost less than" value={bound === null ? "–" : Math.round(bound * 10) / 10} />
          <KeyFigure small label="from the best possible, at most" value={percent ?? "–"} unit={percent === null ? undefined : "%"} />
        </KeyFigures>
        <div>
          <StopPlanning replanId={replanId} isStopping={isStopping} />
        </div>
        <LookAgain everyMs={LOOK_EVERY_MS} />
      </Stack>
    </Panel>
  );
}
