import { useEffect, type RefObject } from "react";
import styles from "./calendar.module.css";

/**
 * What the calendar leaves out of what it draws: a role for the days it labels, without which screen
 * readers pass the label over, the whole text of an entry that is cut off, and that some entries lead
 * nowhere.
 */
export function useNamedParts(board: RefObject<HTMLElement | null>): void {
  useEffect(() => {
    const root = board.current;
    if (root === null) return undefined;
    const observer = new MutationObserver(() => nameParts(root));
    observer.observe(root, { childList: true, subtree: true, characterData: true });
    nameParts(root);
    return () => observer.disconnect();
  }, [board]);
}

function nameParts(root: HTMLElement): void {
  for (const part of root.querySelectorAll(".sx__calendar div[aria-label]:not([role])")) part.setAttribute("role", "group");
  for (const still of root.querySelectorAll(`.${styles["still"] ?? "still"}`)) still.setAttribute("aria-disabled", "true");
  for (const entry of root.querySelectorAll(".sx__month-grid-event, .sx__date-grid-event, .sx__time-grid-event")) {
    const text = entry instanceof HTMLElement ? entry.innerText.replaceAll(/\s+/g, " ").trim() : "";
    if (entry.getAttribute("title") !== text) entry.setAttribute("title", text);
  }
}
