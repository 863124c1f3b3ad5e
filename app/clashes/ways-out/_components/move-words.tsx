import { Temporal } from "temporal-polyfill";
import type { Move } from "@/lib/domain/settling/clash/settlement";
import { showTime } from "@/lib/domain/time/show-time";
import type { CarriedOut } from "@/lib/server/ways-out/write-moves";
import { kilnName, neededWords, placeWords, shiftWords } from "./way-words";
import styles from "../ways-out.module.css";

type Props = {
  readonly move: Move;
  readonly time: CarriedOut;
  readonly kilns: ReadonlyMap<string, string>;
  /** Day 0. */
  readonly today: string;
  readonly timeZone: string;
  readonly say: (day: string) => string;
};

/** One move: whose, from where to where, by how many days, and whether its date is kept. */
export function MoveWords({ move, time, kilns, today, timeZone, say }: Props) {
  const iso = (day: number): string => Temporal.PlainDate.from(today).add({ days: day }).toString();
  const stands = move.from === null ? "asked for" : placeWords(kilns, today, say)(move.from);
  const at = (text: string): string => showTime(Temporal.Instant.from(text), timeZone);
  return (
    <>
      <strong>{move.title}</strong>, {move.memberName}
      <div>
        <span className={styles["from"]}>{stands}</span> → {kilnName(kilns, time.kilnId)}, {at(time.kilnFrom)}, free {at(time.kilnTo)}
      </div>
      <div className={styles["soft"]}>
        {shiftWords(move)} {neededWords(move, say, iso)}
      </div>
    </>
  );
}
