import { randomUUID } from "node:crypto";
import { EMPTY_FORM } from "@/lib/contracts/casting-fields";
import type { Payload } from "./hand-made";
import { rows } from "./rows";
import { idIn, type InWorkshop, type WalkedWorkshop } from "./walked-workshop";

/** One action, the one who may do it, and those of the same workshop who may not. Nobody and a stranger never may. */
export type Step = {
  readonly action: string;
  readonly by: InWorkshop;
  readonly refused: readonly InWorkshop[];
  /** The very request that succeeds; the others send the same one before. */
  readonly payload: (walked: WalkedWorkshop) => Promise<Payload>;
  /** What must have happened in the room meanwhile, such as time going by. */
  readonly before?: (walked: WalkedWorkshop) => Promise<void>;
};

type Fields = Readonly<Record<string, string | readonly string[]>>;

const NOT_OWNER = ["assistant", "otherMember"] as const;
const NOT_MANAGER = ["assistant", "member", "otherMember"] as const;
const REASON = "A reason that is long enough.";

const castingId = (walked: WalkedWorkshop, title: string) => idIn(walked, "SELECT casting_id AS id FROM casting WHERE workshop_id = $1 AND title = $2", title);
const firingId = (walked: WalkedWorkshop, title: string) =>
  idIn(walked, "SELECT fc.firing_id AS id FROM firing_casting fc JOIN casting c USING (workshop_id, casting_id) WHERE fc.workshop_id = $1 AND c.title = $2 AND fc.standing", title);
const versionOf = (walked: WalkedWorkshop, table: "casting" | "firing", id: string) => idIn(walked, `SELECT version::text AS id FROM ${table} WHERE workshop_id = $1 AND ${table}_id = $2`, id);
const openAsk = (walked: WalkedWorkshop) => idIn(walked, "SELECT ask_id AS id FROM ask WHERE workshop_id = $1 AND status = 'open'");

const form = async (fields: Fields): Promise<Payload> => ({ as: "form", fields });
const stated = async (fields: Fields): Promise<Payload> => ({ as: "form-behind-state", fields });
const words = async (...args: unknown[]): Promise<Payload> => ({ as: "arguments", args });

const described = (title: string): Fields => ({
  ...EMPTY_FORM, title, glass: "lead-crystal-45", "piece.sizeMm.0": "90", "piece.sizeMm.1": "80", "piece.sizeMm.2": "60", "mould.wallMm": "30",
});

const describe = (title: string): Step => ({
  action: "/castings createCastingAction", by: "member", refused: ["assistant"],
  payload: () => stated({ ...described(title), requestKey: randomUUID() }),
});

/** Far enough ahead to be held: a run that begins within the hour is not. */
const LATER = "?notBefore=2027-09-06";

/** The first run that the page offers, as its form would post it. */
const book = (title: string, action = "bookAction", from = ""): Step => ({
  action: `/castings/[castingId]/find-time ${action}`, by: "member", refused: NOT_OWNER,
  payload: async (walked) => {
    const id = await castingId(walked, title);
    const page = await (await walked.browsers.member.request.get(`/castings/${id}/find-time${from}`)).text();
    const shown = (name: string) => new RegExp(`name="${name}" value="([^"]+)"`).exec(page)?.[1] ?? "";
    return stated({ castingId: id, kilnId: shown("kilnId"), kilnFrom: shown("kilnFrom"), steamFrom: shown("steamFrom"), requestKey: shown("requestKey") });
  },
});

const cancelSecond: Step = {
  action: "/firings/[firingId] cancelAction", by: "member", refused: NOT_OWNER,
  payload: async (walked) => form({ firingId: await firingId(walked, "Second"), reason: "" }),
};

/** The first way out that the page shows, as its dialog would post it. */
const acceptWay: Step = {
  action: "/clashes acceptWayAction", by: "manager", refused: NOT_MANAGER,
  payload: async (walked) => {
    const page = (await (await walked.browsers.manager.request.get("/clashes/ways-out")).text()).replaceAll("\\", "");
    const [, moves = "", fingerprint = ""] = /"moves":"(\[[^\]]+\])","fingerprint":"([0-9a-f]{64})"/.exec(page) ?? [];
    return form({ kind: "least-late", again: "/clashes/ways-out", moves, fingerprint, reason: REASON, requestKey: randomUUID() });
  },
};

const answerSettlement: Step = {
  action: "/settlements/[settlementId] answerSettlementAction", by: "member", refused: NOT_OWNER,
  payload: async (walked) => stated({ settlementId: await idIn(walked, "SELECT settlement_id AS id FROM settlement WHERE workshop_id = $1"), answer: "object", words: "I cannot unload on that day." }),
};

/** Waits until the planning is over, whoever does it, and lets it look as if it went on. */
async function stillPlanning({ shed }: WalkedWorkshop): Promise<void> {
  const isOver = async () => (await rows("SELECT FROM replan WHERE workshop_id = $1 AND state IN ('ready', 'failed')", shed.workshopId)).length > 0;
  while (!(await isOver())) await new Promise((resolve) => setTimeout(resolve, 100));
  await rows("UPDATE replan SET state = 'searching', plan = NULL, failure = NULL, worker_id = NULL, beat_at = clock_timestamp() WHERE workshop_id = $1", shed.workshopId);
}

const season: readonly Step[] = [
  { action: "/clashes/season askReplanAction", by: "manager", refused: NOT_MANAGER, payload: async () => stated({ from: "2027-04-01", to: "2027-09-30", seconds: "20" }) },
  { action: "/clashes/season stopReplanAction", by: "manager", refused: NOT_MANAGER, before: stillPlanning, payload: async (walked) => stated({ replanId: await idIn(walked, "SELECT replan_id AS id FROM replan WHERE workshop_id = $1") }) },
];

const ask: Step = {
  action: "/castings/[castingId]/find-time askAction", by: "member", refused: NOT_OWNER,
  payload: async (walked) => stated({ castingId: await castingId(walked, "Second"), kilnId: walked.shed.southKiln.equipmentId, fromDate: "2027-05-03", neededBy: "", lateDays: "0", importance: "3", note: "" }),
};

const describing: readonly Step[] = [
  describe("First"), describe("Second"), describe("Third"),
  {
    action: "/castings changeCastingAction", by: "member", refused: NOT_OWNER,
    payload: async (walked) => {
      const id = await castingId(walked, "Third");
      return stated({ ...described("Third"), neededBy: "2027-08-01", castingId: id, version: await versionOf(walked, "casting", id) });
    },
  },
  { action: "/castings withdrawCastingAction", by: "member", refused: NOT_OWNER, payload: async (walked) => form({ castingId: await castingId(walked, "Third") }) },
];

const booking: readonly Step[] = [
  book("First", "holdAction", LATER),
  { action: "/firings/[firingId] cancelAction", by: "member", refused: NOT_OWNER, payload: async (walked) => form({ firingId: await firingId(walked, "First") }) },
  book("Second", "holdAction", LATER),
  { action: "/firings/[firingId] confirmAction", by: "member", refused: NOT_OWNER, payload: async (walked) => form({ firingId: await firingId(walked, "Second") }) },
  { action: "/firings/[firingId] cancelAction", by: "member", refused: NOT_OWNER, payload: async (walked) => form({ firingId: await firingId(walked, "Second") }) },
  book("First"),
  {
    action: "/firings/[firingId]/move moveAction", by: "member", refused: NOT_OWNER,
    payload: async (walked) => {
      const id = await firingId(walked, "First");
      const page = await walked.browsers.member.newPage();
      await page.goto(`/firings/${id}/move`);
      const shown = (name: string) => page.locator(`input[name="${name}"]`).inputValue();
      const fields = { firingId: id, version: await shown("version"), time: await page.getByRole("radio").nth(1).inputValue(), requestKey: await shown("requestKey"), reason: REASON };
      await page.close();
      return stated(fields);
    },
  },
  {
    action: "/firings/[firingId]/plan-anew planAnewAction", by: "member", refused: NOT_OWNER,
    payload: async (walked) => {
      const id = await firingId(walked, "First");
      return stated({ firingId: id, version: await versionOf(walked, "firing", id), requestKey: randomUUID(), reason: REASON });
    },
  },
  ask,
  { action: "/castings/[castingId]/find-time withdrawAskAction", by: "member", refused: NOT_OWNER, payload: async (walked) => form({ askId: await openAsk(walked) }) },
  ask,
  { action: "/asks holdLimitAction", by: "manager", refused: NOT_MANAGER, payload: async () => stated({ holdsEach: "3" }) },
  { action: "/asks changeAskAction", by: "member", refused: NOT_OWNER, payload: async (walked) => stated({ askId: await openAsk(walked), fromDate: "2027-05-04", neededBy: "2027-12-01", lateDays: "0", importance: "2", note: "" }) },
  { action: "/clashes declineAskAction", by: "manager", refused: NOT_MANAGER, payload: async (walked) => form({ askId: await openAsk(walked), reason: REASON }) },
  ask,
  { action: "/clashes bookAskAction", by: "manager", refused: NOT_MANAGER, payload: async (walked) => form({ askId: await openAsk(walked), requestKey: randomUUID() }) },
  cancelSecond,
  ask,
  acceptWay,
  answerSettlement,
  cancelSecond,
  book("Second"),
  { action: "/firings/[firingId] releaseAction", by: "manager", refused: NOT_MANAGER, payload: async (walked) => form({ firingId: await firingId(walked, "Second"), reason: REASON }) },
  book("Second"),
  { action: "/clashes releaseAction", by: "manager", refused: NOT_MANAGER, payload: async (walked) => form({ firingId: await firingId(walked, "Second"), reason: REASON }) },
];

const SHARE = "/firings/[firingId]/share/[castingId]";
const NOT_GUEST = ["assistant", "member"] as const;
const openJoining = (walked: WalkedWorkshop) => idIn(walked, "SELECT joining_id AS id FROM joining WHERE workshop_id = $1 AND status = 'open'");

const propose: Step = {
  action: `${SHARE} proposeAction`, by: "otherMember", refused: NOT_GUEST,
  payload: async (walked) => {
    const id = await firingId(walked, "First");
    return stated({ firingId: id, castingId: await castingId(walked, "Guest"), version: await versionOf(walked, "firing", id), requestKey: randomUUID() });
  },
};

const sharing: readonly Step[] = [
  { ...describe("Guest"), by: "otherMember" },
  propose,
  { action: "/joinings/[joiningId] withdrawAction", by: "otherMember", refused: NOT_GUEST, payload: async (walked) => form({ joiningId: await openJoining(walked) }) },
  propose,
  { action: "/joinings/[joiningId] answerAction", by: "member", refused: NOT_OWNER, payload: async (walked) => stated({ joiningId: await openJoining(walked), answer: "yes" }) },
  { action: "/firings/[firingId] leaveAction", by: "otherMember", refused: NOT_GUEST, payload: async (walked) => form({ firingId: await firingId(walked, "First"), castingId: await castingId(walked, "Guest"), reason: "" }) },
];

/** Sets the first run's clock so that its loading is now. */
async function comeToTheDay(walked: WalkedWorkshop): Promise<void> {
  const id = await firingId(walked, "First");
  const [kiln] = await rows<{ starts_at: Date }>("SELECT starts_at FROM booking WHERE firing_id = $1 AND purpose = 'kiln' AND standing", id);
  const ms = (kiln?.starts_at.getTime() ?? 0) - Date.parse("2027-03-11T10:00:00+01:00");
  for (const table of ["booking", "lift"]) {
    await rows(`UPDATE ${table} SET starts_at = starts_at - $2 * interval '1 ms', ends_at = ends_at - $2 * interval '1 ms' WHERE firing_id = $1 AND standing`, id, ms);
  }
}

/** Ticks all that is still open, in the member's name. */
async function tickAll(walked: WalkedWorkshop, ...levels: string[]): Promise<void> {
  await rows(
    `INSERT INTO check_answer (workshop_id, firing_id, code, kind, member_id, at)
     SELECT workshop_id, firing_id, code, 'tick', $3, '2027-03-11T10:00:00+01:00' FROM check_item i WHERE firing_id = $1 AND level = ANY ($2)
     AND NOT EXISTS (SELECT 1 FROM check_answer a WHERE a.firing_id = i.firing_id AND a.code = i.code)`,
    await firingId(walked, "First"), levels, walked.shed.member.memberId,
  );
}

const SHEET = "/firings/[firingId]/check-sheet";
const onFirst = async (walked: WalkedWorkshop, beside: Fields = {}) => ({ firingId: await firingId(walked, "First"), ...beside });

const firing: readonly Step[] = [
  { action: `${SHEET} answerAction`, by: "assistant", refused: [], payload: async (walked) => words((await onFirst(walked)).firingId, "L1", "tick") },
  { action: `${SHEET} overrideAction`, by: "manager", refused: NOT_MANAGER, payload: async (walked) => form(await onFirst(walked, { code: "T3", reason: REASON })) },
  {
    action: `${SHEET} startAction`, by: "assistant", refused: ["otherMember"], payload: async (walked) => form(await onFirst(walked)),
    before: async (walked) => {
      await comeToTheDay(walked);
      await tickAll(walked, "block");
    },
  },
  { action: "/firings/[firingId] expectAction", by: "member", refused: ["otherMember"], payload: async (walked) => stated(await onFirst(walked, { at: "2027-06-01T10:00", reason: REASON })) },
  { action: "/firings/[firingId] lengthenAction", by: "member", refused: NOT_OWNER, payload: async (walked) => stated(await onFirst(walked, { kilnTo: "2027-06-02T10:00", reason: "" })) },
  { action: "/firings/[firingId] shortenAction", by: "member", refused: NOT_OWNER, payload: async (walked) => stated(await onFirst(walked, { freeFrom: "2027-06-01T18:00", reason: "" })) },
  { action: `${SHEET} openAction`, by: "assistant", refused: ["otherMember"], payload: async (walked) => form(await onFirst(walked)), before: (walked) => tickAll(walked, "open") },
  { action: `${SHEET} closeAction`, by: "member", refused: NOT_OWNER, payload: async (walked) => form(await onFirst(walked)) },
];

const managed = (action: string, payload: Step["payload"]): Step => ({ action, by: "manager", refused: ["assistant", "member"], payload });
const EQUIPMENT = "/workshop/equipment";
const TROLLEY = { kind: "trolley", name: "Attic trolley", "limits.ratedKg": "200" };
const attic = (walked: WalkedWorkshop) => idIn(walked, "SELECT equipment_id AS id FROM equipment WHERE workshop_id = $1 AND name = 'Attic trolley'");

const running: readonly Step[] = [
  managed(`${EQUIPMENT} saveEquipmentAction`, () => stated({ ...TROLLEY, "limits.ownKg": "30" })),
  managed(`${EQUIPMENT} saveEquipmentAction`, async (walked) => stated({ ...TROLLEY, "limits.ownKg": "35", equipmentId: await attic(walked) })),
  managed(`${EQUIPMENT} beginOutageAction`, async (walked) => stated({ equipmentId: await attic(walked), from: "2027-05-01T09:00", to: "2027-05-02T09:00", reason: REASON })),
  managed(`${EQUIPMENT} endOutageAction`, async (walked) => form({ outageId: await idIn(walked, "SELECT outage_id AS id FROM outage WHERE workshop_id = $1") })),
  managed(`${EQUIPMENT} retireAction`, async (walked) => form({ equipmentId: await attic(walked), reason: REASON })),
  managed(`${EQUIPMENT} restoreAction`, async (walked) => form({ equipmentId: await attic(walked), reason: "" })),
  { action: "/_feeds makeMyFeedAction", by: "member", refused: [], payload: () => words() },
  { action: "/_feeds revokeMyFeedAction", by: "member", refused: [], payload: () => words() },
  managed("/_feeds makeKilnFeedAction", async ({ shed }) => form({ equipmentId: shed.northKiln.equipmentId })),
  managed("/_feeds revokeKilnFeedAction", async ({ shed }) => form({ equipmentId: shed.northKiln.equipmentId })),
  managed("/workshop/hours setHoursAction", () => words([{ weekday: 2, opens: "08:00", closes: "16:00", hands: "4" }])),
  managed("/workshop/hours setTomorrowHourAction", () => stated({ hour: "7" })),
  managed("/workshop/hours addClosureAction", () => stated({ from: "2027-07-01", to: "", reason: "Summer" })),
  managed("/workshop/hours removeClosureAction", async (walked) => form({ closureId: await idIn(walked, "SELECT closure_id AS id FROM closure WHERE workshop_id = $1"), reason: "" })),
  managed("/workshop/power powerAction", () => stated({ kw: "30" })),
  managed("/workshop/power tariffAction", () => words({ currency: "EUR", standingPerDay: "", bands: [{ name: "Any hour", weekdays: [1, 2, 3, 4, 5, 6, 7], from: "00:00", to: "00:00", price: "0.31" }] })),
  managed("/workshop/power removeTariffAction", () => form({ reason: "" })),
  managed("/workshop/people inviteAction", () => words("Liv Norgaard", "liv@barn.example", ["member"])),
  managed("/workshop/people withdrawAction", async (walked) => form({ invitationId: await idIn(walked, "SELECT invitation_id AS id FROM invitation WHERE workshop_id = $1"), reason: "" })),
  managed("/workshop/people rolesAction", async ({ shed }) => stated({ memberId: shed.otherMember.memberId, roles: ["member", "assistant"] })),
  managed("/workshop/people inductionsAction", async ({ shed }) => stated({ memberId: shed.otherMember.memberId, kilnIds: [] })),
  managed("/workshop/people deactivateAction", async ({ shed }) => form({ memberId: shed.otherMember.memberId, reason: "" })),
  managed("/workshop/people reactivateAction", async ({ shed }) => form({ memberId: shed.otherMember.memberId, reason: "" })),
  { action: "/profile makeTokenAction", by: "member", refused: [], payload: () => words("Kiln log", ["read"]) },
  { action: "/profile revokeTokenAction", by: "member", refused: NOT_OWNER, payload: async (walked) => form({ tokenId: await idIn(walked, "SELECT token_id AS id FROM access_token WHERE workshop_id = $1 AND member_id = $2 AND revoked_at IS NULL", walked.shed.member.memberId) }) },
  { action: "/profile chooseMailAction", by: "member", refused: [], payload: () => stated({ mailed: ["moved"] }) },
  { action: "/notices markReadAction", by: "member", refused: [], payload: () => stated({ upTo: "2027-12-31T00:00:00Z" }) },
];

/** In the order in which a workshop would do them: each makes what the next one needs. */
export const STEPS: readonly Step[] = [...describing, ...booking, ...season, ...sharing, ...firing, ...running];

/** What anybody may send, signed in or not: none of it reaches into a workshop that one is not in. */
export const ACCOUNT_ACTIONS: Readonly<Record<string, (walked: WalkedWorkshop) => Promise<Payload>>> = {
  "/forgotten forgottenAction": ({ shed }) => stated({ email: shed.member.email }),
  "/reset/[token] resetAction": () => stated({ token: "a-token-that-is-none", password: "a long new password" }),
  "/invitation/[token] acceptAction": () => words("a-token-that-is-none", "a long new password"),
  "/profile changePasswordAction": () => stated({ oldPassword: "not the old one", password: "a long new password" }),
  "/profile chooseWorkshopAction": ({ shed }) => form({ workshopId: shed.workshopId }),
  "/profile endSessionsAction": () => words(),
};
