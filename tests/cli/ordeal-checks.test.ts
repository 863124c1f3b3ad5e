import { describe, expect, it } from "vitest";
import { CHECKS } from "@/lib/cli/ordeal/checks";
import type { Asked, Facts } from "@/lib/cli/ordeal/history";

const HOUR = 3_600_000;
const T0 = Date.parse("2027-03-01T08:00:00Z");
const iso = (hours: number) => new Date(T0 + hours * HOUR).toISOString();
const part = (firingId: string, equipmentId: string, purpose: string, from: number, to: number, standing = true) => ({ firingId, equipmentId, purpose, start: T0 + from * HOUR, end: T0 + to * HOUR, standing });

/** Ida books a run; the manager moves it by a day; Ida books another, and gives it back. */
const good: { readonly history: readonly Asked[]; readonly facts: Facts } = {
  history: [
    { op: "book-run", memberId: "ida", key: "k1", outcome: "acknowledged", answer: { firingId: "f1" }, again: [{ firingId: "f1" }] },
    { op: "move-run", memberId: "mo", key: "k2", outcome: "acknowledged", answer: { firingId: "f1", kilnFrom: iso(25), kilnTo: iso(100) } },
    { op: "book-run", memberId: "ida", key: "k3", outcome: "acknowledged", answer: { firingId: "f2" } },
    { op: "cancel-run", memberId: "ida", key: "k4", outcome: "acknowledged", answer: { firingId: "f2", castingId: "c2" } },
    { op: "book-run", memberId: "ida", key: "k5", outcome: "refused" },
  ],
  facts: {
    firings: [
      { firingId: "f1", memberId: "ida", status: "planned", purposes: ["load", "kiln"] },
      { firingId: "f2", memberId: "ida", status: "cancelled", purposes: ["kiln"] },
    ],
    bookings: [part("f1", "A", "kiln", 1, 76, false), part("f1", "A", "kiln", 25, 100), part("f1", "T", "load", 24, 25), part("f2", "A", "kiln", 100, 150, false)],
    audits: [
      { action: "book-run", subjectId: "f1", memberId: "ida", after: { kilnFrom: iso(1), kilnTo: iso(76) } },
      { action: "move-run", subjectId: "f1", memberId: "mo", after: { kilnFrom: iso(25), kilnTo: iso(100) } },
      { action: "book-run", subjectId: "f2", memberId: "ida", after: { kilnFrom: iso(100), kilnTo: iso(150) } },
      { action: "cancel-run", subjectId: "f2", memberId: "ida", after: {} },
    ],
    receipts: [
      { memberId: "ida", key: "k1", answer: { firingId: "f1" } },
      { memberId: "mo", key: "k2", answer: { kilnTo: iso(100), kilnFrom: iso(25), firingId: "f1" } },
      { memberId: "ida", key: "k3", answer: { firingId: "f2" } },
      { memberId: "ida", key: "k4", answer: { firingId: "f2", castingId: "c2" } },
    ],
    notices: [{ memberId: "ida", href: "/firings/f1", text: "moved" }],
    mails: [{ mailId: "m1", memberId: "ida", kind: "moved", done: false }],
    jobs: ["m1"],
    asks: [],
  },
};

const broken = (facts: Partial<Facts>, history: readonly Asked[] = good.history) =>
  CHECKS.filter(({ find }) => find(history, { ...good.facts, ...facts }).length > 0).map(({ name }) => name);
const with0 = (change: Partial<Asked>) => good.history.map((one, i) => (i === 0 ? { ...one, ...change } : one));

describe("the ordeal's checks", () => {
  it("find nothing in a history that is right", () => {
    expect(broken({})).toEqual([]);
  });

  const WRONG: readonly (readonly [name: string, facts: Partial<Facts>, history?: readonly Asked[]])[] = [
    ["no piece of equipment is booked twice at a time", { firings: [...good.facts.firings, { firingId: "f3", memberId: "ida", status: "planned", purposes: ["kiln"] }], bookings: [...good.facts.bookings, part("f3", "A", "kiln", 99, 120)] }],
    ["every run is whole or not there", { bookings: good.facts.bookings.filter(({ purpose }) => purpose !== "load") }],
    ["every run is whole or not there", { bookings: good.facts.bookings.map((one) => ({ ...one, standing: one.standing || one.firingId === "f2" })) }],
    ["every acknowledged change is in the record", { audits: good.facts.audits.filter(({ action }) => action !== "move-run") }],
    ["every acknowledged change is in the record", {}, [...good.history, { op: "create-ask", memberId: "ida", key: null, outcome: "acknowledged", answer: { askId: "a1" } }]],
    ["the calendar is as the record's last word on each run", { bookings: good.facts.bookings.map((one) => (one.standing && one.purpose === "kiln" ? { ...one, end: one.end - HOUR } : one)) }],
    ["the calendar is as the record's last word on each run", { firings: good.facts.firings.map((one) => ({ ...one, status: "planned" })) }],
    ["no change was made twice", { audits: [...good.facts.audits.slice(0, 1), ...good.facts.audits] }],
    ["a repeated key got the same answer", {}, with0({ again: [{ firingId: "f9" }] })],
    ["every acknowledged key has its receipt", { receipts: good.facts.receipts.slice(1) }],
    ["every acknowledged key has its receipt", { receipts: good.facts.receipts.map((one) => ({ ...one, answer: { firingId: "f9" } })) }],
    ["whoever was concerned was told", { notices: [] }],
    ["whoever was concerned was told", { mails: [] }],
    ["every mail has its job or is done", { jobs: [] }],
  ];
  it.each(WRONG.map((one, i) => [one[0], i] as const))("see where it does not hold that %s", (name, i) => {
    const [, facts = {}, history] = WRONG[i] ?? [];
    expect(broken(facts, history)).toContain(name);
  });

  it("let touching bookings be, and bookings of another piece", () => {
    const more = [{ firingId: "f3", memberId: "ida", status: "planned", purposes: ["kiln"] }];
    const audits = [...good.facts.audits, { action: "book-run", subjectId: "f3", memberId: "ida", after: { kilnFrom: iso(100), kilnTo: iso(120) } }];
    expect(broken({ firings: [...good.facts.firings, ...more], audits, bookings: [...good.facts.bookings, part("f3", "A", "kiln", 100, 120)] })).toEqual([]);
    expect(broken({ firings: [...good.facts.firings, ...more], audits, bookings: [...good.facts.bookings, part("f3", "B", "kiln", 100, 120)] })).toEqual([]);
  });

  it("do not ask a record of what nobody was told about", () => {
    expect(broken({}, [...good.history, { op: "book-run", memberId: "ida", key: "k9", outcome: "unknown" }])).toEqual([]);
  });
});
