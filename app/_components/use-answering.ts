import { useSyncExternalStore } from "react";

const nothingToFollow = () => () => undefined;

/** Whether this part of the page answers yet: false while its scripts are on their way. For what must not be used before. */
export function useAnswering(): boolean {
  return useSyncExternalStore(nothingToFollow, () => true, () => false);
}
