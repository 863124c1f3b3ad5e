import Link from "next/link";
import { Temporal } from "temporal-polyfill";
import { Badge } from "@/app/_components/badge";
import { paths } from "@/lib/contracts/paths";
import { showTime } from "@/lib/domain/time/show-time";
import type { SettlementScreen } from "@/lib/server/queries/settlement";
import styles from "../settlement.module.css";

type Props = { readonly move: SettlementScreen["moves"][number]; readonly timeZone: string };

/** One run that was moved or booked, from where to where. */
export function KeptMoveLine({ move, timeZone }: Props) {
  const at = (text: string): string => showTime(Temporal.Instant.from(text), timeZone);
  return (
    <li className={styles["line"]}>
      <span>
        <Link href={paths.firing(move.firingId)}>{move.title}</Link>{" "}
        <span className={styles["soft"]}>{move.from === null ? "asked for" : `${move.fromKiln}, ${at(move.from.kilnFrom)}`}</span> → {move.kiln}, {at(move.kilnFrom)}, free {at(move.kilnTo)}
      </span>
      {move.yours && <Badge tone="needsYou">yours</Badge>}
    </li>
  );
}
