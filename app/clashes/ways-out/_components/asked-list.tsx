import { LinkButton } from "@/app/_components/link-button";
import { waysOutHref, type AskedPlace, type AskedWays } from "@/lib/contracts/ways-out";
import { kilnName } from "./way-words";
import styles from "../ways-out.module.css";

type Props = {
  readonly asked: AskedWays;
  readonly titles: ReadonlyMap<string, string>;
  readonly kilns: ReadonlyMap<string, string>;
  readonly say: (day: string) => string;
};

/** What every way has to keep, each with a way to drop it. */
export function AskedList({ asked, titles, kilns, say }: Props) {
  const title = (runId: string): string => titles.get(runId) ?? "A run that may not move";
  const place = ({ kilnId, day }: AskedPlace): string => `${kilnName(kilns, kilnId)} on ${say(day)}`;
  const lines = [
    ...asked.keep.map((id) => ({ text: `${title(id)} stays where it stands`, without: { ...asked, keep: asked.keep.filter((one) => one !== id) } })),
    ...asked.hold.map((one) => ({ text: `${title(one.runId)} goes to ${place(one)}`, without: { ...asked, hold: asked.hold.filter((other) => other !== one) } })),
    ...asked.not.map((one) => ({ text: `${title(one.runId)} does not go to ${place(one)}`, without: { ...asked, not: asked.not.filter((other) => other !== one) } })),
  ];
  if (lines.length === 0) return null;
  return (
    <ul className={styles["asked"]} aria-label="What you asked for">
      {lines.map(({ text, without }) => (
        <li key={text} className={styles["wish"]}>
          <span>{text}.</span>
          <LinkButton prefetch={false} href={waysOutHref(without)} look="bare">Drop this wish</LinkButton>
        </li>
      ))}
    </ul>
  );
}
