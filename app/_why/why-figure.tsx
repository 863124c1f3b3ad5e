"use client";

import { useState, type ReactNode } from "react";
import { Button } from "@/app/_components/button";
import { classNames } from "@/app/_components/class-names";
import { Row } from "@/app/_components/page";
import { HistoryDrawing, type HistoryPicture } from "./history-drawing";
import { nearestRow, type HistorySize } from "./history-frame";
import { LineLegend } from "./history-lines";
import { momentText, rowText } from "./history-words";
import { SectionDrawing } from "./section-drawing";
import type { Across, Cut } from "./section-frame";
import styles from "./history.module.css";

/** One drawing per room it may be given; the stylesheet shows the one that fits. */
const SIZES: readonly { readonly name: string; readonly size: HistorySize; readonly section: number }[] = [
  { name: "small", size: { width: 360, heatHeight: 210, stressHeight: 170, text: 12 }, section: 360 },
  { name: "middle", size: { width: 600, heatHeight: 240, stressHeight: 180, text: 13 }, section: 480 },
  { name: "large", size: { width: 1080, heatHeight: 300, stressHeight: 200, text: 14 }, section: 560 },
];

/** Where the passing tension stands, and the frozen compression below it. */
const FIRST = "Half way down";

type Zoom = "whole" | "soak";

type WhyFigureProps = HistoryPicture & { readonly cut: Omit<Cut, "halfMm">; readonly failed: boolean; /** The whole load, cut. */ readonly mould?: ReactNode };

/** Program, glass and stress over time, and across the piece at the moment chosen. */
export function WhyFigure({ cut, failed, mould, ...picture }: WhyFigureProps) {
  const { history, segments, startClock } = picture;
  // What bare glass passes while it is heated would leave no room to see the rest.
  const [zoom, setZoom] = useState<Zoom>(cut.wallMm > 0 ? "whole" : "soak");
  const [across, setAcross] = useState<Across>("stress");
  const [wished, setWished] = useState<number | null>(null);
  const soakH = segments.find(({ stage }) => stage === "Soak")?.fromH ?? 0;
  const rows = history?.rows ?? [];
  const endH = Math.max(segments.at(-1)?.toH ?? 0, rows.at(-1)?.h ?? 0);
  const span = [zoom === "soak" ? soakH : 0, endH] as const;
  const h = Math.max(span[0], wished ?? history?.moments.find(({ name }) => name === FIRST)?.h ?? soakH);
  const at = nearestRow(rows, h);
  const row = rows[at];
  const said = row === undefined || history === null ? "" : rowText(row, row.h >= history.glassFromH, startClock);
  const step = (by: number) => setWished(rows[Math.min(rows.length - 1, Math.max(0, at + by))]?.h ?? h);
  return (
    <figure className={styles["figure"]}>
      <div className={styles["controls"]}>
        <LineLegend kinds={[...(picture.whatIf.length > 0 ? (["whatIf"] as const) : []), "kiln", "surface", "core"]} />
        <Row>
          <Toggle on={zoom === "whole"} onPress={() => setZoom("whole")}>Whole firing</Toggle>
          <Toggle on={zoom === "soak"} onPress={() => setZoom("soak")}>From Soak on</Toggle>
        </Row>
      </div>
      {SIZES.map(({ name, size }) => (
        <div key={name} className={classNames(styles["variant"], styles[name])}>
          <HistoryDrawing {...picture} size={size} span={span} row={row} onMoment={setWished} />
        </div>
      ))}
      {history === null ? (
        !failed && <p role="status" className={styles["said"]}>Working out how the glass follows its program…</p>
      ) : (
        <>
          <label className={styles["seek"]}>
            <span className="sr-only">Moment of the firing</span>
            <input
              type="range" min={span[0]} max={span[1]} step="any" value={h} aria-valuetext={said} className={styles["range"]}
              onChange={(event) => setWished(Number(event.currentTarget.value))}
              onKeyDown={(event) => {
                const by = { ArrowRight: 1, ArrowUp: 1, ArrowLeft: -1, ArrowDown: -1, PageUp: 20, PageDown: -20 }[event.key];
                if (by === undefined) return;
                event.preventDefault();
                step(by);
              }}
            />
          </label>
          <Row>
            {history.moments.map((moment) => (
              <Button key={moment.name} look="bare" onClick={() => setWished(moment.h)} title={momentText(moment.h, startClock)}>
                {moment.name}
              </Button>
            ))}
          </Row>
          <p className={styles["said"]}>{said}</p>
          {row !== undefined && (
            <div className={styles["across"]}>
              <div className={styles["controls"]}>
                <h3>Across the piece</h3>
                <Row>
                  <Toggle on={across === "stress"} onPress={() => setAcross("stress")}>Stress</Toggle>
                  <Toggle on={across === "heat"} onPress={() => setAcross("heat")}>Temperature</Toggle>
                </Row>
              </div>
              <div className={styles["cuts"]}>
                <div>
                  {SIZES.map(({ name, section }) => (
                    <div key={name} className={classNames(styles["variant"], styles[name])}>
                      <SectionDrawing width={section} row={row} history={history} cut={{ ...cut, halfMm: history.halfMm }} across={across} said={`Across the piece, ${said}`} />
                    </div>
                  ))}
                </div>
                {mould}
              </div>
            </div>
          )}
        </>
      )}
    </figure>
  );
}

function Toggle({ on, onPress, children }: { readonly on: boolean; readonly onPress: () => void; readonly children: string }) {
  return (
    <Button look={on ? "main" : "plain"} aria-pressed={on} onClick={onPress}>
      {children}
    </Button>
  );
}
