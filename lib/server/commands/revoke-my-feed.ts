import { myFeedSchema } from "@/lib/contracts/feeds";
import { ok, refuse } from "@/lib/domain/refusal";
import { command } from "@/lib/server/command";
import { revokeFeed } from "@/lib/server/feeds/replace-feed";

/** Ends the address of one's own calendar, from the next request on. */
export const revokeMyFeed = command({
  name: "revoke-my-feed",
  needs: "see-workshop",
  input: myFeedSchema,
  run: async (ctx) => {
    const name = `Calendar of ${ctx.who.name}`;
    const problem = await revokeFeed(ctx, { memberId: ctx.who.memberId }, name);
    return problem === undefined ? ok({ name }) : refuse(problem);
  },
});
