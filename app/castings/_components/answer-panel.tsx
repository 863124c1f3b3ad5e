import { CautionNote } from "@/app/_components/caution-note";
import { classNames } from "@/app/_components/class-names";
import { Empty } from "@/app/_components/empty";
import { FiringCurve } from "@/app/_components/firing-curve";
import { LinkButton } from "@/app/_components/link-button";
import { MarginWhy } from "@/app/_components/margin-why";
import { Panel } from "@/app/_components/panel";
import { Slow } from "@/app/_components/slow";
import { paths } from "@/lib/contracts/paths";
import { CAUTION_SENTENCES } from "@/lib/domain/safety/caution";
import type { CostGround } from "@/lib/domain/tariff/starts";
import { AnswerBatches } from "./answer-batches";
import { AnswerColdWork } from "./answer-cold-work";
import { AnswerCost } from "./answer-cost";
import { AnswerFigures } from "./answer-figures";
import { AnswerGlass } from "./answer-glass";
import { AnswerKilns } from "./answer-kilns";
import { AnswerLifts } from "./answer-lifts";
import { AnswerMould } from "./answer-mould";
import { castingCautions } from "./casting-cautions";
import { type Answer, shownKiln } from "./live-answer";
import styles from "./answer.module.css";

type AnswerPanelProps = {
  readonly answer: Answer | null;
  readonly costs: CostGround;
  /** The answer is to what was typed before; what is typed now does not add up yet. */
  readonly stale: boolean;
  readonly working: boolean;
  readonly leadGlass: boolean;
  readonly chosenKiln: string | null;
  readonly onChooseKiln: (equipmentId: string) => void;
  /** A saved casting has sheets to print. */
  readonly castingId?: string | undefined;
};

/** All that follows from the description: glass, mould, kiln, firing, lifts, and what to mind. */
export function AnswerPanel({ answer, costs, stale, working, leadGlass, chosenKiln, onChooseKiln, castingId }: AnswerPanelProps) {
  if (answer === null && working) return <Slow text="Working out the answer…" />;
  if (answer === null) {
    return (
      <Empty title="The answer appears here as you type">
        Choose a glass and give the size of the piece: glass to order, mould to mix, the firing plan and its kiln-weeks follow at once.
      </Empty>
    );
  }
  const shown = shownKiln(answer, chosenKiln);
  const plan = shown?.plan ?? answer.general;
  const where = shown === undefined ? "a large ideal kiln" : shown.kiln.name;
  return (
    <div className={classNames(styles["answer"], stale && styles["stale"])} aria-busy={working || undefined}>
      <AnswerFigures plan={plan} where={where} />
      <AnswerKilns answer={answer} shownId={shown?.kiln.equipmentId ?? null} onChoose={onChooseKiln} />
      <Panel
        title="Firing plan"
        lead={`In ${where}. Temperatures are those the program asks for; why each stage takes what it takes stands beside it.`}
        actions={castingId !== undefined && <LinkButton href={paths.castingWhy(castingId, shown?.kiln.equipmentId)}>Why so long?</LinkButton>}
      >
        <FiringCurve stages={plan.firing.stages} />
        <MarginWhy reservation={plan.reservation} />
      </Panel>
      {shown?.plan && <AnswerCost plan={shown.plan} kiln={shown.kiln} ground={costs} />}
      <AnswerGlass plan={plan} />
      <AnswerMould plan={plan} input={answer.input} />
      <AnswerBatches plan={plan} input={answer.input} mesh={answer.mesh} castingId={castingId} />
      <AnswerLifts plan={plan} />
      <AnswerColdWork input={answer.input} mesh={answer.mesh} castingId={castingId} />
      {plan.warnings.length > 0 && (
        <Panel title="Mind">
          <ul className={styles["warnings"]}>
            {plan.warnings.map((warning) => (
              <li key={warning}>{warning}</li>
            ))}
          </ul>
        </Panel>
      )}
      <CautionNote>
        <ul className={styles["cautions"]}>
          {castingCautions(leadGlass).map(({ about, text }) => (
            <li key={about}>
              <strong>{about}.</strong> {text}
            </li>
          ))}
        </ul>
        {CAUTION_SENTENCES.map((sentence) => (
          <p key={sentence}>{sentence}</p>
        ))}
      </CautionNote>
    </div>
  );
}
