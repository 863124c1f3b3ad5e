import { Temporal } from "temporal-polyfill";
import { Badge } from "@/app/_components/badge";
import { RunTimeline } from "@/app/_components/run-timeline";
import type { Stage } from "@/lib/domain/firing/casting-plan";
import { showDate, showTime } from "@/lib/domain/time/show-time";
import type { OfferedRun } from "@/lib/server/runs/run-offers";
import { BookForm } from "./book-form";
import { HoldForm } from "./hold-form";
import styles from "../find-time.module.css";

type Props = {
  readonly run: OfferedRun;
  readonly stages: readonly Stage[];
  readonly castingId: string;
  readonly requestKey: string;
  readonly timeZone: string;
  readonly neededBy: string | null;
  readonly main: boolean;
};

/** One whole run that can be booked with one click, drawn and in words. */
export function RunOffer({ run, stages, castingId, requestKey, timeZone, neededBy, main }: Props) {
  const ready = Temporal.Instant.from(run.readyAt);
  const values = { castingId, kilnId: run.kilnId, kilnFrom: run.kilnFrom, steamFrom: run.steamFrom ?? "" };
  const from = showTime(Temporal.Instant.from(run.parts[0]?.from ?? run.kilnFrom), timeZone);
  return (
    <div className={styles["offer"]}>
      <div className={styles["offerHead"]}>
        <p className={styles["ready"]}>
          Ready {showTime(ready, timeZone)} <Late daysLate={run.daysLate} neededBy={neededBy} />
        </p>
        <div className={styles["ways"]}>
          <BookForm main={main} values={{ ...values, requestKey }} label={`Book the run from ${from}`} />
          <HoldForm values={{ ...values, requestKey: `${requestKey}-hold` }} label={`Hold the run from ${from} for 24 hours`} />
        </div>
      </div>
      <RunTimeline parts={run.parts} lifts={run.lifts} stages={stages} kilnFrom={run.kilnFrom} timeZone={timeZone} />
    </div>
  );
}

function Late({ daysLate, neededBy }: { readonly daysLate: number; readonly neededBy: string | null }) {
  if (neededBy === null) return null;
  const by = showDate(Temporal.PlainDate.from(neededBy));
  if (daysLate === 0) return <Badge>in time for {by}</Badge>;
  return <Badge tone="trouble">{daysLate === 1 ? "1 day" : `${daysLate} days`} after {by}</Badge>;
}
