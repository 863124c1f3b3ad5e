import { numberText } from "./number-text";
import { textWidth } from "./curve-layout";
import styles from "./to-scale.module.css";

export type KilnToScale = {
  readonly name: string;
  readonly insideMm: readonly [width: number, depth: number, height: number];
  readonly fits: boolean;
  /** What stands in the way, when it does not fit. */
  readonly reason?: string | undefined;
};

type LoadAgainstKilnsProps = {
  /** Outside of mould, prop gap and pot together. */
  readonly loadMm: { readonly width: number; readonly depth: number; readonly height: number };
  readonly potHeightMm: number;
  /** Height of the mould alone; without it, what is left below the pot is shown as mould and gap together. */
  readonly mouldHeightMm?: number | undefined;
  readonly kilns: readonly KilnToScale[];
};

/** Side views of the load in every kiln, all to one scale, with the words that say whether it fits. */
export function LoadAgainstKilns(props: LoadAgainstKilnsProps) {
  const { loadMm, kilns } = props;
  const tallest = kilns.reduce((most, kiln) => Math.max(most, kiln.insideMm[2]), loadMm.height);
  const widest = kilns.reduce((most, kiln) => Math.max(most, kiln.insideMm[0]), loadMm.width);
  const pxPerMm = Math.min(130 / Math.max(tallest, 1), 140 / Math.max(widest, 1));
  return (
    <ul role="list" className={styles["kilns"]} aria-label={`Load ${numberText(loadMm.height)} mm tall, against the kilns`}>
      {kilns.map((kiln) => (
        <li key={kiln.name} className={styles["kiln"]}>
          <KilnElevation {...props} kiln={kiln} pxPerMm={pxPerMm} tallest={tallest} />
          <div className={styles["kilnName"]}>{kiln.name}</div>
          <div className={kiln.fits ? styles["fits"] : styles["doesNotFit"]}>{fitWords(kiln, loadMm.height)}</div>
        </li>
      ))}
    </ul>
  );
}

type KilnElevationProps = LoadAgainstKilnsProps & { readonly kiln: KilnToScale; readonly pxPerMm: number; readonly tallest: number };

function KilnElevation({ kiln, loadMm, potHeightMm, mouldHeightMm, pxPerMm, tallest }: KilnElevationProps) {
  const px = (mm: number) => Math.round(mm * pxPerMm * 10) / 10;
  const [wall, foot, middle] = [6, 12 + px(tallest), 92];
  const [inWidth, inHeight] = [px(kiln.insideMm[0]), px(kiln.insideMm[2])];
  const [left, top] = [middle - inWidth / 2, foot - inHeight];
  const loadTop = foot - px(loadMm.height);
  const ruleX = left + inWidth + wall + 10;
  const text = numberText(kiln.insideMm[2]);
  return (
    <svg viewBox={`0 0 204 ${foot + 12}`} className={styles["drawing"]} role="img" aria-label={`${kiln.name}: ${kiln.insideMm.map((mm) => numberText(mm)).join(" by ")} mm inside`}>
      <path d={`M${left - wall} ${foot + wall}V${top - wall}H${left + inWidth + wall}V${foot + wall}Z M${left} ${foot}H${left + inWidth}V${top}H${left}Z`} fillRule="evenodd" className={styles["shell"]} />
      <LoadElevation middle={middle} foot={foot} px={px} loadMm={loadMm} potHeightMm={potHeightMm} mouldHeightMm={mouldHeightMm} />
      {loadTop < top && <path d={`M${left - wall - 4} ${top}H${left + inWidth + wall + 4}`} className={styles["over"]} />}
      <path d={`M${ruleX - 4} ${top}h8M${ruleX - 4} ${foot}h8M${ruleX} ${top}V${foot}`} className={styles["dimension"]} />
      <rect x={ruleX - textWidth(text, 14) / 2 - 2} y={(top + foot) / 2 - 9} width={textWidth(text, 14) + 4} height="17" className={styles["paper"]} />
      <text x={ruleX} y={(top + foot) / 2 + 4.5} fontSize="14" textAnchor="middle" className={styles["words"]}>
        {text}
      </text>
    </svg>
  );
}

type LoadElevationProps = Omit<LoadAgainstKilnsProps, "kilns"> & { readonly middle: number; readonly foot: number; readonly px: (mm: number) => number };

function LoadElevation({ middle, foot, px, loadMm, potHeightMm, mouldHeightMm }: LoadElevationProps) {
  const width = px(loadMm.width);
  const potTop = foot - px(loadMm.height);
  const potFoot = potTop + px(potHeightMm);
  const mouldTop = mouldHeightMm === undefined ? potFoot : foot - px(mouldHeightMm);
  const potWidth = Math.min(width, px(potHeightMm) * 1.1);
  const taper = potWidth * 0.14;
  const out = Math.max(width, potWidth - 2 * taper) / 2 + 3;
  return (
    <g>
      <rect x={middle - width / 2} y={mouldTop} width={width} height={foot - mouldTop} className={styles["mould"]} />
      {mouldTop - potFoot > 1 && <path d={`M${middle - out} ${foot}V${potFoot}H${middle + out}V${foot}`} className={styles["prop"]} />}
      {potHeightMm > 0 && <path d={`M${middle - potWidth / 2} ${potTop}H${middle + potWidth / 2}L${middle + potWidth / 2 - taper} ${potFoot}H${middle - potWidth / 2 + taper}Z`} className={styles["pot"]} />}
    </g>
  );
}

function fitWords(kiln: KilnToScale, loadHeight: number): string {
  if (!kiln.fits) return `✕ ${kiln.reason ?? "does not fit"}`;
  return `✓ fits, ${numberText(kiln.insideMm[2] - loadHeight)} mm above the pot`;
}
