import { kilnFeedSchema } from "@/lib/contracts/feeds";
import { ok, refuse } from "@/lib/domain/refusal";
import { command } from "@/lib/server/command";
import { findKiln } from "@/lib/server/feeds/find-kiln";
import { madeMeanwhile, replaceFeed } from "@/lib/server/feeds/replace-feed";

/** Makes the address under which a kiln's bookings are read by calendar programs, in the place of the one before. */
export const makeKilnFeed = command({
  name: "make-kiln-feed",
  needs: "manage-equipment",
  input: kilnFeedSchema,
  run: async (ctx, { equipmentId }) => {
    const kiln = await findKiln(ctx.tx, equipmentId);
    if (!kiln.ok) return kiln;
    const { name, retired } = kiln.value;
    if (retired) return refuse({ code: "retired", message: `${name} is retired; nothing is booked on it any more.` });
    return ok(await replaceFeed(ctx, { equipmentId }, `Calendar of ${name}`));
  },
  onConstraint: async (constraint) => madeMeanwhile(constraint),
});
