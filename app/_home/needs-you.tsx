import Link from "next/link";
import { Temporal } from "temporal-polyfill";
import { LinkButton } from "@/app/_components/link-button";
import { paths } from "@/lib/contracts/paths";
import { showDate, showTime } from "@/lib/domain/time/show-time";
import { showUntil } from "@/lib/domain/time/show-until";
import type { HomeScreen } from "@/lib/server/queries/home";
import type { CastingLine } from "@/lib/server/rows/castings-with-next";
import type { SheetDue } from "@/lib/server/rows/sheets-due";
import { Waiting } from "./waiting";

type NeedsYouProps = { readonly home: HomeScreen; readonly timeZone: string; readonly memberName: string };

/** Everything on this screen that waits for an answer, the most pressing first. */
export function NeedsYou({ home, timeZone, memberName }: NeedsYouProps) {
  const { sheets, joinings, answersWanted, objections, castings, heavyLifts, pendingInvitations, unread, nowMs } = home;
  return (
    <>
      {joinings.map(({ joiningId, by, castingTitle, firingTitle, expiresMs }) => (
        <Waiting key={joiningId} action={<LinkButton href={paths.joining(joiningId)}>Answer</LinkButton>}>
          {by} asks to add {castingTitle} to the firing of {firingTitle}. Waiting for your answer, by {showTime(Temporal.Instant.fromEpochMilliseconds(expiresMs), timeZone)}.
        </Waiting>
      ))}
      {(objections ?? []).map(({ settlementId, by, titles, words }) => (
        <Waiting key={`objects-${settlementId}-${by}`} tone="trouble" action={<LinkButton href={paths.settlement(settlementId)}>The settlement</LinkButton>}>
          {by} objects to where {titles.join(" and ")} went: “{words}”
        </Waiting>
      ))}
      {answersWanted.map(({ settlementId, by, titles }) => (
        <Waiting key={`answer-${settlementId}`} action={<LinkButton href={paths.settlement(settlementId)}>Answer</LinkButton>}>
          {by} settled a clash and gave {titles.join(" and ")} another time. Does it suit you?
        </Waiting>
      ))}
      {sheets.filter(({ open }) => open > 0).map((sheet) => (
        <SheetWaits key={sheet.firingId} sheet={sheet} timeZone={timeZone} mine={sheet.owner === memberName} />
      ))}
      {heldRuns(home).map(({ line, until, told }) => <RunHeld key={`held-${line.castingId}`} line={line} heldUntilMs={until} told={told} nowMs={nowMs} timeZone={timeZone} />)}
      {heavyLifts !== null && heavyLifts.heavy > 0 && (
        <Waiting action={<LinkButton href={paths.lifts(heavyLifts.day)}>Lift sheet</LinkButton>}>
          {heavyLifts.heavy === 1 ? "One heavy lift" : `${heavyLifts.heavy} heavy lifts`} on {showDate(Temporal.PlainDate.from(heavyLifts.day))}, of {heavyLifts.lifts} in all.
        </Waiting>
      )}
      {(castings ?? []).filter(({ step }) => step === "book-run").map((line) => (
        <RunMissing key={line.castingId} line={line} />
      ))}
      {unread.map(({ noticeId, text, href }) => (
        <Waiting key={noticeId} action={<LinkButton href={paths.notices}>Notices</LinkButton>}>
          <Link href={href}>{text}</Link>
        </Waiting>
      ))}
      {pendingInvitations !== null && pendingInvitations > 0 && (
        <Waiting action={<LinkButton href={paths.people}>People</LinkButton>}>
          {pendingInvitations === 1 ? "One invitation has not been taken up." : `${pendingInvitations} invitations have not been taken up.`}
        </Waiting>
      )}
    </>
  );
}

function SheetWaits({ sheet, timeZone, mine }: { readonly sheet: SheetDue; readonly timeZone: string; readonly mine: boolean }) {
  const { firingId, title, owner, kiln, doing, atMs, open } = sheet;
  const when = showTime(Temporal.Instant.fromEpochMilliseconds(atMs), timeZone);
  const move = doing === "load" ? `goes into ${kiln}` : `comes out of ${kiln}`;
  return (
    <Waiting action={<LinkButton href={paths.checkSheet(firingId)}>Check sheet</LinkButton>}>
      {title}{mine ? "" : `, ${owner},`} {move} {when}; {open === 1 ? "one check is" : `${open} checks are`} open.
    </Waiting>
  );
}

type HeldRun = { readonly line: CastingLine; readonly until: number; readonly told: string | null };

/** A held run of which there is an unread notice is said once, in the words of that notice: they tell more. */
function heldRuns({ castings, ofHeld }: HomeScreen): readonly HeldRun[] {
  return (castings ?? []).flatMap((line): HeldRun[] => {
    const { heldUntilMs, firingId } = line;
    if (heldUntilMs === null || firingId === null) return [];
    return [{ line, until: heldUntilMs, told: ofHeld.find(({ href }) => href === paths.firing(firingId))?.text ?? null }];
  });
}

type HeldProps = { readonly line: CastingLine; readonly heldUntilMs: number; readonly told: string | null; readonly nowMs: number; readonly timeZone: string };

function RunHeld({ line, heldUntilMs, told, nowMs, timeZone }: HeldProps) {
  const until = showUntil(Temporal.Instant.fromEpochMilliseconds(heldUntilMs), Temporal.Instant.fromEpochMilliseconds(nowMs), timeZone);
  return (
    <Waiting action={<LinkButton href={paths.firing(line.firingId ?? "")}>Confirm or let go</LinkButton>}>
      {told ?? `${line.kilnName ?? "A kiln"} is held for ${line.title} until ${until}; then it lapses.`}
    </Waiting>
  );
}

function RunMissing({ line }: { readonly line: CastingLine }) {
  const by = line.neededBy === null ? "" : `, needed by ${showDate(Temporal.PlainDate.from(line.neededBy))}`;
  return (
    <Waiting action={<LinkButton href={paths.findTime(line.castingId)}>Find time</LinkButton>}>
      <Link href={paths.casting(line.castingId)}>{line.title}</Link> has no run yet{by}.
    </Waiting>
  );
}

/** Whether {@link NeedsYou} shows anything. */
export function waitsForSomething({ sheets, joinings, answersWanted, objections, castings, heavyLifts, pendingInvitations, unread }: HomeScreen): boolean {
  return (
    joinings.length > 0 ||
    answersWanted.length > 0 ||
    (objections ?? []).length > 0 ||
    sheets.some(({ open }) => open > 0) ||
    (heavyLifts?.heavy ?? 0) > 0 ||
    (castings ?? []).some(({ step, heldUntilMs }) => step === "book-run" || heldUntilMs !== null) ||
    unread.length > 0 ||
    (pendingInvitations ?? 0) > 0
  );
}
