import type { ReactNode } from "react";
import { classNames } from "./class-names";
import styles from "./badge.module.css";

type BadgeProps = {
  readonly tone?: "plain" | "quiet" | "strong" | "needsYou" | "trouble" | undefined;
  readonly children: ReactNode;
};

/** A word or two about the state of something. The word carries the meaning; the colour only helps to find it. */
export function Badge({ tone = "plain", children }: BadgeProps) {
  return <span className={classNames(styles["badge"], tone !== "plain" && styles[tone])}>{children}</span>;
}
