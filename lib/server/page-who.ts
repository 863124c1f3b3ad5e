import { forbidden, redirect } from "next/navigation";
import { can, type Capability } from "@/lib/domain/access/roles";
import { currentPerson, currentWho } from "@/lib/server/session";
import type { Who } from "@/lib/server/who";

/** The first line of every page: who is there, and may they see this? Sends everybody else away. */
export async function pageWho(needs: Capability, from: string): Promise<Who> {
  const who = await currentWho();
  if (who === null) {
    if ((await currentPerson()) !== null) redirect("/no-workshop");
    redirect(`/sign-in?from=${encodeURIComponent(from)}`);
  }
  if (!can(who.roles, needs)) forbidden();
  return who;
}
