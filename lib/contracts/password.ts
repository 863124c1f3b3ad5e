import { z } from "zod";

export const MIN_PASSWORD = 10;
/** Long enough for any phrase, short enough that hashing one costs no more than it should. */
export const MAX_PASSWORD = 200;

/** A password somebody chooses. Length is all that is asked of it. */
export const newPasswordSchema = z
  .string()
  .min(MIN_PASSWORD, `The password must have at least ${MIN_PASSWORD} characters; a sentence you remember will do.`)
  .max(MAX_PASSWORD, `The password must have at most ${MAX_PASSWORD} characters.`);

/** A password somebody already has; whether it is the right one is decided when it is checked. */
export const givenPasswordSchema = z.string().min(1, "Give your password.").max(MAX_PASSWORD, "This is not your password.");
