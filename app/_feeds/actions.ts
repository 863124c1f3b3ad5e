"use server";

import type { MadeFeed } from "@/lib/contracts/feeds";
import type { Outcome } from "@/lib/domain/refusal";
import { makeKilnFeed } from "@/lib/server/commands/make-kiln-feed";
import { makeMyFeed } from "@/lib/server/commands/make-my-feed";
import { revokeKilnFeed } from "@/lib/server/commands/revoke-kiln-feed";
import { revokeMyFeed } from "@/lib/server/commands/revoke-my-feed";
import { runAction } from "@/lib/server/form-action";

export async function makeMyFeedAction(): Promise<Outcome<MadeFeed>> {
  return runAction(makeMyFeed, {});
}

export async function revokeMyFeedAction(): Promise<Outcome<unknown>> {
  return runAction(revokeMyFeed, {});
}

export async function makeKilnFeedAction(form: FormData): Promise<Outcome<MadeFeed>> {
  return runAction(makeKilnFeed, { equipmentId: form.get("equipmentId") });
}

export async function revokeKilnFeedAction(form: FormData): Promise<Outcome<unknown>> {
  return runAction(revokeKilnFeed, { equipmentId: form.get("equipmentId") });
}
