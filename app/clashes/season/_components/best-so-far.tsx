import { KeyFigure, KeyFigures } from "@/app/_components/key-figure";
import { percentAbove } from "@/lib/domain/settling/clash/settlement";
import type { SeasonScreen } from "@/lib/server/queries/season";
import { distanceWords, points } from "../../ways-out/_components/way-words";
import styles from "../season.module.css";

/** The best plan so far in figures, or what is looked for until there is one. */
export function BestSoFar({ screen: { runs, moves, cost, bound } }: { readonly screen: SeasonScreen }) {
  if (runs === null || runs === 0) return null;
  if (cost === null || moves === null) return <p>Looks for a first plan of {runs === 1 ? "1 run or ask" : `${runs} runs and asks`}.</p>;
  const least = bound ?? 0;
  const percent = percentAbove(cost, least);
  const [costs, unit] = points(cost).split(" ");
  return (
    <section className={styles["best"]} aria-label="The best plan so far">
      <h3 className={styles["bestTitle"]}>The best plan so far</h3>
      <KeyFigures>
        <KeyFigure small label="runs and asks it moves or books" value={moves} unit={`of ${runs}`} />
        <KeyFigure small label="what that costs in days late and moves" value={costs} unit={unit} />
        {percent !== null && <KeyFigure small label="from the best possible, at most" value={percent} unit="%" />}
      </KeyFigures>
      <p className={styles["soft"]}>{percent === null ? distanceWords({ atMostPercent: null }) : `${percent === 0 ? `${distanceWords({ atMostPercent: 0 })} ` : ""}No plan can cost less than ${points(least)}.`}</p>
    </section>
  );
}
