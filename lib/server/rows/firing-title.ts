/** What a plan's row must be read with to be named; the castings are those of a joined plan, none for one casting's own. */
export const SHARED_TITLES = { castings: { select: { casting: { select: { castingId: true, title: true, memberId: true, updatedAt: true } } } } } as const;
export const PLAN_TITLE = { castingId: true, casting: { select: { title: true } }, ...SHARED_TITLES } as const;

type Named = {
  readonly castingId: string;
  readonly casting: { readonly title: string };
  readonly castings: readonly { readonly casting: { readonly castingId: string; readonly title: string } }[];
};

/** "Gull", or "Gull with Tern and Heron" where they share a firing; the casting that the plan is kept under comes first. */
export function titleOf({ castingId, casting, castings }: Named): string {
  return sharedTitle(casting.title, castings.map((one) => one.casting).filter((one) => one.castingId !== castingId).map(({ title }) => title));
}

export function sharedTitle(first: string, shared: readonly string[]): string {
  const others = [...shared].sort();
  if (others.length === 0) return first;
  return `${first} with ${others.length === 1 ? others[0] ?? "" : `${others.slice(0, -1).join(", ")} and ${others.at(-1) ?? ""}`}`;
}
