import { Stack } from "@/app/_components/page";
import { Panel } from "@/app/_components/panel";
import type { SeasonScreen } from "@/lib/server/queries/season";
import { BestSoFar } from "./best-so-far";
import { LookAgain } from "./look-again";
import { SeasonSteps } from "./season-steps";
import { StopPlanning } from "./stop-planning";
import styles from "../season.module.css";

const LOOK_EVERY_MS = 1_500;

/** How far the planning is: its step, its time, the best so far, and how far from the best possible that can be at most. */
export function SeasonProgress({ screen, spanWords }: { readonly screen: SeasonScreen; readonly spanWords: string }) {
  const { replanId, state, ran, seconds, isStopping, by } = screen;
  const gone = Math.round(ran ?? 0);
  return (
    <Panel title="Being planned" lead={`${spanWords}, asked for by ${by}. You may leave this page; it goes on, and nothing moves before you accept the plan.`}>
      <Stack>
        <SeasonSteps screen={screen} />
        <div className={styles["time"]}>
          {state !== "waiting" && <progress className={styles["progress"]} value={Math.min(gone, seconds)} max={seconds} aria-label={`${gone} of ${seconds} seconds`} />}
          <p className={styles["soft"]} data-season={state}>{timeWords(screen, gone)}</p>
        </div>
        <BestSoFar screen={screen} />
        <div>
          <StopPlanning replanId={replanId} isStopping={isStopping} look={stopWords(screen)} />
        </div>
        <LookAgain everyMs={LOOK_EVERY_MS} />
      </Stack>
    </Panel>
  );
}

function stopWords({ state, cost }: SeasonScreen): string {
  if (state === "waiting") return "Do not plan it";
  return cost === null ? "Stop with the first plan found" : "Stop, and take the best so far";
}

function timeWords({ state, seconds, isStopping }: SeasonScreen, gone: number): string {
  if (state === "waiting") return "Nobody has begun yet: it is taken up within seconds, unless another season is being planned.";
  if (isStopping) return state === "searching" ? "Stopping: the best plan so far is taken." : "Stopping: the best plan so far is being tried out.";
  return gone > seconds ? `${gone} s, longer than the ${seconds} s asked for: the last plan is still being tried out.` : `${gone} s of ${seconds} s`;
}
