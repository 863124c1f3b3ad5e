import { z } from "zod";
import { SCOPES } from "@/lib/domain/access/scopes";

export const scopesSchema = z
  .array(z.enum(SCOPES))
  .min(1, "Tick at least one thing the token may do: read, plan or book.")
  .max(10)
  .transform((scopes) => SCOPES.filter((scope) => scopes.includes(scope)));

/** A token is called after the script that uses it, so that the right one is revoked one day. */
export const makeTokenSchema = z.strictObject({
  name: z.string().trim().min(1, "Name the script that will use it.").max(60, "A name has at most 60 characters."),
  scopes: scopesSchema,
});

export const revokeTokenSchema = z.strictObject({ tokenId: z.uuid() });
