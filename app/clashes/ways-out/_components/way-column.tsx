import { Temporal } from "temporal-polyfill";
import { KilnWall } from "@/app/_components/kiln-wall";
import { waysOutHref, type AskedWays, type TriedWay } from "@/lib/contracts/ways-out";
import type { KilnWallScreen } from "@/lib/server/queries/kiln-wall";
import type { WayOut } from "@/lib/server/ways-out/ways-out";
import { PutForm } from "../../by-hand/_components/put-form";
import { AcceptWay } from "./accept-way";
import { MoveLine } from "./move-line";
import { wallAfter } from "./wall-after";
import { AIM_WORDS, DISTANCE_MEANS, distanceWords, figureWords, wasWords } from "./way-words";
import styles from "../ways-out.module.css";

export type WayProps = {
  readonly way: WayOut;
  readonly asked: AskedWays;
  readonly kilns: ReadonlyMap<string, string>;
  readonly today: string;
  readonly fingerprint: string;
  readonly wall: KilnWallScreen;
  /** All runs that may be moved. */
  readonly titles: ReadonlyMap<string, string>;
  readonly timeZone: string;
  readonly say: (day: string) => string;
  /** Its figures when it was last shown. */
  readonly was: string | undefined;
};

/** One way out: what it looks at first, its figures, how good it is, every move, and the wall after it. */
export function WayColumn(props: WayProps) {
  const { way, asked, today, wall, titles, kilns, timeZone, fingerprint, was } = props;
  const { title, lead } = AIM_WORDS[way.aim];
  const before = wasWords(way, was);
  return (
    <section className={styles["way"]} aria-label={title} data-way={way.aim}>
      <h2>{title}</h2>
      <p className={styles["soft"]}>{lead}</p>
      <ul className={styles["figures"]}>
        {figureWords(way.figures).map((text) => <li key={text}>{text}</li>)}
      </ul>
      {before !== undefined && <p className={styles["soft"]}>{before}</p>}
      <p className={styles["distance"]}>{distanceWords(way)}</p>
      {way.atMostPercent !== 0 && <p className={styles["soft"]}>{DISTANCE_MEANS}</p>}
      <ol className={styles["moves"]}>
        {way.times.map((time) => <MoveLine key={time.runId} time={time} {...props} />)}
      </ol>
      <AcceptWay title={title} kind={way.aim} again={waysOutHref({ ...asked, tried: triedWay(way, today) })} moves={way.times.map(({ runId, kilnId, kilnFrom }) => ({ runId, kilnId, kilnFrom }))} fingerprint={fingerprint} requestKey={way.requestKey} />
      <details>
        <summary className={styles["summary"]}>Put a run elsewhere by hand</summary>
        <PutForm id={`put-${way.aim}`} edited={{ base: { way: triedWay(way, today) }, puts: [] }} titles={titles} kilns={kilns} today={today} />
      </details>
      <details>
        <summary className={styles["summary"]}>The kiln wall after it</summary>
        <KilnWall {...wallAfter(wall, way)} timeZone={timeZone} />
      </details>
    </section>
  );
}

/** Should the calendar have changed when it is accepted: what it was, to say what is different. */
export function triedWay({ aim, cost, moves }: Pick<WayOut, "aim" | "cost" | "moves">, today: string): TriedWay {
  const first = Temporal.PlainDate.from(today);
  return { aim, cost, moves: moves.map(({ runId, to }) => ({ runId, kilnId: to.kilnId, day: first.add({ days: to.day }).toString() })) };
}
