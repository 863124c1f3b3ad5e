import { MarginWhy } from "@/app/_components/margin-why";
import { Panel } from "@/app/_components/panel";
import { showHours, showKilnWeeks } from "@/lib/domain/time/show-time";
import type { FindTimeScreen } from "@/lib/server/queries/find-time";
import type { KilnOffers } from "@/lib/server/runs/run-offers";
import { RunOffer } from "./run-offer";
import styles from "../find-time.module.css";

type Props = { readonly kiln: KilnOffers; readonly screen: FindTimeScreen; readonly timeZone: string; readonly soonest: boolean };

/** What one kiln offers: its earliest run, and later ones behind a fold. */
export function KilnOffer({ kiln, screen, timeZone, soonest }: Props) {
  const [first, ...later] = kiln.runs;
  if (first === undefined) return null;
  const offer = (run: typeof first) => ({
    run,
    stages: kiln.stages,
    castingId: screen.castingId,
    requestKey: `${screen.requestKey}-${run.kilnId.slice(0, 8)}-${run.kilnFrom}`,
    timeZone,
    neededBy: screen.neededBy,
  });
  return (
    <Panel
      tone={soonest ? "needsYou" : "plain"}
      title={kiln.kilnName}
      lead={`${soonest ? "Ready soonest. " : ""}${showKilnWeeks(kiln.reservation.hours)}: the firing takes ${showHours(kiln.reservation.hours)} here, margin included.`}
    >
      <MarginWhy reservation={kiln.reservation} />
      <RunOffer {...offer(first)} main={soonest} />
      {later.length > 0 && (
        <details className={styles["later"]}>
          <summary>Later on {kiln.kilnName}</summary>
          {later.map((run) => (
            <RunOffer key={run.kilnFrom} {...offer(run)} main={false} />
          ))}
        </details>
      )}
    </Panel>
  );
}
