import { LinkButton } from "@/app/_components/link-button";
import { Panel } from "@/app/_components/panel";
import { paths } from "@/lib/contracts/paths";
import styles from "./home.module.css";

/** For a member who has nothing here yet: the way from a wax to a booked kiln. */
export function FirstSteps() {
  return (
    <Panel title="From wax to glass in three steps" actions={<LinkButton href={paths.newCasting} look="main">Describe a casting</LinkButton>}>
      <ol className={styles["steps"]} role="list">
        <li>
          <h3>Describe the casting</h3>
          <p>Weigh the wax, measure the thickest part. You see at once how much glass to order, how much mould to mix, and how many kiln-weeks it takes, and why.</p>
        </li>
        <li>
          <h3>Find time</h3>
          <p>Choose one of the earliest runs in the kilns that fit. Steamer, trolley, hands and kiln are booked together or not at all.</p>
        </li>
        <li>
          <h3>Keep the check sheet</h3>
          <p>On the day, go through the sheet at the kiln. The firing starts when what must be true has been ticked.</p>
        </li>
      </ol>
    </Panel>
  );
}
