import type { Problem } from "@/lib/domain/refusal";
import { ATTEMPT_WINDOW_MINUTES } from "@/lib/server/sign-in";

export const WRONG_PASSWORD: Problem = { code: "wrong-password", message: "This is not the password of this account." };

export const LIMITED: Problem = {
  code: "limited",
  message: `Too many attempts failed. Wait ${ATTEMPT_WINDOW_MINUTES} minutes, then try again.`,
};
