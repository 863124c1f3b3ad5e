import { revalidatePath } from "next/cache";
import { redirect } from "next/navigation";
import type { z } from "zod";
import type { ActionState } from "@/lib/contracts/action-state";
import type { Outcome } from "@/lib/domain/refusal";
import type { Command } from "@/lib/server/command";
import { currentWho } from "@/lib/server/session";

type Then<O> = {
  /** One sentence on what was done, when the person stays on the page. */
  readonly said?: (value: O) => string;
  /** Where to go when it was done. */
  readonly goTo?: (value: O) => string;
};

/** Runs a command for whoever is signed in and answers a form: refusals stay on it, success moves on. */
export async function formAction<S extends z.ZodType, O>(command: Command<S, O>, raw: unknown, then: Then<O>): Promise<ActionState> {
  const outcome = await command(await currentWho(), raw);
  if (!outcome.ok) return { problems: outcome.problems };
  revalidatePath("/", "layout");
  if (then.goTo) redirect(then.goTo(outcome.value));
  return { problems: [], ...(then.said ? { said: then.said(outcome.value) } : {}) };
}

/** The same for buttons and dialogs that need the outcome itself. */
export async function runAction<S extends z.ZodType, O>(command: Command<S, O>, raw: unknown): Promise<Outcome<O>> {
  const outcome = await command(await currentWho(), raw);
  if (outcome.ok) revalidatePath("/", "layout");
  return outcome;
}
