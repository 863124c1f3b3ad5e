import { useSyncExternalStore } from "react";

/** Too narrow for seven days side by side. */
const NARROW = "(max-width: 47.99rem)";

/** Whether the window is a phone's width; only for what runs in the browser. */
export function useNarrow(): boolean {
  return useSyncExternalStore(
    (changed) => {
      const query = window.matchMedia(NARROW);
      query.addEventListener("change", changed);
      return () => query.removeEventListener("change", changed);
    },
    () => window.matchMedia(NARROW).matches,
    () => false,
  );
}
