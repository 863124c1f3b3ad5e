import { findClashes, type Clash, type ClashKind } from "@/lib/domain/booking/clash";
import { query } from "@/lib/server/query";
import { loadWishes, type ClashAsk } from "@/lib/server/rows/clash-asks";
import { loadClashState } from "@/lib/server/rows/clash-state";

export type ClashFiring = {
  readonly firingId: string;
  readonly title: string;
  readonly owner: string;
  readonly started: boolean;
  readonly kilnFromMs: number;
  readonly kilnToMs: number;
  readonly kiln: string;
};
export type ClashCard = {
  readonly key: string;
  readonly kind: ClashKind;
  readonly startMs: number;
  readonly endMs: number;
  readonly sentence: string;
  readonly equipmentNames: readonly string[];
  readonly firings: readonly ClashFiring[];
  readonly asks: readonly ClashAsk[];
};

/** Every clash with the firings and asks in it, in order of time. */
export const clashesScreen = query<undefined, readonly ClashCard[]>({
  name: "clashes",
  needs: "settle-clashes",
  run: async ({ who, tx, now }) => {
    const state = await loadClashState(tx, who, now);
    const names = new Map(state.equipment.map((e) => [e.equipmentId, e.name]));
    const name = (id: string) => names.get(id) ?? "retired equipment";
    const wishes = await loadWishes(tx, state);
    const card = (clash: Clash): ClashCard => ({
      key: clash.key,
      kind: clash.kind,
      startMs: clash.start.epochMilliseconds,
      endMs: clash.end.epochMilliseconds,
      sentence: clash.sentence,
      equipmentNames: clash.equipmentIds.map(name),
      firings: state.runs
        .filter((run) => clash.firingIds.includes(run.firingId))
        .map((run) => {
          const kiln = run.bookings.find((b) => b.purpose === "kiln");
          return {
            firingId: run.firingId,
            title: run.title,
            owner: run.ownerName,
            started: run.status === "started",
            kilnFromMs: kiln?.start.epochMilliseconds ?? 0,
            kilnToMs: kiln?.end.epochMilliseconds ?? 0,
            kiln: name(run.kilnId),
          };
        }),
      asks: wishes.filter((wish) => clash.askIds.includes(wish.askId)),
    });
    return findClashes(state).map(card);
  },
});

/**
 * The open wishes in whose way nothing stands, or no longer: they are in no clash, and still wait for an answer.
 */
export const freeWishes = query<undefined, readonly ClashAsk[]>({
  name: "free-wishes",
  needs: "settle-clashes",
  run: async ({ who, tx, now }) => {
    const state = await loadClashState(tx, who, now);
    const clashing = new Set(findClashes(state).flatMap((clash) => clash.askIds));
    return (await loadWishes(tx, state)).filter((wish) => !clashing.has(wish.askId));
  },
});
