import type { Clash } from "@/lib/domain/booking/clash";

/**
 * What a clash means for one firing or ask in it, in a few general words that name nobody; null when it
 * takes no part. The clash's own sentence has the particulars.
 */
export function clashWords(clash: Clash, id: string): string | null {
  if (clash.askIds.includes(id)) return clash.firingIds.length > 0 ? "a firing holds the kiln then" : "another asks for the same weeks";
  if (!clash.firingIds.includes(id)) return null;
  switch (clash.kind) {
    case "crowded":
      return "another asks for the same weeks";
    case "overrun":
      // The firing that runs over stands first; the others are those it touches.
      return clash.firingIds[0] === id ? "runs longer than its booking" : "the firing before it runs over";
    case "outage":
      return "something it needs is out of service";
    case "thin-crew":
      return "too few hands on duty for a lift";
    case "overload":
      return "too many kilns heating at once";
  }
}
