import { Panel } from "@/app/_components/panel";
import { PHASES } from "@/lib/domain/safety/template";
import type { CheckSheetScreen } from "@/lib/server/queries/check-sheet";
import { CheckLine } from "./check-line";
import styles from "../check-sheet.module.css";

/** The sheet, phase by phase, in the order in which the work is done. */
export function SheetPhases({ sheet, timeZone }: { readonly sheet: CheckSheetScreen; readonly timeZone: string }) {
  return PHASES.map(({ phase, title }) => {
    const lines = sheet.lines.filter((line) => line.item.phase === phase);
    if (lines.length === 0) return null;
    const done = lines.filter((line) => line.status !== "unanswered").length;
    return (
      <Panel key={phase} title={title} lead={`${done} of ${lines.length}`}>
        <ul className={styles["lines"]}>
          {lines.map((line) => (
            <CheckLine
              key={line.item.code}
              firingId={sheet.firingId}
              line={line}
              moment={sheet.moment}
              mayOverride={sheet.mayOverride}
              timeZone={timeZone}
            />
          ))}
        </ul>
      </Panel>
    );
  });
}
