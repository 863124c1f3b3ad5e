import { Temporal } from "temporal-polyfill";
import { LinkButton } from "@/app/_components/link-button";
import { Notice } from "@/app/_components/notice";
import { paths } from "@/lib/contracts/paths";
import { showHours, showTime } from "@/lib/domain/time/show-time";
import type { FiringScreen } from "@/lib/server/queries/firing";

/** What is unusual about this firing: ended, running late, or planned from a casting that has changed. */
export function FiringNotices({ firing, timeZone }: { readonly firing: FiringScreen; readonly timeZone: string }) {
  return (
    <>
      {firing.endedReason !== null && <Notice tone="trouble">{`Ended: ${firing.endedReason}`}</Notice>}
      <ExpectedEnd firing={firing} timeZone={timeZone} />
      <ChangedPlan firing={firing} />
    </>
  );
}

function ExpectedEnd({ firing, timeZone }: { readonly firing: FiringScreen; readonly timeZone: string }) {
  if (firing.expectedEnd === null) return null;
  const expected = Temporal.Instant.from(firing.expectedEnd);
  const due = Temporal.Instant.from(firing.unloadFrom ?? firing.kiln.to);
  const lateHours = expected.since(due).total({ unit: "hours" });
  const text = `Expected to be cool at ${showTime(expected, timeZone)}`;
  if (!(lateHours > 0)) return <Notice>{text}, in time for its unloading.</Notice>;
  return <Notice tone="trouble">{`${text}, ${showHours(lateHours)} after its unloading is booked.`}</Notice>;
}

function ChangedPlan({ firing }: { readonly firing: FiringScreen }) {
  if (firing.planNow === null) return null;
  const difference = firing.planNow.hours - firing.plan.reservation.hours;
  const compare = firing.mine || firing.mayManage ? <LinkButton href={paths.planAnew(firing.firingId)}>Compare the plans</LinkButton> : undefined;
  if (difference === 0) return <Notice action={compare}>The casting was changed since, and still needs the same kiln time.</Notice>;
  return (
    <Notice tone={difference > 0 ? "needsYou" : undefined} action={compare}>
      {`The casting was changed since: it would now need ${showHours(Math.abs(difference))} ${difference > 0 ? "more" : "less"} than is planned here. The run keeps its plan until somebody takes the new one.`}
    </Notice>
  );
}
