import { Temporal } from "temporal-polyfill";
import type { PluginBase } from "@schedule-x/calendar";
import type { CalendarView } from "@/lib/contracts/calendar";

/** The part of the calendar's inside that is steered from the head of the page. */
type Inside = {
  readonly datePickerState: { readonly selectedDate: { value: Temporal.PlainDate } };
  readonly calendarState: { readonly view: { readonly value: string }; setView(view: string, day: Temporal.PlainDate): void };
};

export type CalendarDriver = PluginBase<"driver"> & { show(view: string, day: Temporal.PlainDate): void };

/** Lets the page choose the view and the day, in place of the calendar's own head. */
export function calendarDriver(): CalendarDriver {
  let inside: Inside | undefined;
  return {
    name: "driver",
    beforeRender(app: Inside) {
      inside = app;
    },
    show(view, day) {
      if (inside === undefined) return;
      const { selectedDate } = inside.datePickerState;
      if (!selectedDate.value.equals(day)) selectedDate.value = Temporal.PlainDate.from(day);
      if (inside.calendarState.view.value !== view) inside.calendarState.setView(view, day);
    },
  };
}

/** The calendar's name for a view: grids where there is room, lists under a small month on a phone. */
export function viewName(view: CalendarView, narrow: boolean): string {
  if (view === "day") return "day";
  if (view === "month") return narrow ? "month-agenda" : "month-grid";
  return narrow ? "week-agenda" : "week";
}
