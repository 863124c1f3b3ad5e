import { type CastingForm, OWN_GLASS } from "@/lib/contracts/casting-fields";

/** Lead crystals, and any own glass heavy enough to be one: glass without lead is lighter than 2.75 kg/L. */
export function holdsLead(form: CastingForm): boolean {
  if (form.glass !== OWN_GLASS) return form.glass.startsWith("lead-");
  return Number(form["glass.densityKgM3"].replace(",", ".")) >= 2750 || /lead|crystal/i.test(form["glass.name"]);
}
