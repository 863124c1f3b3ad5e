"use server";

import { revalidatePath } from "next/cache";
import { redirect } from "next/navigation";
import type { ActionState } from "@/lib/contracts/action-state";
import { paths } from "@/lib/contracts/paths";
import { resetPassword } from "@/lib/server/accounts/reset-password";

export async function resetAction(_: ActionState, form: FormData): Promise<ActionState> {
  const outcome = await resetPassword({ token: form.get("token"), password: form.get("password") });
  if (!outcome.ok) return { problems: outcome.problems };
  revalidatePath("/", "layout");
  redirect(`${paths.signIn}?done=password`);
}
