import { CASTING_FIELDS, type CastingForm } from "@/lib/contracts/casting-fields";

/** What is sent: the form as it stands in memory, so that nothing hidden or folded is lost, and what goes with it. */
export function postedForm(form: CastingForm, beside: Readonly<Record<string, string>>): FormData {
  const posted = new FormData();
  for (const field of CASTING_FIELDS) posted.set(field, form[field]);
  for (const [name, value] of Object.entries(beside)) posted.set(name, value);
  return posted;
}
