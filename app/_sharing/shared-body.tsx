import { Temporal } from "temporal-polyfill";
import { KeyFigure } from "@/app/_components/key-figure";
import { numberText } from "@/app/_components/number-text";
import { Stack } from "@/app/_components/page";
import { Panel } from "@/app/_components/panel";
import { ProgramPair } from "@/app/_components/program-pair";
import { StageTable } from "@/app/_components/stage-table";
import { SPLIT_RULE } from "@/lib/domain/sharing/split-cost";
import { BETWEEN_MOULDS_MM } from "@/lib/domain/sharing/shelf-for";
import { showHours, showTime } from "@/lib/domain/time/show-time";
import type { SharedView } from "@/lib/server/joining/shared-view";
import { amountText } from "./amount-text";
import { SharedTable } from "./shared-table";
import { ShelfDrawing } from "./shelf-drawing";
import styles from "./sharing.module.css";

type SharedBodyProps = { readonly view: SharedView; readonly joining?: string | undefined; readonly timeZone: string };

/** Everything that a proposal to share is judged by: the end, the shelf, the program, and what each casting gets and pays. */
export function SharedBody({ view, joining, timeZone }: SharedBodyProps) {
  const { after, before, shelf, warnings } = view;
  return (
    <>
      <Panel title="What changes">
        <Figures view={view} timeZone={timeZone} />
      </Panel>
      <Panel title="On the shelf" lead={`Seen from above, to scale, the kiln’s front below. Moulds stand ${BETWEEN_MOULDS_MM} mm apart.`}>
        <div className={styles["shelves"]}>
          {before !== null && <ShelfDrawing title="Now" shelf={shelf} moment={before} />}
          <ShelfDrawing title={before === null ? "Together" : "With the new one"} shelf={shelf} moment={after} joining={joining} />
        </div>
      </Panel>
      <Panel title="For each casting" lead="Every casting was followed through the joined program behind its own mould.">
        <Stack>
          <SharedTable view={view} joining={joining} />
          <p>{SPLIT_RULE}{after.cost.currency === null ? " The workshop has no tariff yet, so the shares are shown as energy." : " By today’s tariff at these hours; an estimate, within about a fifth."}</p>
        </Stack>
      </Panel>
      <Panel title="The joined program" lead="Governed at every stage by the casting that asks for most.">
        <ProgramPair now={{ name: "All together", ...after }} before={before === null ? null : { name: "As it stands now", ...before }} timeZone={timeZone} />
        <StageTable stages={after.stages} startClock={{ instantMs: Date.parse(after.kilnFrom), timeZone }} />
        <ul className={styles["soft"]}>
          {warnings.map((warning) => (
            <li key={warning}>{warning}</li>
          ))}
        </ul>
      </Panel>
    </>
  );
}

function Figures({ view: { after, before, shelf }, timeZone }: { readonly view: SharedView; readonly timeZone: string }) {
  const time = (iso: string): string => showTime(Temporal.Instant.from(iso), timeZone);
  const was = (text: string | null): string => (text === null ? "" : `, now ${text}`);
  const { cost } = after;
  return (
    <div className={styles["figures"]}>
      <KeyFigure small label={`Kiln free again${was(before === null ? null : time(before.kilnTo))}`} value={time(after.kilnTo)} />
      <KeyFigure small label={`Door closes${was(before === null || before.kilnFrom === after.kilnFrom ? null : time(before.kilnFrom))}`} value={time(after.kilnFrom)} />
      <KeyFigure small label={`Kiln time${was(before === null ? null : showHours(before.reservationHours))}`} value={showHours(after.reservationHours)} />
      <KeyFigure small label={`On a shelf for ${numberText(shelf.shelfLoadKg)} kg${was(before === null ? null : `${numberText(before.loadKg, 1)} kg`)}`} value={numberText(after.loadKg, 1)} unit="kg" />
      <KeyFigure small label={`In all; apart it would be ${amountText(cost.apart, cost.currency)}`} value={amountText(cost.total, cost.currency)} />
    </div>
  );
}
