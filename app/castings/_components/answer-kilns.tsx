import { Badge } from "@/app/_components/badge";
import { Button } from "@/app/_components/button";
import { DataTable, type Column } from "@/app/_components/data-table";
import { LoadAgainstKilns } from "@/app/_components/load-against-kilns";
import { Notice } from "@/app/_components/notice";
import { numberText } from "@/app/_components/number-text";
import { Panel } from "@/app/_components/panel";
import { noKilnFits } from "@/lib/domain/booking/fits";
import { kilnWeeksOfHours } from "@/lib/domain/time/kiln-weeks";
import { showHours } from "@/lib/domain/time/show-time";
import type { Answer, KilnAnswer } from "./live-answer";
import styles from "./answer.module.css";

type AnswerKilnsProps = { readonly answer: Answer; readonly shownId: string | null; readonly onChoose: (equipmentId: string) => void };

/** Which kilns take the load, for how long each, and what stands in the way in the others. */
export function AnswerKilns({ answer, shownId, onChoose }: AnswerKilnsProps) {
  const fitting = answer.kilns.filter((one) => one.reasons.length === 0);
  const { loadMm, shelfKg, pot, mould } = answer.general;
  const size = `${numberText(loadMm.width)} × ${numberText(loadMm.depth)} × ${numberText(loadMm.height)} mm with its pot, ${numberText(shelfKg, 1)} kg on the shelf.`;
  const columns: readonly Column<KilnAnswer>[] = [
    { key: "kiln", title: "Kiln", cell: ({ kiln }) => kiln.name },
    { key: "fits", title: "Fits", cell: ({ reasons }) => (reasons.length === 0 ? <Badge>fits</Badge> : <Reasons reasons={reasons} />) },
    { key: "weeks", title: "Kiln-weeks", cell: (one) => weeks(one) },
    { key: "held", title: "Held for", cell: (one) => held(one) },
    {
      key: "show", title: "Show", untitled: true,
      cell: ({ kiln, plan }) => plan !== null && <ShowButton shown={kiln.equipmentId === shownId} name={kiln.name} onChoose={() => onChoose(kiln.equipmentId)} />,
    },
  ];
  return (
    <Panel title="Kilns" lead={size}>
      <div className={styles["stack"]}>
        {fitting.length === 0 && <Notice tone="trouble">{noKilnFits(answer.general, answer.kilns.map((one) => one.kiln))}</Notice>}
        <LoadAgainstKilns
          loadMm={loadMm}
          potHeightMm={pot.heightMm}
          mouldHeightMm={mould.outsideMm[2]}
          kilns={answer.kilns.map(({ kiln, reasons }) => ({ name: kiln.name, insideMm: kiln.limits.insideMm, fits: reasons.length === 0 }))}
        />
        <DataTable caption="Kilns and this casting" columns={columns} rows={answer.kilns} rowKey={({ kiln }) => kiln.equipmentId} />
      </div>
    </Panel>
  );
}

function weeks({ plan, reasons }: KilnAnswer) {
  return plan === null || reasons.length > 0 ? "" : numberText(kilnWeeksOfHours(plan.reservation.hours), 1);
}

function held({ plan, reasons }: KilnAnswer) {
  return plan === null || reasons.length > 0 ? "" : showHours(plan.reservation.hours);
}

function Reasons({ reasons }: { readonly reasons: readonly string[] }) {
  return (
    <ul role="list" className={styles["reasons"]}>
      {reasons.map((reason) => (
        <li key={reason}>{reason}</li>
      ))}
    </ul>
  );
}

function ShowButton({ shown, name, onChoose }: { readonly shown: boolean; readonly name: string; readonly onChoose: () => void }) {
  return (
    <Button look="bare" aria-pressed={shown} onClick={onChoose}>
      {shown ? "Shown" : "Show"}
      <span className="sr-only"> the firing in {name}</span>
    </Button>
  );
}
