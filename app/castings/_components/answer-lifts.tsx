import { Badge } from "@/app/_components/badge";
import { DataTable, type Column } from "@/app/_components/data-table";
import { numberText } from "@/app/_components/number-text";
import { Panel } from "@/app/_components/panel";
import type { CastingPlan, Lift } from "@/lib/domain/firing/casting-plan";

const WORDS: Readonly<Record<Lift["what"], string>> = {
  "to-steamer": "To the steamer",
  "from-steamer": "From the steamer",
  load: "Into the kiln",
  unload: "Out of the kiln",
};

const COLUMNS: readonly Column<Lift>[] = [
  { key: "what", title: "Lift", cell: (lift) => WORDS[lift.what] },
  { key: "kg", title: "Mass", cell: (lift) => `${numberText(lift.kg, 1)} kg` },
  { key: "state", title: "Mould is", cell: (lift) => stateWords(lift) },
  { key: "hands", title: "Hands", cell: (lift) => `${lift.hands} ${lift.hands === 1 ? "person" : "people"}${lift.trolley ? ", trolley" : ""}` },
  { key: "flag", title: "Heavy", untitled: true, cell: (lift) => <Flag flag={lift.flag} /> },
  { key: "why", title: "Why", cell: (lift) => lift.why },
];

/** The four times somebody has to move it. */
export function AnswerLifts({ plan }: { readonly plan: CastingPlan }) {
  if (plan.lifts.length === 0) return null;
  return (
    <Panel title="Lifts">
      <DataTable caption="Lifts of this casting" columns={COLUMNS} rows={plan.lifts} rowKey={(lift) => lift.what} />
    </Panel>
  );
}

function stateWords({ mouldState, hot }: Lift): string {
  return hot ? `${mouldState}, hot` : mouldState;
}

function Flag({ flag }: { readonly flag: Lift["flag"] }) {
  if (flag === "none") return null;
  return flag === "red" ? <Badge tone="trouble">mechanical aid</Badge> : <Badge tone="strong">heavy</Badge>;
}
