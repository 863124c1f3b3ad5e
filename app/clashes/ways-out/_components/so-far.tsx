import { Suspense } from "react";
import { percentAbove } from "@/lib/domain/settling/clash/settlement";
import { LEFT_OUT } from "@/lib/domain/settling/days/day-plan";
import type { WaysProgress, WaysReached } from "@/lib/server/ways-out/ways-progress";
import { AIM_WORDS, points } from "./way-words";
import styles from "../ways-out.module.css";

/**
 * How far the ways out are, while they are worked out: each line comes down the same stream as the page, and hides the
 * one before it; the last one, which is empty, hides them all. It needs no script.
 */
export async function SoFar({ progress }: { readonly progress: WaysProgress }) {
  const reached = await progress.later();
  if (reached === null) return <div className={styles["soFar"]} />;
  return (
    <div className={styles["soFar"]}>
      <div className={styles["soFarLine"]}>{words(reached).map((text) => <p key={text}>{text}</p>)}</div>
      <Suspense>
        <SoFar progress={progress} />
      </Suspense>
    </div>
  );
}

function words({ seconds, round, stage, ways }: WaysReached): readonly string[] {
  const after = `After ${Math.round(seconds)} s${round > 1 ? `, settled ${round} times because the hours of some day refused a place` : ""}: ${stage === "placing" ? "the ways are tried out to the quarter hour." : "settled in days."}`;
  return [after, ...ways.map(({ aim, cost, bound }) => {
    if (cost >= LEFT_OUT) return `${AIM_WORDS[aim].title}: not everything has a place yet.`;
    const percent = percentAbove(cost, bound);
    return `${AIM_WORDS[aim].title}: ${points(cost)} so far, ${percent === null ? "nothing proven yet" : percent === 0 ? "proven the best" : `at most ${percent} % from the best`}.`;
  })];
}
