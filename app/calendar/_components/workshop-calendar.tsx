"use client";

import { useCallback, useEffect, useState, type ComponentType } from "react";
import { Button } from "@/app/_components/button";
import { Slow } from "@/app/_components/slow";
import { Trouble } from "@/app/_components/trouble";
import type { CalendarBoardProps } from "./calendar-board";

/** Fetches the drawing of the calendar when it is needed, and says so when that fails. */
export function WorkshopCalendar(props: CalendarBoardProps) {
  const [Board, setBoard] = useState<ComponentType<CalendarBoardProps>>();
  const [failed, setFailed] = useState(false);
  const fetchBoard = useCallback(() => {
    setFailed(false);
    import("./calendar-board").then(
      (module) => setBoard(() => module.CalendarBoard),
      () => setFailed(true),
    );
  }, []);
  useEffect(fetchBoard, [fetchBoard]);
  if (failed) {
    return (
      <Trouble title="The calendar could not be fetched" action={<Button onClick={fetchBoard}>Try again</Button>}>
        The connection broke off. Nothing was changed.
      </Trouble>
    );
  }
  return Board === undefined ? <Slow text="Drawing the calendar…" /> : <Board {...props} />;
}
