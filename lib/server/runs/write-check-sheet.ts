import type { CastingInput } from "@/lib/domain/firing/casting-input";
import type { CastingPlan } from "@/lib/domain/firing/casting-plan";
import { sheetFor } from "@/lib/domain/safety/sheet-for";
import { TEMPLATE_VERSION } from "@/lib/domain/safety/template";
import type { Tx } from "@/lib/server/db";

type OfFiring = { readonly workshopId: string; readonly firingId: string };

/** Gives a new firing its check sheet, with this plan's numbers beside the items. */
export async function writeCheckSheet(tx: Tx, of: OfFiring, plan: CastingPlan, input: CastingInput): Promise<void> {
  await tx.checkSheet.create({ data: { ...of, templateVersion: TEMPLATE_VERSION } });
  await tx.checkItem.createMany({
    data: sheetFor(plan, { leadGlass: mayHoldLead(input) }).map(({ code, phase, text, why, source, level, scope, detail, forbids }, position) => ({
      ...of,
      code,
      position,
      phase,
      text,
      why,
      source,
      level,
      scope,
      detail: detail ?? null,
      forbids: forbids ?? null,
    })),
  });
}

/** A member's own glass gets the lead items too: nobody but its maker knows that it holds none. */
function mayHoldLead({ glass }: CastingInput): boolean {
  return typeof glass === "string" ? glass.startsWith("lead-crystal") : true;
}
