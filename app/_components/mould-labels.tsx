import type { Feeder } from "@/lib/domain/firing/casting-input";
import type { CastingPlan } from "@/lib/domain/firing/casting-plan";
import type { MouldSection } from "./mould-section";
import { numberText } from "./number-text";
import styles from "./to-scale.module.css";

type MouldLabelsProps = {
  readonly section: MouldSection;
  readonly plan: Pick<CastingPlan, "mould" | "loadMm" | "pot" | "glass">;
  readonly wallMm: number;
  readonly feeder?: Feeder | undefined;
};

type Label = { readonly words: string; readonly more: string; readonly atX: number; readonly atY: number };

const LINE = 34;

/** The names of the parts in a column beside the drawing, each with a leader to its part. */
export function MouldLabels({ section, plan, wallMm, feeder }: MouldLabelsProps) {
  const x = section.middle * 2 + 14;
  const labels = spread(labelsOf(section, plan, wallMm, feeder), section.height);
  return (
    <g>
      {labels.map(({ words, more, atX, atY, y }) => (
        <g key={words}>
          <path d={`M${atX} ${atY}L${x - 14} ${y - 4}H${x - 4}`} className={styles["dimension"]} />
          <circle cx={atX} cy={atY} r="2" className={styles["part"]} />
          <text x={x} y={y} fontSize="13" className={styles["part"]}>
            {words}
          </text>
          <text x={x} y={y + 15} fontSize="12" className={styles["words"]}>
            {more}
          </text>
        </g>
      ))}
    </g>
  );
}

function labelsOf(section: MouldSection, { mould, loadMm, pot, glass }: MouldLabelsProps["plan"], wallMm: number, feeder: Feeder | undefined): readonly Label[] {
  const { middle, loadTop, potFoot, mouldTop, pieceTop, pieceFoot, pieceHalf, mouldHalf, potHalf } = section;
  const gapMm = loadMm.height - mould.outsideMm[2] - pot.heightMm;
  const labels: Label[] = [];
  if (pot.heightMm > 0) {
    labels.push({ words: `pot, ${numberText(pot.litres, 1)} litres`, more: `${numberText(glass.chargeKg, 1)} kg of glass in it`, atX: middle + potHalf * 0.8, atY: loadTop + (potFoot - loadTop) * 0.3 });
    labels.push({ words: "prop gap", more: `${numberText(gapMm)} mm`, atX: middle + 2, atY: (potFoot + mouldTop) / 2 });
  }
  if (feeder !== undefined) {
    labels.push({ words: "feeder", more: `${numberText(feeder.diameterMm)} mm across, ${numberText(feeder.lengthMm)} mm long`, atX: middle, atY: (mouldTop + pieceTop) / 2 });
  }
  labels.push({ words: "piece", more: `${numberText(glass.pieceKg, 1)} kg of glass`, atX: middle + pieceHalf * 0.5, atY: pieceTop + (pieceFoot - pieceTop) * 0.5 });
  labels.push({ words: "mould", more: `wall ${numberText(wallMm)} mm, ${numberText(mould.wetKg, 1)} kg wet`, atX: middle + (pieceHalf + mouldHalf) / 2, atY: pieceTop + (pieceFoot - pieceTop) * 0.62 });
  return labels;
}

/** Pushes labels down until none touches the one above, and up again from the foot of the drawing. */
function spread(labels: readonly Label[], height: number): readonly (Label & { readonly y: number })[] {
  const ys: number[] = [];
  for (const label of labels) ys.push(Math.max(label.atY + 4, (ys.at(-1) ?? -Infinity) + LINE, 14));
  let limit = height - 20;
  for (let i = ys.length - 1; i >= 0; i -= 1) {
    ys[i] = Math.min(ys[i] ?? 0, limit);
    limit = (ys[i] ?? 0) - LINE;
  }
  return labels.map((label, i) => ({ ...label, y: ys[i] ?? label.atY }));
}
