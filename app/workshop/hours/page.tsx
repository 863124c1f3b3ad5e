import type { Metadata } from "next";
import { Temporal } from "temporal-polyfill";
import { ConfirmWithReason } from "@/app/_components/confirm-with-reason";
import { Empty } from "@/app/_components/empty";
import { Page, PageHead } from "@/app/_components/page";
import { Panel } from "@/app/_components/panel";
import { paths } from "@/lib/contracts/paths";
import { showDate } from "@/lib/domain/time/show-time";
import { pageWho } from "@/lib/server/page-who";
import { workshopHours, type ClosureLine } from "@/lib/server/queries/workshop-hours";
import styles from "../workshop.module.css";
import { removeClosureAction } from "./actions";
import { ClosureForm } from "./closure-form";
import { TomorrowForm } from "./tomorrow-form";
import { WeekForm } from "./week-form";

export const metadata: Metadata = { title: "Hours" };

export default async function HoursPage() {
  const who = await pageWho("manage-hours", paths.hours);
  const { weekly, closures, today, tomorrowHour } = await workshopHours(who, undefined);
  return (
    <Page>
      <PageHead title="Hours" lead={`When people are there who can load and unload, on the clock of ${who.timeZone}.`} />
      <Panel title="The week" lead="Loading and unloading are only planned in these hours, with no more hands than are on duty.">
        <WeekForm weekly={weekly} />
      </Panel>
      <Panel title="Closures">
        {closures.length === 0 ? <Empty title="No closures ahead">Holidays and days away stand here.</Empty> : <Closures closures={closures} />}
        <ClosureForm today={today} />
      </Panel>
      <Panel title="Mail about tomorrow" lead="The loads and lifts of the next day, to all who have ticked it on their profile page; assistants get all of them.">
        <TomorrowForm hour={tomorrowHour} />
      </Panel>
    </Page>
  );
}

function Closures({ closures }: { readonly closures: readonly ClosureLine[] }) {
  const day = (iso: string) => `${showDate(Temporal.PlainDate.from(iso))} ${iso.slice(0, 4)}`;
  return (
    <ul className={styles["outages"]}>
      {closures.map((closure) => (
        <li key={closure.closureId}>
          {day(closure.from)}
          {closure.to !== closure.from && ` to ${day(closure.to)}`}: {closure.reason}{" "}
          <ConfirmWithReason trigger="Remove" look="bare" title="Remove this closure?" confirmText="Remove it" reason="offered" values={{ closureId: closure.closureId }} action={removeClosureAction} />
        </li>
      ))}
    </ul>
  );
}
