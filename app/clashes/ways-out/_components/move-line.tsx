import { Temporal } from "temporal-polyfill";
import { LinkButton } from "@/app/_components/link-button";
import { Row } from "@/app/_components/page";
import { waysOutHref } from "@/lib/contracts/ways-out";
import type { CarriedOut } from "@/lib/server/ways-out/write-moves";
import type { WayProps } from "./way-column";
import { MoveWords } from "./move-words";
import styles from "../ways-out.module.css";

type Props = Omit<WayProps, "was" | "wall" | "titles" | "fingerprint"> & { readonly time: CarriedOut };

/** One move of a way out, and what may be asked of it. */
export function MoveLine({ time, way, asked, kilns, today, timeZone, say }: Props) {
  const move = way.moves.find(({ runId }) => runId === time.runId);
  if (move === undefined) return null;
  const there = { runId: time.runId, kilnId: time.kilnId, day: Temporal.PlainDate.from(today).add({ days: move.to.day }).toString() };
  return (
    <li className={styles["move"]}>
      <MoveWords {...{ move, time, kilns, today, timeZone, say }} />
      <Row>
        {move.from !== null && <LinkButton prefetch={false} look="bare" href={waysOutHref({ ...asked, keep: [...asked.keep, time.runId] })}>Leave it where it is</LinkButton>}
        <LinkButton prefetch={false} look="bare" href={waysOutHref({ ...asked, hold: [...asked.hold, there] })}>Hold it there</LinkButton>
        <LinkButton prefetch={false} look="bare" href={waysOutHref({ ...asked, not: [...asked.not, there] })}>Not there</LinkButton>
      </Row>
    </li>
  );
}
