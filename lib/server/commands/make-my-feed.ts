import { myFeedSchema } from "@/lib/contracts/feeds";
import { ok } from "@/lib/domain/refusal";
import { command } from "@/lib/server/command";
import { madeMeanwhile, replaceFeed } from "@/lib/server/feeds/replace-feed";

/** Makes the address under which one's own runs are read by calendar programs, in the place of the one before. */
export const makeMyFeed = command({
  name: "make-my-feed",
  needs: "see-workshop",
  input: myFeedSchema,
  run: async (ctx) => ok(await replaceFeed(ctx, { memberId: ctx.who.memberId }, `Calendar of ${ctx.who.name}`)),
  onConstraint: async (constraint) => madeMeanwhile(constraint),
});
