import { Temporal } from "temporal-polyfill";
import { Panel } from "@/app/_components/panel";
import type { FiringScreen } from "@/lib/server/queries/firing";
import { expectAction, lengthenAction, shortenAction } from "../actions";
import { TimeForm } from "./time-form";
import styles from "../firing.module.css";

/** When the kiln will really be cool, and a longer or shorter booking; for whoever runs the firing. */
export function TimeForms({ firing, timeZone }: { readonly firing: FiringScreen; readonly timeZone: string }) {
  const running = firing.status === "planned" || firing.status === "started";
  if (!running || !firing.mayRun) return null;
  const { firingId } = firing;
  return (
    <Panel title="Longer, or shorter?" lead="Say so as soon as you know: whoever follows can be moved in time, and what is given back is free for others at once.">
      <div className={styles["forms"]}>
        <TimeForm
          action={expectAction}
          firingId={firingId}
          field="at"
          label="Expected to be cool enough to unload"
          value={local(firing.expectedEnd ?? firing.unloadFrom ?? firing.kiln.to, timeZone)}
          reasonLabel="Why"
          submit="Keep the expected end"
        />
        {(firing.mine || firing.mayManage) && (
          <TimeForm
            action={lengthenAction}
            firingId={firingId}
            field="kilnTo"
            label="Hold the kiln until at least"
            value={local(freeWhenCool(firing), timeZone)}
            reasonLabel="Why (if you like)"
            submit="Lengthen the booking"
          />
        )}
        {(firing.mine || firing.mayManage) && (
          <TimeForm
            action={shortenAction}
            firingId={firingId}
            field="freeFrom"
            label="Give the kiln back from"
            value={local(firing.kiln.to, timeZone)}
            reasonLabel="Why (if you like)"
            submit="Shorten the booking"
          />
        )}
      </div>
    </Panel>
  );
}

/** When the kiln would be free if unloading and turnaround follow as soon as the load is expected to be cool. */
function freeWhenCool({ expectedEnd, unloadFrom, kiln }: FiringScreen): string {
  if (expectedEnd === null || unloadFrom === null) return kiln.to;
  const late = Math.max(0, Date.parse(expectedEnd) - Date.parse(unloadFrom));
  return Temporal.Instant.from(kiln.to).add({ milliseconds: late }).toString();
}

/** An instant as the wall-clock text of a date-and-time field. */
function local(iso: string, timeZone: string): string {
  return Temporal.Instant.from(iso).toZonedDateTimeISO(timeZone).toPlainDateTime().toString({ smallestUnit: "minute" });
}
