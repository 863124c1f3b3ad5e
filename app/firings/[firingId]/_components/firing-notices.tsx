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
  if (!firing.planNow.differs) return <Notice>The casting was changed since, and still needs the same kiln time.</Notice>;
  if (difference < 0) return <Notice>{`The casting was changed since and would now need ${showHours(-difference)} less. The booking keeps its plan until the run is moved to another kiln or booked anew.`}</Notice>;
  return (
    <Notice tone="needsYou" action={firing.mine ? <LinkButton href={paths.casting(firing.castingId)}>See the casting</LinkButton> : undefined}>
      {`The casting was changed since: it would now need ${showHours(difference)} more than is planned here. Lengthen the booking, or cancel this run and book one made for the casting as it is.`}
    </Notice>
  );
}
