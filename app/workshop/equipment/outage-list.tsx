import { Temporal } from "temporal-polyfill";
import { ConfirmWithReason } from "@/app/_components/confirm-with-reason";
import { showInterval, showTime } from "@/lib/domain/time/show-time";
import type { OutageLine } from "@/lib/server/queries/workshop-equipment";
import styles from "../workshop.module.css";
import { endOutageAction } from "./actions";

export function OutageList({ outages, timeZone }: { readonly outages: readonly OutageLine[]; readonly timeZone: string }) {
  return (
    <ul className={styles["outages"]}>
      {outages.map((outage) => (
        <li key={outage.outageId}>
          Out of service {when(outage, timeZone)}: {outage.reason}{" "}
          <ConfirmWithReason trigger="End it" look="bare" title="End this outage?" confirmText="End it" reason="none" values={{ outageId: outage.outageId }} action={endOutageAction}>
            <p>From now on it can be booked again. One that has not begun is taken off the calendar.</p>
          </ConfirmWithReason>
        </li>
      ))}
    </ul>
  );
}

function when({ fromMs, toMs }: OutageLine, timeZone: string): string {
  const start = Temporal.Instant.fromEpochMilliseconds(fromMs);
  if (toMs === null) return `from ${showTime(start, timeZone)}, until further notice`;
  return showInterval({ start, end: Temporal.Instant.fromEpochMilliseconds(toMs) }, timeZone);
}
