import { z } from "zod";

/** An answer to a settlement that moved one's run; who objects says what with. It can be changed, and moves nothing by itself. */
export const answerSettlementSchema = z
  .strictObject({ settlementId: z.uuid(), agrees: z.boolean(), words: z.string().trim().max(500) })
  .refine(({ agrees, words }) => agrees || words.length >= 3, { path: ["words"], message: "Say in a few words what does not suit you, for instance “I cannot unload on that day.”" });
