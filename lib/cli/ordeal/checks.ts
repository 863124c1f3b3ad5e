import type { Answer, Asked, Facts } from "./history";

export type Check = { readonly name: string; readonly find: (history: readonly Asked[], facts: Facts) => readonly string[] };

const acknowledged = (history: readonly Asked[]) => history.flatMap((one) => (one.outcome === "acknowledged" && one.answer !== undefined ? [{ ...one, answer: one.answer }] : []));
const same = (a: Answer, b: Answer): boolean => JSON.stringify(sorted(a)) === JSON.stringify(sorted(b));
const sorted = (answer: Answer) => Object.entries(answer).sort(([a], [b]) => (a < b ? -1 : 1));
const ms = (iso: unknown): number => (typeof iso === "string" ? Date.parse(iso) : NaN);
const OVER = new Set(["cancelled", "released", "lapsed"]);

/** What must hold after everything that was done to it; each check answers with what it found wrong. */
export const CHECKS: readonly Check[] = [
  { name: "no piece of equipment is booked twice at a time", find: (_, { bookings }) => overlaps(bookings.filter(({ standing }) => standing)) },
  { name: "every run is whole or not there", find: (_, facts) => partialRuns(facts) },
  { name: "every acknowledged change is in the record", find: (history, { audits, asks }) => acknowledged(history).filter((one) => !isRecorded(one, audits, asks)).map(({ op, answer }) => `${op} ${JSON.stringify(answer)} is not in the record`) },
  { name: "the calendar is as the record's last word on each run", find: (_, facts) => notAsRecorded(facts) },
  { name: "no change was made twice", find: (history, { audits }) => doubled(history, audits) },
  { name: "a repeated key got the same answer", find: (history) => acknowledged(history).flatMap(({ op, key, answer, again = [] }) => again.filter((other) => !same(other, answer)).map((other) => `${op} ${key ?? ""} was answered ${JSON.stringify(answer)} and then ${JSON.stringify(other)}`)) },
  { name: "every acknowledged key has its receipt", find: (history, { receipts }) => acknowledged(history).filter(({ key, memberId, answer }) => key !== null && !receipts.some((one) => one.key === key && one.memberId === memberId && same(one.answer, answer))).map(({ op, key }) => `${op} ${key ?? ""} has no receipt, or another`) },
  { name: "whoever was concerned was told", find: (_, facts) => untold(facts) },
  { name: "every mail has its job or is done", find: (_, { mails, jobs }) => mails.filter(({ mailId, done }) => !done && !jobs.includes(mailId)).map(({ mailId }) => `mail ${mailId} has no job`) },
];

export function overlaps(standing: readonly Facts["bookings"][number][]): readonly string[] {
  const sortedOnes = [...standing].sort((a, b) => (a.equipmentId < b.equipmentId ? -1 : a.equipmentId > b.equipmentId ? 1 : a.start - b.start));
  return sortedOnes.flatMap((one, i) => {
    const next = sortedOnes[i + 1];
    return next !== undefined && next.equipmentId === one.equipmentId && next.start < one.end ? [`${one.equipmentId} is booked for ${one.firingId} and ${next.firingId} at once`] : [];
  });
}

function partialRuns({ firings, bookings }: Facts): readonly string[] {
  return firings.flatMap(({ firingId, status, purposes }) => {
    const have = bookings.filter((one) => one.standing && one.firingId === firingId).map(({ purpose }) => purpose).sort().join(", ");
    const want = OVER.has(status) ? "" : [...purposes].sort().join(", ");
    return have === want ? [] : [`${firingId} (${status}) has "${have}" and needs "${want}"`];
  });
}

function isRecorded({ op, answer }: { readonly op: Asked["op"]; readonly answer: Answer }, audits: Facts["audits"], asks: Facts["asks"]): boolean {
  if (op === "create-ask") return answer.askId !== undefined && asks.includes(answer.askId);
  return audits.some(({ action, subjectId, after }) => {
    if (action !== op || subjectId !== answer.firingId) return false;
    if (op === "move-run") return ms(after.kilnFrom) === ms(answer.kilnFrom) && ms(after.kilnTo) === ms(answer.kilnTo);
    return op !== "lengthen-booking" || ms(after.kilnTo) === ms(answer.kilnTo);
  });
}

/** Audits come in the order in which they were written. */
function notAsRecorded({ firings, bookings, audits }: Facts): readonly string[] {
  return firings.flatMap(({ firingId, status }) => {
    const last = audits.filter((one) => one.subjectId === firingId && one.action !== "answer-check").at(-1);
    if (last === undefined) return [`${firingId} is not in the record at all`];
    if (last.action === "cancel-run") return status === "cancelled" ? [] : [`${firingId} was cancelled and is ${status}`];
    const kiln = bookings.find((one) => one.standing && one.firingId === firingId && one.purpose === "kiln");
    if (kiln === undefined) return [`${firingId} stands by the record and has no kiln`];
    const wrong = [...(last.after.kilnFrom === undefined || kiln.start === ms(last.after.kilnFrom) ? [] : ["start"]), ...(kiln.end === ms(last.after.kilnTo) ? [] : ["end"])];
    return wrong.length === 0 ? [] : [`${firingId}: ${wrong.join(" and ")} of its kiln are not as recorded`];
  });
}

function doubled(history: readonly Asked[], audits: Facts["audits"]): readonly string[] {
  const ids = new Set(acknowledged(history).flatMap(({ op, answer }) => (op === "book-run" && answer.firingId !== undefined ? [answer.firingId] : [])));
  const times = (action: string, id: string) => audits.filter((one) => one.action === action && one.subjectId === id).length;
  const asked = (op: string, id: string) => history.filter((one) => one.op === op && (one.outcome === "unknown" || one.answer?.firingId === id)).length;
  return [...ids].flatMap((id) => [
    ...(times("book-run", id) > 1 ? [`${id} was booked twice`] : []),
    ...(times("cancel-run", id) > 1 ? [`${id} was cancelled twice`] : []),
    ...(times("move-run", id) > asked("move-run", id) ? [`${id} was moved more often than asked`] : []),
  ]);
}

/** A run that another person moved: its owner has a notice and a mail for each time. */
function untold({ firings, audits, notices, mails }: Facts): readonly string[] {
  const owners = new Map(firings.map((one) => [one.firingId, one.memberId]));
  const moved = audits.filter(({ action, subjectId, memberId }) => action === "move-run" && owners.has(subjectId) && memberId !== owners.get(subjectId));
  const missing = [...new Set(moved.map(({ subjectId }) => subjectId))].flatMap((id) => {
    const wanted = moved.filter(({ subjectId }) => subjectId === id).length;
    const got = notices.filter(({ memberId, href }) => memberId === owners.get(id) && href.includes(id)).length;
    return got >= wanted ? [] : [`${id} was moved ${wanted} times by others and its owner was told ${got} times`];
  });
  const mailed = mails.filter(({ kind }) => kind === "moved").length;
  return mailed >= moved.length ? missing : [...missing, `${moved.length} moves by others and ${mailed} mails`];
}
