import { CHOOSABLE, chooseMailSchema, usuallyMailed } from "@/lib/contracts/told";
import { ok } from "@/lib/domain/refusal";
import { command } from "@/lib/server/command";
import { choicesOf } from "@/lib/server/rows/mail-choices";

/** Chooses what is mailed to oneself. Kept is only what differs from how a kind stands by itself. */
export const chooseMail = command({
  name: "choose-mail",
  needs: "see-workshop",
  input: chooseMailSchema,
  run: async ({ who, tx, audit }, { mailed }) => {
    const { workshopId, memberId } = who;
    // Of two choices at the same instant the second is made on top of the first.
    await tx.$executeRaw`SELECT 1 FROM member WHERE member_id = ${memberId}::uuid FOR UPDATE`;
    const before = await choicesOf(tx, who);
    const differing = CHOOSABLE.filter((kind) => mailed.includes(kind) !== usuallyMailed(kind, who.roles));
    await tx.mailChoice.deleteMany({ where: { memberId } });
    await tx.mailChoice.createMany({ data: differing.map((kind) => ({ workshopId, memberId, kind, mailed: mailed.includes(kind) })) });
    await audit({ subject: "mail-choice", subjectId: memberId, before: { mailed: mailedIn(before) }, after: { mailed: CHOOSABLE.filter((kind) => mailed.includes(kind)) } });
    return ok({ mailed });
  },
});

function mailedIn(choices: Awaited<ReturnType<typeof choicesOf>>): string[] {
  return choices.filter((choice) => choice.mailed).map((choice) => choice.kind);
}
