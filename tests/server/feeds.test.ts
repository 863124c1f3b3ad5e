import { createHash } from "node:crypto";
import pg from "pg";
import { NextRequest } from "next/server";
import { Temporal } from "temporal-polyfill";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { FEED_BURST } from "@/lib/contracts/feeds";
import type { Who } from "@/lib/server/who";
import { useFreshDatabase } from "@/tests/helpers/database";
import { readIcs, type ReadEvent } from "@/tests/helpers/read-ics";
import { makeWorkshop, type MadeWorkshop } from "@/tests/helpers/scenario";

const database = await useFreshDatabase();
const { closeDatabase } = await import("@/lib/server/db");
const { atInstant, now } = await import("@/lib/server/clock");
const { GET } = await import("@/app/feeds/[secret]/calendar.ics/route");
const { makeMyFeed } = await import("@/lib/server/commands/make-my-feed");
const { revokeMyFeed } = await import("@/lib/server/commands/revoke-my-feed");
const { makeKilnFeed } = await import("@/lib/server/commands/make-kiln-feed");
const { revokeKilnFeed } = await import("@/lib/server/commands/revoke-kiln-feed");
const { cancelRun } = await import("@/lib/server/commands/cancel-run");
const { releaseRun } = await import("@/lib/server/commands/release-run");
const { beginOutage } = await import("@/lib/server/commands/begin-outage");
const { endOutage } = await import("@/lib/server/commands/end-outage");
const { addClosure } = await import("@/lib/server/commands/add-closure");
const { deactivateMember } = await import("@/lib/server/commands/deactivate-member");
const { myFeed } = await import("@/lib/server/queries/my-feed");
const { kilnFeed } = await import("@/lib/server/queries/kiln-feed");
const { bookedRun, codeOf, must } = await import("@/tests/helpers/booking");
const { movedRun } = await import("@/tests/helpers/moved-run");

let owner: pg.Client;
let shed: MadeWorkshop;

beforeAll(async () => {
  owner = new pg.Client({ connectionString: database.ownerUrl });
  await owner.connect();
});
afterAll(async () => {
  await owner.end();
  await closeDatabase();
  await database.drop();
});

async function fresh(wish?: Parameters<typeof makeWorkshop>[1]): Promise<MadeWorkshop> {
  shed = await makeWorkshop(database.ownerUrl, wish);
  return shed;
}

const myAddress = async (who: Who) => must(await makeMyFeed(who, {})).address;
const kilnAddress = async (made: MadeWorkshop) => must(await makeKilnFeed(made.manager, { equipmentId: made.northKiln.equipmentId })).address;

/** What a calendar program gets, through the route itself. */
async function get(address: string, headers: Readonly<Record<string, string>> = {}): Promise<Response> {
  const secret = new URL(address).pathname.split("/")[2] ?? "";
  return GET(new NextRequest(address, { headers }), { params: Promise.resolve({ secret: decodeURIComponent(secret) }) });
}

async function events(address: string): Promise<readonly ReadEvent[]> {
  const answer = await get(address);
  expect(answer.status).toBe(200);
  return readIcs(await answer.text());
}

const byUid = (all: readonly ReadEvent[]) => new Map(all.map((event) => [event.uid, event] as const));

describe("a person's feed", () => {
  it("tells steamer, kiln and every lift of the own runs, at their times", async () => {
    const { member, otherMember, northKiln, southKiln } = await fresh();
    const { firingId } = await bookedRun(member, northKiln.equipmentId, "Low tide; grey, with salt");
    await bookedRun(otherMember, southKiln.equipmentId, "Not mine");
    const told = await events(await myAddress(member));
    expect(told.map(({ summary }) => summary.replace(/: Low tide; grey, with salt$/, "")).sort()).toEqual(["Kiln", "Load the kiln", "Mould out of the steamer", "Mould to the steamer", "Steam out", "Unload the kiln"]);
    const { rows } = await owner.query("SELECT entry_id, starts_at, ends_at FROM booking WHERE firing_id = $1 AND purpose IN ('kiln', 'steam-out') UNION ALL SELECT entry_id, starts_at, ends_at FROM lift WHERE firing_id = $1", [firingId]);
    const read = byUid(told);
    for (const { entry_id, starts_at, ends_at } of rows) {
      const event = read.get(`${entry_id}@lehrbook.invalid`);
      expect([Date.parse(event?.start ?? ""), Date.parse(event?.end ?? "")]).toEqual([starts_at.getTime(), ends_at.getTime()]);
      expect(event).toMatchObject({ status: "CONFIRMED", sequence: 0, zone: "Europe/Copenhagen" });
    }
    const load = told.find(({ summary }) => summary.startsWith("Load"));
    expect(load).toMatchObject({ location: "North kiln" });
    expect(load?.description).toMatch(/^\d+ kg, .*\nDrying rack to North kiln\.\n[\s\S]*http:\/\/localhost:3000\/firings\//);
  });

  it("tells an assistant every lift of the workshop with whose it is, and no kiln", async () => {
    const { member, assistant, northKiln } = await fresh();
    await bookedRun(member, northKiln.equipmentId, "Low tide");
    const told = await events(await myAddress(assistant));
    expect(told).toHaveLength(4);
    for (const { summary } of told) expect(summary).toMatch(/Low tide, Jonas Brink$/);
  });

  it("keeps the name of each entry over a move, with its new time and a higher count", async () => {
    const { member, northKiln } = await fresh();
    const { firingId } = await bookedRun(member, northKiln.equipmentId);
    const address = await myAddress(member);
    const before = byUid(await events(address));
    for (const sequence of [1, 2]) {
      const { kilnFrom } = await movedRun(member, firingId, northKiln.equipmentId);
      const after = byUid(await events(address));
      expect([...after.keys()].sort()).toEqual([...before.keys()].sort());
      for (const [uid, event] of after) {
        expect(event).toMatchObject({ sequence, status: "CONFIRMED", stamp: event.lastModified });
        expect(event.lastModified >= (before.get(uid)?.lastModified ?? "")).toBe(true);
      }
      const kiln = [...after.values()].find(({ summary }) => summary.startsWith("Kiln"));
      expect(Date.parse(kiln?.start ?? "")).toBe(Date.parse(kilnFrom));
    }
  });

  it.each(["cancelled", "released"])("sends a %s run as cancelled until 30 days after it would have been over, and then no more", async (how) => {
    const { member, manager, northKiln } = await fresh();
    const { firingId } = await bookedRun(member, northKiln.equipmentId);
    const address = await myAddress(member);
    const before = byUid(await events(address));
    if (how === "cancelled") must(await cancelRun(member, { firingId, reason: "The wax broke." }));
    else must(await releaseRun(manager, { firingId, reason: "The kiln is wanted elsewhere." }));
    const after = await events(address);
    expect(after.map(({ uid }) => uid).sort()).toEqual([...before.keys()].sort());
    for (const event of after) expect(event).toMatchObject({ status: "CANCELLED", sequence: 1, start: before.get(event.uid)?.start });
    const kiln = after.find(({ summary }) => summary.startsWith("Cancelled: Kiln"));
    expect(kiln?.description).toMatch(how === "cancelled" ? /^The wax broke\./ : /^The kiln is wanted elsewhere\./);
    const end = Temporal.Instant.from(kiln?.end ?? "");
    const toldAt = (hours: number) => atInstant(end.add({ hours }), async () => (await events(address)).some(({ uid }) => uid === kiln?.uid));
    expect([await toldAt(30 * 24 - 1), await toldAt(30 * 24)]).toEqual([true, false]);
  });

  it("keeps what was fired for 90 days", async () => {
    const { member, northKiln } = await fresh();
    await bookedRun(member, northKiln.equipmentId);
    const address = await myAddress(member);
    const kiln = (await events(address)).find(({ summary }) => summary.startsWith("Kiln"));
    const end = Temporal.Instant.from(kiln?.end ?? "");
    const toldAt = (hours: number) => atInstant(end.add({ hours }), async () => (await events(address)).some(({ uid }) => uid === kiln?.uid));
    expect([await toldAt(90 * 24 - 1), await toldAt(90 * 24)]).toEqual([true, false]);
  });
});

describe("a kiln's feed", () => {
  it("tells its bookings with whose they are, and not the other kiln's", async () => {
    const { member, otherMember, northKiln, southKiln } = await fresh();
    await bookedRun(member, northKiln.equipmentId, "Low tide");
    await bookedRun(otherMember, southKiln.equipmentId, "High tide");
    const told = await events(await kilnAddress(shed));
    expect(told.map(({ summary, location }) => [summary, location])).toEqual([["Kiln: Low tide, Jonas Brink", "North kiln"]]);
  });

  it("cancels a run that moves to another kiln, and takes it back under its name", async () => {
    const { member, northKiln, southKiln } = await fresh();
    const { firingId } = await bookedRun(member, northKiln.equipmentId);
    const address = await kilnAddress(shed);
    const [first] = await events(address);
    await movedRun(member, firingId, southKiln.equipmentId);
    expect(await events(address)).toMatchObject([{ uid: first?.uid, status: "CANCELLED", sequence: 1 }]);
    await movedRun(member, firingId, northKiln.equipmentId);
    expect(await events(address)).toMatchObject([{ uid: first?.uid, status: "CONFIRMED", sequence: 2 }]);
  });

  it("tells its outages, one without an end as such, one withdrawn as cancelled, and none of the other kiln", async () => {
    const { manager, northKiln, southKiln } = await fresh();
    const { outageId } = must(await beginOutage(manager, { equipmentId: northKiln.equipmentId, from: `${inDays(10)}T09:00`, to: "", reason: "New elements" }));
    must(await beginOutage(manager, { equipmentId: southKiln.equipmentId, from: "", to: "", reason: "Another" }));
    const address = await kilnAddress(shed);
    const [open, ...others] = await events(address);
    expect(others).toEqual([]);
    expect(open).toMatchObject({ uid: `${outageId}@lehrbook.invalid`, summary: "Out of service: North kiln", description: "New elements\nNo end known.", status: "CONFIRMED", sequence: 0 });
    expect(Temporal.Instant.from(open?.start ?? "").until(Temporal.Instant.from(open?.end ?? "")).total("hours")).toBeGreaterThan(24 * 500);
    must(await endOutage(manager, { outageId }));
    expect(await events(address)).toMatchObject([{ status: "CANCELLED", sequence: 1 }]);
  });

  it("tells the days on which the workshop is closed", async () => {
    const { manager } = await fresh();
    must(await addClosure(manager, { from: inDays(20), to: inDays(24), reason: "Summer break" }));
    expect(await events(await kilnAddress(shed))).toMatchObject([{ summary: "Closed: Summer break", start: inDays(20), end: inDays(25) }]);
  });

  it("goes by the clocks of its own workshop", async () => {
    const { member, northKiln } = await fresh({ timeZone: "Pacific/Auckland" });
    await bookedRun(member, northKiln.equipmentId);
    expect(await events(await kilnAddress(shed))).toMatchObject([{ zone: "Pacific/Auckland" }]);
  });
});

function inDays(days: number): string {
  return now().toZonedDateTimeISO("Europe/Copenhagen").toPlainDate().add({ days }).toString();
}

describe("the address of a feed", () => {
  it("is shown once: only its hash is kept, in feed, record and receipts", async () => {
    const { member } = await fresh();
    const address = await myAddress(member);
    expect(address).toMatch(/^http:\/\/localhost:3000\/feeds\/[\w-]{43}\/calendar\.ics$/);
    const secret = address.split("/")[4] ?? "";
    const { rows } = await owner.query("SELECT f::text AS whole, secret_hash FROM feed f WHERE workshop_id = $1 UNION ALL SELECT a::text, '' FROM audit a WHERE workshop_id = $1", [shed.workshopId]);
    expect(rows).toHaveLength(2);
    expect(rows[0].secret_hash).toBe(createHash("sha256").update(secret).digest("hex"));
    for (const { whole } of rows) expect(whole).not.toContain(secret);
    expect(await owner.query("SELECT 1 FROM receipt WHERE workshop_id = $1", [shed.workshopId])).toHaveProperty("rows", []);
  });

  it("opens nothing once a new one was made, once it was revoked, or once its owner has left, and all in the same words", async () => {
    const { member, otherMember, manager } = await fresh();
    const old = await myAddress(member);
    const { address: newer, replaced } = must(await makeMyFeed(member, {}));
    expect(replaced).toBe(true);
    expect((await get(newer)).status).toBe(200);
    must(await revokeMyFeed(member, {}));
    const gone = await myAddress(otherMember);
    must(await deactivateMember(manager, { memberId: otherMember.memberId }));
    const unknown = ["x".repeat(43), "short", "", "%00", "x".repeat(5000), "'; DROP TABLE feed--"].map((secret) => `http://localhost:3000/feeds/${encodeURIComponent(secret)}/calendar.ics`);
    const answers = [];
    for (const address of [old, newer, gone, ...unknown]) {
      const answer = await get(address);
      answers.push({ status: answer.status, headers: [...answer.headers], body: await answer.text() });
    }
    expect(answers[0]).toMatchObject({ status: 404 });
    for (const answer of answers) expect(answer).toEqual(answers[0]);
    expect(codeOf(await revokeMyFeed(member, {}))).toBe("no-feed");
  });

  it("of a kiln is made and revoked by managers only, for a kiln of their own workshop", async () => {
    const { member, assistant, manager, northKiln, steamer } = await fresh();
    const stranger = await makeWorkshop(database.ownerUrl);
    const of = { equipmentId: northKiln.equipmentId };
    const address = await kilnAddress(shed);
    for (const who of [member, assistant]) expect([codeOf(await makeKilnFeed(who, of)), codeOf(await revokeKilnFeed(who, of))]).toEqual(["not-allowed", "not-allowed"]);
    expect([codeOf(await makeKilnFeed(stranger.manager, of)), codeOf(await revokeKilnFeed(stranger.manager, of))]).toEqual(["not-found", "not-found"]);
    expect(codeOf(await makeKilnFeed(manager, { equipmentId: steamer.equipmentId }))).toBe("not-a-kiln");
    expect((await get(address)).status).toBe(200);
    must(await revokeKilnFeed(manager, of));
    expect((await get(address)).status).toBe(404);
  });

  it("is one at most, also for two clicks at the same instant", async () => {
    const { member } = await fresh();
    const outcomes = await Promise.all([1, 2, 3, 4].map(() => makeMyFeed(member, {})));
    for (const outcome of outcomes) expect(["ok", "made-meanwhile"]).toContain(codeOf(outcome));
    const { rows } = await owner.query("SELECT 1 FROM feed WHERE member_id = $1 AND revoked_at IS NULL", [member.memberId]);
    expect(rows).toHaveLength(1);
  });

  it("stands on the page with when it was made and last read, to the hour, and without itself", async () => {
    const { member, manager, northKiln } = await fresh();
    expect(await myFeed(member, undefined)).toBeNull();
    const at = now();
    const address = await atInstant(at, () => myAddress(member));
    const standing = { madeMs: at.epochMilliseconds, madeBy: "Jonas Brink", lastReadMs: null };
    expect(await myFeed(member, undefined)).toEqual(standing);
    for (const minutes of [0, 59]) await atInstant(at.add({ minutes }), () => get(address));
    expect(await myFeed(member, undefined)).toEqual({ ...standing, lastReadMs: at.epochMilliseconds });
    await atInstant(at.add({ minutes: 60 }), () => get(address));
    expect(await myFeed(member, undefined)).toEqual({ ...standing, lastReadMs: at.add({ minutes: 60 }).epochMilliseconds });
    await kilnAddress(shed);
    expect(await kilnFeed(manager, northKiln.equipmentId)).toMatchObject({ madeBy: "Marit Toft" });
    await expect(kilnFeed(member, northKiln.equipmentId)).rejects.toThrow(/not allowed/);
  });
});

describe("the answer", () => {
  it("is a calendar kept by nobody in between, and not sent again while it is the same", async () => {
    const { member, northKiln } = await fresh();
    const { firingId } = await bookedRun(member, northKiln.equipmentId);
    const address = await myAddress(member);
    const first = await get(address);
    expect(Object.fromEntries(first.headers)).toMatchObject({ "content-type": "text/calendar; charset=utf-8", "cache-control": "private, no-cache" });
    const etag = first.headers.get("etag") ?? "";
    for (const sent of [etag, `W/${etag}`, `"other", ${etag}`, "*"]) {
      const again = await get(address, { "If-None-Match": sent });
      expect({ sent, status: again.status, body: await again.text(), etag: again.headers.get("etag") }).toEqual({ sent, status: 304, body: "", etag });
    }
    expect((await get(address, { "If-None-Match": '"other"' })).status).toBe(200);
    await movedRun(member, firingId, northKiln.equipmentId);
    const moved = await get(address, { "If-None-Match": etag });
    expect({ status: moved.status, same: moved.headers.get("etag") === etag }).toEqual({ status: 200, same: false });
  });

  it("holds nothing of another workshop, although both have the same people and kilns by name", async () => {
    const other = await fresh();
    await bookedRun(other.member, other.northKiln.equipmentId, "Theirs");
    must(await beginOutage(other.manager, { equipmentId: other.southKiln.equipmentId, from: "", to: "", reason: "Theirs" }));
    must(await addClosure(other.manager, { from: inDays(1), reason: "Theirs" }));
    const ours = await fresh();
    for (const address of [await myAddress(ours.member), await myAddress(ours.assistant), await kilnAddress(ours)]) expect(await events(address)).toEqual([]);
  });
});

describe("an address that is read often", () => {
  const tenTimes = async (address: string, headers?: Readonly<Record<string, string>>) => {
    const statuses = [];
    for (let n = 0; n < FEED_BURST; n++) statuses.push((await get(address, headers)).status);
    return statuses;
  };
  const start = () => Temporal.Instant.from("2027-03-01T09:00:00Z");

  it("is answered ten times at once; then with 429 and when to come again, and once a minute from then on", async () => {
    const { member } = await fresh();
    const address = await myAddress(member);
    await atInstant(start(), async () => {
      expect(await tenTimes(address)).toEqual(Array.from({ length: FEED_BURST }, () => 200));
      const no = await get(address);
      expect({ status: no.status, wait: no.headers.get("retry-after"), cache: no.headers.get("cache-control"), body: await no.text() }).toEqual({
        status: 429, wait: "60", cache: "no-store", body: "This calendar was read too often; it is read again in 60 s.\n",
      });
    });
    const after = async (seconds: number) => atInstant(start().add({ seconds }), async () => [(await get(address)).status, (await get(address)).headers.get("retry-after")]);
    expect(await after(59)).toEqual([429, "1"]);
    expect(await after(60)).toEqual([200, "60"]);
    // An hour later no more than ten are saved up.
    await atInstant(start().add({ hours: 1, seconds: 60 }), async () => {
      await tenTimes(address);
      expect((await get(address)).status).toBe(429);
    });
  });

  it("counts requests that are answered with nothing new, and is another's business in nothing", async () => {
    const { member, otherMember } = await fresh();
    const [address, other] = [await myAddress(member), await myAddress(otherMember)];
    await atInstant(start(), async () => {
      const etag = (await get(address)).headers.get("etag") ?? "";
      expect((await tenTimes(address, { "If-None-Match": etag })).filter((status) => status === 304)).toHaveLength(FEED_BURST - 1);
      expect((await get(address, { "If-None-Match": etag })).status).toBe(429);
      expect([(await get(other)).status, (await get(await kilnAddress(shed))).status]).toEqual([200, 200]);
      // An address made anew begins with an allowance of its own; the old one opens nothing, however often it is asked.
      const newer = await myAddress(member);
      expect([(await get(newer)).status, (await get(address)).status]).toEqual([200, 404]);
    });
  });

  it("gives ten to many at the same instant, and nothing for a clock that goes back", async () => {
    const { member } = await fresh();
    const address = await myAddress(member);
    const statuses = await atInstant(start(), () => Promise.all(Array.from({ length: 14 }, async () => (await get(address)).status)));
    expect(statuses.filter((status) => status === 200)).toHaveLength(FEED_BURST);
    expect(statuses.filter((status) => status === 429)).toHaveLength(4);
    await atInstant(start().subtract({ hours: 2 }), async () => expect((await get(address)).status).toBe(429));
    await atInstant(start().add({ seconds: 59 }), async () => expect((await get(address)).status).toBe(429));
  });

  it("opens nothing for who has left, also when its allowance is spent", async () => {
    const { member, manager } = await fresh();
    const address = await myAddress(member);
    await atInstant(start(), () => tenTimes(address));
    must(await deactivateMember(manager, { memberId: member.memberId }));
    await atInstant(start(), async () => expect((await get(address)).status).toBe(404));
  });
});
