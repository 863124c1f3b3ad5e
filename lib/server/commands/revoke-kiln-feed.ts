import { kilnFeedSchema } from "@/lib/contracts/feeds";
import { ok, refuse } from "@/lib/domain/refusal";
import { command } from "@/lib/server/command";
import { findKiln } from "@/lib/server/feeds/find-kiln";
import { revokeFeed } from "@/lib/server/feeds/replace-feed";

/** Ends the address of a kiln's calendar, from the next request on; of a retired kiln's as well. */
export const revokeKilnFeed = command({
  name: "revoke-kiln-feed",
  needs: "manage-equipment",
  input: kilnFeedSchema,
  run: async (ctx, { equipmentId }) => {
    const kiln = await findKiln(ctx.tx, equipmentId);
    if (!kiln.ok) return kiln;
    const name = `Calendar of ${kiln.value.name}`;
    const problem = await revokeFeed(ctx, { equipmentId }, name);
    return problem === undefined ? ok({ name }) : refuse(problem);
  },
});
