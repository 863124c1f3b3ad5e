import { Panel } from "@/app/_components/panel";
import type { ClashAsk } from "@/lib/server/rows/clash-asks";
import styles from "../clashes.module.css";
import { ClashAskRow } from "./clash-ask-row";

type Props = { readonly wishes: readonly ClashAsk[]; readonly timeZone: string };

/** Asks that can be met: their clash is settled, or there never was one. */
export function FreeWishes({ wishes, timeZone }: Props) {
  if (wishes.length === 0) return null;
  return (
    <Panel tone="needsYou" title="Asks whose weeks are free" lead="They are offered time in their order, which stands under Asks. To book one here is out of that order, and the record says so.">
      <ul className={styles["rows"]}>
        {wishes.map((ask) => (
          <ClashAskRow key={ask.askId} ask={ask} timeZone={timeZone} />
        ))}
      </ul>
    </Panel>
  );
}
