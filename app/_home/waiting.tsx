import type { ReactNode } from "react";
import { classNames } from "@/app/_components/class-names";
import styles from "./home.module.css";

type WaitingProps = {
  readonly tone?: "needsYou" | "trouble" | undefined;
  readonly action?: ReactNode | undefined;
  readonly children: ReactNode;
};

/** One thing that waits for this person, and the way to it. */
export function Waiting({ tone = "needsYou", action, children }: WaitingProps) {
  return (
    <li className={classNames(styles["waiting"], styles[tone])}>
      <div className={styles["text"]}>{children}</div>
      {action}
    </li>
  );
}
