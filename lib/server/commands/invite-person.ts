import { randomUUID } from "node:crypto";
import { paths } from "@/lib/contracts/paths";
import { invitePersonSchema } from "@/lib/contracts/people";
import { ok, refuse, type Problem } from "@/lib/domain/refusal";
import { showTime } from "@/lib/domain/time/show-time";
import { INVITATION_VALID_DAYS } from "@/lib/server/accounts/invitation-problems";
import { toDate, toInstant } from "@/lib/server/clock";
import { command, type Ctx } from "@/lib/server/command";
import { env } from "@/lib/server/env";
import { LINK_TOKEN, linkToken } from "@/lib/server/tokens";

/** Invites somebody by a link that works once, shown here and mailed. Only its hash is kept. */
export const invitePerson = command({
  name: "invite-person",
  needs: "manage-people",
  input: invitePersonSchema,
  run: async (ctx, { name, email, roles }) => {
    const { who, tx, now } = ctx;
    const problem = await alreadyHere(ctx, email);
    if (problem !== undefined) return refuse(problem);
    const mailId = randomUUID();
    const { token, tokenHash } = linkToken(mailId);
    const expiresAt = now.add({ hours: 24 * INVITATION_VALID_DAYS });
    const { invitationId } = await tx.invitation.create({
      data: { workshopId: who.workshopId, email, name, roles, tokenHash, expiresAt: toDate(expiresAt), createdAt: toDate(now) },
    });
    await tx.mail.create({
      data: {
        workshopId: who.workshopId, mailId, address: email, kind: "invitation", subject: `You are invited to ${who.workshopName}`,
        body: mailText(ctx, name), createdAt: toDate(now), uselessAt: toDate(expiresAt),
      },
    });
    await ctx.audit({ subject: "invitation", subjectId: invitationId, after: { name, email, roles, expiresAt: expiresAt.toString() } });
    return ok({ invitationId, name, email, link: `${env().publicUrl}${paths.invitation(token)}` });
  },
});

function mailText({ who }: Ctx, name: string): string {
  return [
    `${name},`,
    `${who.name} invites you to ${who.workshopName}, a glass workshop on Lehrbook.`,
    `This link lets you in. It works once, for ${INVITATION_VALID_DAYS} days:\n${env().publicUrl}${paths.invitation(LINK_TOKEN)}`,
    "If you do not know of it, do nothing.",
  ].join("\n\n");
}

async function alreadyHere({ tx, who, now }: Ctx, email: string): Promise<Problem | undefined> {
  const said = { field: "email", value: email };
  const member = await tx.member.findFirst({ where: { person: { email } } });
  if (member?.active === true) return { ...said, code: "already-member", message: `${member.name} (${email}) already belongs to this workshop.` };
  if (member?.active === false) {
    return { ...said, code: "deactivated-member", message: `${member.name} (${email}) is deactivated here; activate them again in the list instead.` };
  }
  const open = await tx.invitation.findFirst({ where: { email, usedAt: null, withdrawnAt: null, expiresAt: { gt: toDate(now) } } });
  if (open === null) return undefined;
  const until = showTime(toInstant(open.expiresAt), who.timeZone);
  return { ...said, code: "already-invited", message: `${email} has an invitation that is open until ${until}. Withdraw it to make a new one.` };
}
