import type { CastingInput } from "@/lib/domain/firing/casting-input";

/** Glass without lead is lighter than this (common practice, no source); lead crystals begin at about 2900 kg/m³. */
const LEAD_FROM_KG_M3 = 2750;

/** Lead crystals, and any own glass that is named or heavy enough to be one. */
export function mayHoldLead(glass: CastingInput["glass"]): boolean {
  if (typeof glass === "string") return glass.startsWith("lead-");
  return (glass.densityKgM3 ?? 0) >= LEAD_FROM_KG_M3 || /lead|crystal/i.test(glass.name);
}
