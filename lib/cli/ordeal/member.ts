import { randomUUID } from "node:crypto";
import type { Who } from "@/lib/server/who";
import type { Answer, Asked } from "./history";
import type { Wire } from "./wire";

type Offer = { readonly kilnId: string; readonly runs: readonly { readonly kilnFrom: string; readonly kilnTo: string; readonly steamFrom: string | null }[] };
type Times = { readonly version?: number; readonly kilns: readonly Offer[] };

/** Repeated until it is known what became of it, so often; then it stays unknown. */
const MOST_TRIES = 12;
const PAUSE_MS = 250;

/**
 * Somebody who books, moves, lengthens, cancels and asks at random, and remembers what was answered. A manager also
 * moves what is others'. Requests that broke are repeated with their key; some that did not, too.
 */
export class Member {
  readonly history: Asked[] = [];
  private readonly booked = new Map<string, string>();

  constructor(readonly who: Who, private readonly castingIds: readonly string[], private readonly wire: Wire, private readonly random: () => number, private readonly everybody: Set<string>) {}

  async live(until: () => boolean): Promise<void> {
    while (!until()) await this.act();
  }

  private pick<V>(list: readonly V[]): V | undefined {
    return list[Math.floor(this.random() * list.length)];
  }

  private async act(): Promise<void> {
    const chance = this.random();
    const mine = this.pick([...this.booked.values()]);
    const free = this.pick(this.castingIds.filter((id) => !this.booked.has(id)));
    if (free !== undefined && (mine === undefined || chance < 0.45)) return chance < 0.06 ? this.wish(free) : this.book(free);
    if (mine === undefined) return;
    if (chance < 0.7) return this.move(this.who.roles.includes("manager") ? (this.pick([...this.everybody]) ?? mine) : mine);
    if (chance < 0.85) return this.lengthen(mine);
    return this.cancel(mine);
  }

  private async times(path: string): Promise<Times | undefined> {
    const heard = await this.wire.ask("GET", path);
    return heard?.status === 200 ? (heard.body as Times) : undefined;
  }

  /** Early runs are wanted by all; now and then somebody takes a later one. */
  private offer({ kilns }: Times) {
    const kiln = this.pick(kilns.filter(({ runs }) => runs.length > 0));
    const run = kiln?.runs[this.random() < 0.7 ? 0 : kiln.runs.length - 1];
    return kiln === undefined || run === undefined ? undefined : { kilnId: kiln.kilnId, kilnFrom: run.kilnFrom, ...(run.steamFrom === null ? {} : { steamFrom: run.steamFrom }) };
  }

  private async book(castingId: string): Promise<void> {
    const times = await this.times(`/api/v1/castings/${castingId}/times`);
    const offer = times === undefined ? undefined : this.offer(times);
    if (offer === undefined) return;
    const answer = await this.change("book-run", "/api/v1/runs", { castingId, ...offer });
    if (answer?.firingId === undefined) return;
    this.booked.set(castingId, answer.firingId);
    this.everybody.add(answer.firingId);
  }

  private async move(firingId: string): Promise<void> {
    const times = await this.times(`/api/v1/runs/${firingId}/times`);
    const offer = times === undefined ? undefined : this.offer(times);
    if (offer !== undefined) await this.change("move-run", `/api/v1/runs/${firingId}/move`, { ...offer, version: times?.version, reason: "It is moved by the ordeal." });
  }

  private async lengthen(firingId: string): Promise<void> {
    const heard = await this.wire.ask("GET", `/api/v1/runs/${firingId}`);
    if (heard?.status !== 200) return;
    const { kilnTo } = heard.body as { readonly kilnTo: string };
    await this.change("lengthen-booking", "/commands/lengthen-booking", { firingId, kilnTo: new Date(Date.parse(kilnTo) + 3_600_000).toISOString() }, null);
  }

  private async cancel(firingId: string): Promise<void> {
    const answer = await this.change("cancel-run", `/api/v1/runs/${firingId}/cancel`, {});
    if (answer === undefined) return;
    for (const [castingId, id] of this.booked) if (id === firingId) this.booked.delete(castingId);
    this.everybody.delete(firingId);
  }

  private async wish(castingId: string): Promise<void> {
    const times = await this.times(`/api/v1/castings/${castingId}/times`);
    const kilnId = this.pick(times?.kilns ?? [])?.kilnId;
    const fromDate = new Date(Date.now() + 40 * 86_400_000).toISOString().slice(0, 10);
    if (kilnId !== undefined) await this.change("create-ask", "/commands/create-ask", { castingId, kilnId, fromDate, importance: 2, note: "" }, null);
  }

  /** Asks until it is known what became of it. Without a key it is asked once: nobody could tell a second from the first. */
  private async change(op: Asked["op"], path: string, body: object, key: string | null = randomUUID()): Promise<Answer | undefined> {
    let heard = await this.wire.ask("POST", path, body, key ?? undefined);
    for (let tries = 1; heard === undefined && key !== null && tries < MOST_TRIES; tries += 1) {
      await new Promise((done) => setTimeout(done, PAUSE_MS));
      heard = await this.wire.ask("POST", path, body, key);
    }
    const base = { op, memberId: this.who.memberId, key };
    if (heard === undefined || heard.status >= 300) {
      this.history.push({ ...base, outcome: heard === undefined ? "unknown" : "refused" });
      return undefined;
    }
    const answer = heard.body as Answer;
    const again: Answer[] = [];
    if (key !== null && this.random() < 0.3) {
      const repeated = await this.wire.ask("POST", path, body, key);
      if (repeated !== undefined) again.push(repeated.body as Answer);
    }
    this.history.push({ ...base, outcome: "acknowledged", answer, again });
    return answer;
  }
}
