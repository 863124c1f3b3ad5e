import type { Move } from "@/lib/domain/settling/clash/settlement";

/** Where a settlement wanted a run, by the day its door closes. */
export type WantedPlace = { readonly runId: string; readonly kilnId: string; readonly day: number };

/** What became of one move when a settlement was computed again. */
export type MoveChange =
  | { readonly change: "gone"; readonly runId: string; readonly before: WantedPlace }
  | { readonly change: "different"; readonly runId: string; readonly before: WantedPlace; readonly after: Move }
  | { readonly change: "new" | "same"; readonly runId: string; readonly after: Move };

const ORDER = ["gone", "different", "new", "same"] as const;

/** Two settlements move by move: what is gone first, then what is different, what is new, and what is as it was. */
export function changesOf(before: readonly WantedPlace[], after: readonly Move[]): MoveChange[] {
  const changes = [
    ...before.filter(({ runId }) => !after.some((move) => move.runId === runId)).map((one): MoveChange => ({ change: "gone", runId: one.runId, before: one })),
    ...after.map((move): MoveChange => {
      const was = before.find(({ runId }) => runId === move.runId);
      if (was === undefined) return { change: "new", runId: move.runId, after: move };
      const isSame = was.kilnId === move.to.kilnId && was.day === move.to.day;
      return isSame ? { change: "same", runId: move.runId, after: move } : { change: "different", runId: move.runId, before: was, after: move };
    }),
  ];
  return changes.toSorted((a, b) => ORDER.indexOf(a.change) - ORDER.indexOf(b.change));
}
