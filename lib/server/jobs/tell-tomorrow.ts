import { DAILY, usuallyMailed, type DailyKind } from "@/lib/contracts/told";
import { paths } from "@/lib/contracts/paths";
import { showDate } from "@/lib/domain/time/show-time";
import { tomorrowToTell, type Tomorrow } from "@/lib/domain/time/tomorrow";
import { fromPlainDate, now, toDate } from "@/lib/server/clock";
import { inWorkshop, type Tx } from "@/lib/server/db";
import { env } from "@/lib/server/env";
import { dayWords } from "@/lib/server/mail/day-words";
import { letter } from "@/lib/server/mail/words";
import { dayWork, ownersOf, workOf, type DayWork } from "@/lib/server/rows/day-work";
import { mailReaders, type MailReader } from "@/lib/server/rows/mail-readers";

/**
 * Mails tomorrow's loads and lifts in every workshop whose clock says it is time: all of them to those who want all,
 * their own to those whose they are. Run it as often as you like: a person gets one such mail a day, and the database
 * holds that. What is booked later in the evening still reaches who has heard nothing yet.
 * @throws AggregateError when it failed in some workshops; the others are told all the same
 */
export async function tellTomorrow(workshopIds: readonly string[]): Promise<void> {
  const faults: unknown[] = [];
  for (const workshopId of workshopIds) {
    await inWorkshop(workshopId, (tx) => tellWorkshop(tx, workshopId)).catch((error: unknown) => faults.push(error));
  }
  if (faults.length > 0) throw new AggregateError(faults, `telling of tomorrow failed in ${faults.length} of ${workshopIds.length} workshops`);
}

async function tellWorkshop(tx: Tx, workshopId: string): Promise<void> {
  const workshop = await tx.workshop.findFirst({ where: { workshopId } });
  const tomorrow = workshop === null ? undefined : tomorrowToTell(now(), workshop.timeZone, workshop.tomorrowHour);
  if (workshop === null || tomorrow === undefined) return;
  const work = await dayWork(tx, tomorrow.span);
  if (work.loads.length === 0 && work.lifts.length === 0) return;
  const all = await mailReaders(tx, { kind: "tomorrow-lifts", usually: (roles) => usuallyMailed("tomorrow-lifts", roles) });
  const owners = await mailReaders(tx, { memberIds: ownersOf(work), kind: "tomorrow-own", usually: (roles) => usuallyMailed("tomorrow-own", roles) });
  const rest = owners.filter(({ memberId }) => !all.some((one) => one.memberId === memberId));
  const mailTo = (reader: MailReader, kind: DailyKind, part: DayWork) => mailOf({ workshop, tomorrow, reader, kind, work: part });
  await tx.mail.createMany({
    data: [...all.map((reader) => mailTo(reader, "tomorrow-lifts", work)), ...rest.map((reader) => mailTo(reader, "tomorrow-own", workOf(work, reader.memberId)))],
    skipDuplicates: true,
  });
}

const TODO: Readonly<Record<DailyKind, string>> = {
  "tomorrow-lifts": "Look at the lift sheet before you lift: it is newer than this mail. Keep to the workshop's own rules.",
  "tomorrow-own": "Be there in time, and look at the lift sheet before you lift: it is newer than this mail. If you cannot come, move the run today or tell the manager.",
};

type Daily = {
  readonly workshop: { readonly workshopId: string; readonly name: string; readonly timeZone: string };
  readonly tomorrow: Tomorrow;
  readonly reader: MailReader;
  readonly kind: DailyKind;
  readonly work: DayWork;
};

function mailOf({ workshop, tomorrow, reader, kind, work }: Daily) {
  const { workshopId, name: workshopName, timeZone } = workshop;
  const { day, span } = tomorrow;
  const said = dayWords(work, timeZone);
  return {
    workshopId,
    memberId: reader.memberId,
    address: reader.email,
    kind,
    subject: `${DAILY[kind].subject}, ${showDate(day)} (${workshopName})`,
    body: letter({ name: reader.name, said, todo: TODO[kind], href: paths.lifts(day.toString()), workshopName, timeZone, publicUrl: env().publicUrl }),
    forDay: fromPlainDate(day),
    createdAt: toDate(now()),
    uselessAt: toDate(span.end),
  };
}
