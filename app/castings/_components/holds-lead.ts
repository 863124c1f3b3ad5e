import { type CastingForm, OWN_GLASS } from "@/lib/contracts/casting-fields";
import type { CatalogueGlassId } from "@/lib/domain/firing/casting-input";
import { mayHoldLead } from "@/lib/domain/glass/may-hold-lead";

/** Whether the glass may hold lead, as far as the form says yet. */
export function holdsLead(form: CastingForm): boolean {
  if (form.glass !== OWN_GLASS) return mayHoldLead(form.glass as CatalogueGlassId);
  return mayHoldLead({ name: form["glass.name"], densityKgM3: Number(form["glass.densityKgM3"].replace(",", ".")) });
}
