import { useId } from "react";
import type { Feeder, Piece } from "@/lib/domain/firing/casting-input";
import type { CastingPlan } from "@/lib/domain/firing/casting-plan";
import { MouldLabels } from "./mould-labels";
import { mouldSection, type MouldSection } from "./mould-section";
import { numberText } from "./number-text";
import styles from "./to-scale.module.css";

type MouldDrawingProps = {
  readonly plan: Pick<CastingPlan, "mould" | "loadMm" | "pot" | "glass">;
  readonly shape: Piece["shape"];
  readonly wallMm: number;
  readonly feeder?: Feeder | undefined;
};

/** A cut through mould, feeder and pot as they stand in the kiln, to scale. Nothing for bare glass. */
export function MouldDrawing({ plan, shape, wallMm, feeder }: MouldDrawingProps) {
  if (!(plan.mould.wetKg > 0)) return null;
  const section = mouldSection(plan, shape, wallMm, feeder);
  const [width, depth, height] = plan.mould.outsideMm.map((mm) => numberText(mm));
  const said = `Cut through the load, ${numberText(plan.loadMm.height)} mm tall: mould ${width} by ${depth} by ${height} mm outside, wall ${numberText(wallMm)} mm, pot ${numberText(plan.pot.heightMm)} mm tall above it.`;
  return (
    <svg viewBox={`0 0 ${section.width} ${section.height}`} className={styles["section"]} role="img" aria-label={said}>
      <MouldCut section={section} />
      <PotCut section={section} chargeKg={plan.glass.chargeKg} />
      <path d={`M8 ${section.foot}H${section.middle * 2 - 8}`} className={styles["ground"]} />
      <MouldLabels section={section} plan={plan} wallMm={wallMm} feeder={feeder} />
    </svg>
  );
}

/** The investment hatched, the hollow that the glass will fill left blank. */
function MouldCut({ section }: { readonly section: MouldSection }) {
  const hatch = useId();
  const outside = [section.bodyPath, section.collarPath];
  const hollow = [section.piecePath, section.channelPath];
  return (
    <g>
      <defs>
        <pattern id={hatch} width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <path d="M0 0V6" className={styles["hatch"]} />
        </pattern>
      </defs>
      {/* Edges first, then areas over them: where two parts meet, the edge between them disappears. */}
      {outside.map((d) => (
        <path key={d} d={d} className={styles["cutEdge"]} />
      ))}
      {outside.map((d) => (
        <path key={d} d={d} className={styles["cut"]} />
      ))}
      {outside.map((d) => (
        <path key={d} d={d} fill={`url(#${hatch})`} />
      ))}
      {hollow.map((d) => (
        <path key={d} d={d} className={styles["cutEdge"]} />
      ))}
      {hollow.map((d) => (
        <path key={d} d={d} className={styles["hollow"]} />
      ))}
    </g>
  );
}

function PotCut({ section, chargeKg }: { readonly section: MouldSection; readonly chargeKg: number }) {
  if (section.potPath === "") return null;
  return (
    <g>
      <path d={section.propPath} className={styles["prop"]} />
      {chargeKg > 0 && section.chunkPaths.map((d) => <path key={d} d={d} className={styles["chunk"]} />)}
      <path d={section.potPath} className={styles["potWall"]} />
    </g>
  );
}
