"use server";

import { after } from "next/server";
import type { ActionState } from "@/lib/contracts/action-state";
import { requestReset } from "@/lib/server/accounts/request-reset";
import { logFault } from "@/lib/server/log";

/** The same answer whether or not the address is known, and in the same time: the mail goes out afterwards. */
export async function forgottenAction(_: ActionState, form: FormData): Promise<ActionState> {
  const email = form.get("email");
  after(() => requestReset(email).catch((error: unknown) => logFault("request-reset", error)));
  return { problems: [], said: "If somebody here has this address, a link is on its way to it. It works once, for one hour." };
}
