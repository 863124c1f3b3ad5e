import { Button } from "@/app/_components/button";
import { ComparedPlans, TIME_FIGURES } from "@/app/_components/compared-plans";
import { levelCostWords, levelWords } from "@/app/_components/level-words";
import { LinkButton } from "@/app/_components/link-button";
import { numberText } from "@/app/_components/number-text";
import { Panel } from "@/app/_components/panel";
import { Row } from "@/app/_components/page";
import { RadioGroup } from "@/app/_components/radio-group";
import { paths } from "@/lib/contracts/paths";
import { changesOf } from "@/lib/contracts/taken-fields";
import type { CastingInput } from "@/lib/domain/firing/casting-input";
import type { CastingPlan } from "@/lib/domain/firing/casting-plan";
import { thicknessReach, whatIfOf } from "@/lib/domain/firing/what-if";
import type { Glass } from "@/lib/domain/glass/glass";
import { CAREFUL } from "@/lib/domain/stress/stress-level";
import { SliderField } from "./slider-field";
import { ThicknessChart } from "./thickness-chart";
import type { AskedField, PlanAnswer, WhatIfState } from "./use-what-if";
import type { Sweep } from "./use-thickness-sweep";
import { WhatIfEffect } from "./what-if-effect";
import styles from "./why-page.module.css";

type WhatIfPanelProps = {
  readonly input: CastingInput;
  readonly glass: Glass;
  readonly state: WhatIfState;
  readonly sweep: Sweep | null;
  /** The casting that the values may be taken into; null where it is not this person's. */
  readonly takeInto: string | null;
};

/** What would shorten it: three figures to try, the effect beside them, nothing of it saved. */
export function WhatIfPanel({ input, glass, state, sweep, takeInto }: WhatIfPanelProps) {
  const base = planOf(state.base);
  const present = whatIfOf(input);
  const changes = changesOf(input, state.whatIf);
  const changed = Object.keys(changes).length > 0;
  const askedPlan = planOf(state.answer);
  return (
    <Panel title="What if" lead="Try another thickness, wall or stress level. Nothing that is saved changes.">
      <WhatIfEffect base={base} answer={state.answer} />
      <div className={styles["whatIf"]}>
        <div className={styles["fields"]}>
          <Fields input={input} glass={glass} state={state} />
          <Row>
            {takeInto !== null && changed && state.problems.length === 0 && askedPlan !== null && (
              <LinkButton href={paths.castingWith(takeInto, changes)} look="main">
                Take these into the casting
              </LinkButton>
            )}
            <Button onClick={state.reset}>As it is now</Button>
          </Row>
        </div>
        <div className={styles["fields"]}>
          {base !== null && askedPlan !== null && <ComparedPlans caption="The present plan and the one asked about" figures={TIME_FIGURES} before={{ name: "Now", plan: base }} after={{ name: "What if", plan: askedPlan }} />}
          {sweep === null ? (
            <p className={styles["hint"]}>The thickness of a mesh is worked out from its shape; send a thinner or hollow one to see what it saves.</p>
          ) : (
            <ThicknessChart
              sweep={sweep}
              present={base === null || present.thickestMm === undefined ? null : { thickestMm: present.thickestMm, hours: base.reservation.hours }}
              asked={askedPlan === null || state.whatIf.thickestMm === undefined || !changed ? null : { thickestMm: state.whatIf.thickestMm, hours: askedPlan.reservation.hours }}
            />
          )}
        </div>
      </div>
    </Panel>
  );
}

function Fields({ input, glass, state: { asked, set, problems, byLevel } }: { readonly input: CastingInput; readonly glass: Glass; readonly state: WhatIfState }) {
  const present = whatIfOf(input);
  const field = (name: AskedField) => ({ name, value: asked[name], onChange: (value: string) => set({ [name]: value }), error: problems.find((problem) => problem.field === name)?.message });
  const own = { permanentMPa: Number(asked["stress.permanentMPa"].replace(",", ".")), passingMPa: Number(asked["stress.passingMPa"].replace(",", ".")) };
  const readable = own.permanentMPa > 0 && own.passingMPa > 0;
  const [careful, loose] = [planOf(byLevel.careful), planOf(byLevel.own)];
  const cost = careful === null || loose === null || byLevel.careful.busy || byLevel.own.busy ? "" : `: ${levelCostWords(loose.reservation.hours, careful.reservation.hours)}`;
  return (
    <>
      {present.thickestMm !== undefined && (
        <SliderField {...field("piece.thickestMm")} label="Thickest part" unit="mm" reach={thicknessReach(input, present.thickestMm)} step={1} hint={`Now ${numberText(present.thickestMm)} mm. Hollowing a piece makes it thinner.`} />
      )}
      {present.wallMm !== undefined && <SliderField {...field("mould.wallMm")} label="Mould wall" unit="mm" reach={WALL_REACH} step={1} hint={`Now ${numberText(present.wallMm)} mm. A thin wall may not hold the glass: see the mould's own advice.`} />}
      <RadioGroup
        name="whatif.level" label="How much stress may stay" value={asked.level} onChange={(level) => set({ level: level === "own" ? "own" : "careful" })}
        choices={[
          { value: "careful", label: "Careful", hint: `${levelWords(CAREFUL, glass)}: what published tables for thick pieces keep to.` },
          { value: "own", label: "My own limits", hint: readable ? `${levelWords(own, glass)}${cost}.` : undefined },
        ]}
      />
      {asked.level === "own" && (
        <>
          <SliderField {...field("stress.permanentMPa")} label="Largest permanent tension" unit="MPa" reach={PERMANENT_REACH} step={0.05} />
          <SliderField {...field("stress.passingMPa")} label="Largest passing tension" unit="MPa" reach={PASSING_REACH} step={0.1} />
        </>
      )}
    </>
  );
}

/** What is worth trying with a slider; the fields take the whole range. */
const WALL_REACH = [15, 80] as const;
const PERMANENT_REACH = [0.1, 2] as const;
const PASSING_REACH = [0.5, 6] as const;

function planOf({ outcome }: PlanAnswer): CastingPlan | null {
  return outcome !== null && outcome.ok ? outcome.value : null;
}
