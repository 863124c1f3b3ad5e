/** Numbers from 0 to 1 that are the same in every run: Park & Miller, Communications of the ACM 31 (1988) 1192. */
export function seeded(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 48_271) % 2_147_483_647;
    return state / 2_147_483_647;
  };
}
