import { ok, refuse, type Outcome } from "@/lib/domain/refusal";
import { instantOfWallTime } from "@/lib/domain/time/wall-time";
import { NOT_SIGNED_IN } from "@/lib/server/command";
import { currentWho } from "@/lib/server/session";

/** A form's wall-clock time in the workshop's zone, as an ISO instant. Refused when it is none, or is skipped by the clock. */
export async function formWallTime(form: FormData, field: string): Promise<Outcome<string>> {
  const who = await currentWho();
  if (who === null) return refuse(NOT_SIGNED_IN);
  const text = form.get(field);
  const instant = instantOfWallTime(typeof text === "string" ? text : "", who.timeZone, field);
  return instant.ok ? ok(instant.value.toString()) : instant;
}
