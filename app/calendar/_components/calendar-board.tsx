"use client";

import "temporal-polyfill/global";
import "@schedule-x/theme-default/dist/index.css";
import { createCalendar, createViewDay, createViewMonthAgenda, createViewMonthGrid, createViewWeek, createViewWeekAgenda } from "@schedule-x/calendar";
import { ScheduleXCalendar } from "@schedule-x/react";
import { useRouter } from "next/navigation";
import { useEffect, useMemo, useRef, useState } from "react";
import { Temporal } from "temporal-polyfill";
import type { CalendarPlace, CalendarScreen, CalendarView } from "@/lib/contracts/calendar";
import { stepped } from "./calendar-days";
import { calendarDriver, viewName } from "./calendar-driver";
import { CALENDARS, calendarEvent } from "./calendar-event";
import { CalendarHead } from "./calendar-head";
import { useNamedParts } from "./use-named-parts";
import { useNarrow } from "./use-narrow";
import { useRead } from "./use-read";
import styles from "./calendar.module.css";

export type CalendarBoardProps = { readonly screen: CalendarScreen; readonly place: CalendarPlace; readonly timeZone: string };

/** The calendar itself, in the browser only: it draws with the browser's own measures. */
export function CalendarBoard({ screen, place, timeZone }: CalendarBoardProps) {
  const router = useRouter();
  const narrow = useNarrow();
  const [view, setView] = useState<CalendarView>(place.view);
  const [day, setDay] = useState(() => Temporal.PlainDate.from(place.day ?? screen.today));
  const hrefs = useMemo(() => new Map(screen.entries.map((entry) => [entry.id, entry.href])), [screen.entries]);
  const open = useRef<(id: string) => void>(() => undefined);
  const [{ app, driver }] = useState(() => makeCalendar({ screen, timeZone, view: viewName(view, narrow), day, onOpen: (id) => open.current(id), onDay: setDay }));
  const here: CalendarPlace = { view, of: place.of, day: day.toString() === screen.today ? null : day.toString() };
  const board = useRef<HTMLDivElement>(null);
  useNamedParts(board);
  const reading = useRead(here, day, screen);

  useEffect(() => {
    open.current = (id) => {
      const href = hrefs.get(id);
      if (href) router.push(href);
    };
  }, [hrefs, router]);
  useEffect(() => app.events.set(screen.entries.map((entry) => calendarEvent(entry, timeZone))), [app, screen.entries, timeZone]);
  useEffect(() => holdFocus(() => driver.show(viewName(view, narrow), day)), [driver, view, narrow, day]);

  return (
    <div ref={board} className={styles["board"]}>
      <CalendarHead
        place={here}
        day={day}
        onView={setView}
        onStep={(step) => setDay((now) => stepped(now, view, step))}
        onToday={() => setDay(Temporal.PlainDate.from(screen.today))}
      />
      <p role="status" className={reading ? styles["reading"] : "sr-only"}>
        {reading ? "Fetching the bookings of these weeks…" : ""}
      </p>
      <ScheduleXCalendar calendarApp={app} />
    </div>
  );
}

type Making = {
  readonly screen: CalendarScreen;
  readonly timeZone: string;
  readonly view: string;
  readonly day: Temporal.PlainDate;
  readonly onOpen: (id: string) => void;
  readonly onDay: (day: Temporal.PlainDate) => void;
};

/** Half an hour has room for two lines of text. */
const HOUR_PX = 76;

function makeCalendar({ screen, timeZone, view, day, onOpen, onDay }: Making) {
  const driver = calendarDriver();
  const { from, to } = screen.hours;
  const app = createCalendar(
    {
      views: [createViewMonthGrid(), createViewMonthAgenda(), createViewWeek(), createViewWeekAgenda(), createViewDay()],
      defaultView: view,
      selectedDate: day,
      timezone: timeZone,
      locale: "en-GB",
      firstDayOfWeek: 1,
      dayBoundaries: { start: fullHour(from), end: fullHour(to) },
      weekOptions: { gridHeight: (to - from) * HOUR_PX, eventWidth: 97, eventOverlap: false, timeAxisFormatOptions: { hour: "2-digit", minute: "2-digit" } },
      // As many as there are: what is hidden behind "more" cannot be compared.
      monthGridOptions: { nEventsPerDay: 40 },
      calendars: CALENDARS,
      isResponsive: false,
      skipAnimations: true,
      callbacks: { onEventClick: (event) => onOpen(String(event.id)), onSelectedDateUpdate: onDay },
    },
    [driver],
  );
  return { app, driver };
}

function fullHour(hour: number): string {
  return `${String(hour).padStart(2, "0")}:00`;
}

/** The small month moves the focus to its chosen day whenever that changes; whoever pressed a button stays on it. */
function holdFocus(change: () => void): void {
  const held = document.activeElement;
  change();
  if (!(held instanceof HTMLElement) || held === document.body || held.closest(".sx__calendar") !== null) return;
  setTimeout(() => held.focus({ preventScroll: true }), 60);
}
