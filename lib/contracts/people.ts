import { z } from "zod";
import { emailSchema } from "@/lib/contracts/email";

const role = z.enum(["member", "manager", "assistant"]);

const rolesSchema = z
  .array(role)
  .min(1, "Tick at least one role: member, manager or assistant.")
  .max(10)
  .transform((roles) => [...new Set(roles)]);

const reason = z.string().trim().max(500, "A reason has at most 500 characters.").optional();

export const invitePersonSchema = z.strictObject({
  name: z.string().trim().min(1, "Give the person's name.").max(80, "A name has at most 80 characters."),
  email: emailSchema,
  roles: rolesSchema,
});

export const withdrawInvitationSchema = z.strictObject({ invitationId: z.uuid(), reason });

export const changeRolesSchema = z.strictObject({ memberId: z.uuid(), roles: rolesSchema });

/** A kiln that people must be shown before their castings are fired in it. */
export type KilnToShow = { readonly kilnId: string; readonly name: string };

/** All kilns that need an induction and that this person was shown; the others are taken back. */
export const setInductionsSchema = z.strictObject({ memberId: z.uuid(), kilnIds: z.array(z.uuid()).max(1000) });

export const memberSchema = z.strictObject({ memberId: z.uuid(), reason });
