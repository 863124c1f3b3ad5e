import type { Problem } from "@/lib/domain/refusal";

/** What a form gets back from its action: what stood in the way, or one sentence on what was done. */
export type ActionState = { readonly problems: readonly Problem[]; readonly said?: string };

export const FRESH: ActionState = { problems: [] };
