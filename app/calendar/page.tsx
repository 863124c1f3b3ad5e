import type { Metadata } from "next";
import { Temporal } from "temporal-polyfill";
import { LinkButton } from "@/app/_components/link-button";
import { Notice } from "@/app/_components/notice";
import { Page, PageHead } from "@/app/_components/page";
import { calendarHref, type CalendarPlace, type CalendarScreen } from "@/lib/contracts/calendar";
import { paths } from "@/lib/contracts/paths";
import { readCalendarPlace } from "@/lib/contracts/read-calendar-place";
import { can } from "@/lib/domain/access/roles";
import { pageWho } from "@/lib/server/page-who";
import { calendarScreen } from "@/lib/server/queries/calendar";
import type { Who } from "@/lib/server/who";
import { WorkshopCalendar } from "./_components/workshop-calendar";

export const metadata: Metadata = { title: "Calendar" };

type Props = { readonly searchParams: Promise<Readonly<Record<string, unknown>>> };

export default async function CalendarPage({ searchParams }: Props) {
  const place = readCalendarPlace(await searchParams);
  const who = await pageWho("see-workshop", calendarHref(place));
  const screen = await calendarScreen(who, { of: place.of, around: place.day === null ? null : Temporal.PlainDate.from(place.day) });
  return (
    <Page>
      <PageHead title="Calendar" lead={`All times are those of the workshop, ${who.timeZone.replaceAll("_", " ")}.`} actions={<LinkButton href={paths.wall}>Kiln wall</LinkButton>} />
      <NothingBooked screen={screen} place={place} who={who} />
      <WorkshopCalendar screen={screen} place={place} timeZone={who.timeZone} />
    </Page>
  );
}

const NO_BOOKING = new Set(["outage", "closure"]);

/** An empty calendar says why, and what would fill it. */
function NothingBooked({ screen, place, who }: { readonly screen: CalendarScreen; readonly place: CalendarPlace; readonly who: Who }) {
  if (screen.entries.some((entry) => !NO_BOOKING.has(entry.purpose))) return null;
  const action = can(who.roles, "write-castings") ? <LinkButton href={paths.castings}>Castings</LinkButton> : undefined;
  return (
    <Notice action={action}>
      {place.of === "mine" ? "No run of yours is booked in these months." : "No run is booked in these months."} A run stands here once time is found for a casting.
    </Notice>
  );
}
