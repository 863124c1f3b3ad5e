import { Temporal } from "temporal-polyfill";
import { LinkButton } from "@/app/_components/link-button";
import { Row } from "@/app/_components/page";
import { waysOutHref } from "@/lib/contracts/ways-out";
import { showTime } from "@/lib/domain/time/show-time";
import type { CarriedOut } from "@/lib/server/ways-out/carry-out";
import type { WayProps } from "./way-column";
import { neededWords, shiftWords } from "./way-words";
import styles from "../ways-out.module.css";

type Props = Omit<WayProps, "was" | "wall" | "fingerprint"> & { readonly time: CarriedOut };

/** One move: whose, from where to where, by how many days, and whether its date is kept; and what may be asked of it. */
export function MoveLine({ time, way, asked, kilns, today, timeZone, say }: Props) {
  const move = way.moves.find(({ runId }) => runId === time.runId);
  if (move === undefined) return null;
  const iso = (day: number): string => Temporal.PlainDate.from(today).add({ days: day }).toString();
  const kiln = (id: string): string => kilns.get(id) ?? "a retired kiln";
  const there = { runId: time.runId, kilnId: time.kilnId, day: iso(move.to.day) };
  const stands = move.from === null ? "asked for" : `${kiln(move.from.kilnId)}, ${say(iso(move.from.day))}`;
  const at = (text: string): string => showTime(Temporal.Instant.from(text), timeZone);
  return (
    <li className={styles["move"]}>
      <strong>{move.title}</strong>, {move.memberName}
      <div>
        <span className={styles["from"]}>{stands}</span> → {kiln(time.kilnId)}, {at(time.kilnFrom)}, free {at(time.kilnTo)}
      </div>
      <div className={styles["soft"]}>
        {shiftWords(move)} {neededWords(move, say, iso)}
      </div>
      <Row>
        {move.from !== null && <LinkButton prefetch={false} look="bare" href={waysOutHref({ ...asked, keep: [...asked.keep, time.runId] })}>Leave it where it is</LinkButton>}
        <LinkButton prefetch={false} look="bare" href={waysOutHref({ ...asked, hold: [...asked.hold, there] })}>Hold it there</LinkButton>
        <LinkButton prefetch={false} look="bare" href={waysOutHref({ ...asked, not: [...asked.not, there] })}>Not there</LinkButton>
      </Row>
    </li>
  );
}
