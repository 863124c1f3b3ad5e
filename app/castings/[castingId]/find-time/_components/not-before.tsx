import { buttonClass } from "@/app/_components/button";
import { paths } from "@/lib/contracts/paths";
import styles from "../find-time.module.css";

type Props = { readonly castingId: string; readonly today: string; readonly notBefore: string | undefined };

/** Looks again from another day on. Works without script. */
export function NotBefore({ castingId, today, notBefore }: Props) {
  return (
    <form action={paths.findTime(castingId)} className={styles["notBefore"]}>
      <label htmlFor="notBefore">Not before</label>
      <input id="notBefore" key={notBefore} type="date" name="notBefore" min={today} defaultValue={notBefore ?? today} />
      <button type="submit" className={buttonClass()}>
        Look again
      </button>
    </form>
  );
}
