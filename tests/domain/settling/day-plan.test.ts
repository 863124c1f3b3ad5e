import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { dropOthers, emptyDayPlan, ownOver, planCost, putOrder, setOrder, type DayPlan } from "@/lib/domain/settling/days/day-plan";
import { dayTables } from "@/lib/domain/settling/days/day-tables";
import { OpToll } from "@/lib/domain/settling/days/op-toll";
import { weekdaysProblem } from "@/tests/helpers/settling";

const tables = dayTables(weekdaysProblem(Array.from({ length: 6 }, () => ({ steams: false })), { opsOn: Array.from({ length: 60 }, (_, day) => (day % 7 < 5 ? 1 : 0)), horizon: 60 }));

/** Six runs on two kilns in a row, with so many days between them; days may hold too many of them. */
const orders = fc.tuple(...Array.from({ length: 6 }, () => fc.record({ kiln: fc.constantFrom(0, 1), wait: fc.integer({ min: 0, max: 3 }) }))).map((runs) =>
  [0, 1].map((kiln) => {
    const jobs: number[] = [];
    const starts: number[] = [];
    let free = 1;
    runs.forEach((run, job) => {
      const row = tables.rowOf[job * tables.classes + (tables.classOf[kiln] ?? 0)] ?? 0;
      const end = run.kiln === kiln ? (tables.end[row + free + run.wait] ?? -1) : -1;
      if (end < 0) return;
      jobs.push(job);
      starts.push(free + run.wait);
      free = end;
    });
    return { jobs, starts };
  }),
);
const planned = (both: readonly { jobs: readonly number[]; starts: readonly number[] }[]): DayPlan => {
  const plan = emptyDayPlan(tables);
  both.forEach(({ jobs, starts }, kiln) => setOrder(plan, kiln, jobs, starts));
  return plan;
};
const beyond = ({ opsUsed }: DayPlan): number => opsUsed.reduce((sum, used, at) => sum + Math.max(0, used - (tables.ops[at] ?? 0)), 0);

describe("a plan that may be over", () => {
  it("counts what is beyond its days, and what would not be without a kiln", () => {
    fc.assert(
      fc.property(orders, (both) => {
        const plan = planned(both);
        expect(plan.over).toBe(beyond(plan));
        for (const kiln of [0, 1]) {
          const others = planned(both.map((order, one) => (one === kiln ? { jobs: [], starts: [] } : order)));
          expect(ownOver(plan, kiln)).toBe(plan.over - others.over);
        }
      }),
    );
  });

  it("is as before when an order is changed and put back", () => {
    fc.assert(
      fc.property(orders, orders, (both, other) => {
        const plan = planned(both);
        for (const next of [other, both]) {
          next.forEach(({ jobs, starts }, kiln) => dropOthers(plan, kiln, jobs, starts));
          next.forEach(({ jobs, starts }, kiln) => putOrder(plan, kiln, jobs, starts));
        }
        const fresh = planned(both);
        expect([plan.orders, plan.over, plan.leftOut, [...plan.opsUsed], [...plan.opsOf], planCost(plan)]).toEqual([fresh.orders, fresh.over, fresh.leftOut, [...fresh.opsUsed], [...fresh.opsOf], planCost(fresh)]);
      }),
    );
  });
});

describe("the price of being over", () => {
  const after = (over: readonly number[], toll = new OpToll(1)): number => {
    over.forEach((one) => toll.isChangedBy(one));
    return toll.perOp;
  };
  const plans = (standing: number): number[] => Array.from({ length: 50 }, (_, i) => (i < standing ? 0 : 1));

  it("rises when fewer than half of fifty plans stand, and falls otherwise", () => {
    expect(after(plans(24))).toBeGreaterThan(1);
    expect(after(plans(25))).toBeLessThan(1);
    expect(after(plans(24).slice(0, 49))).toBe(1);
  });

  it("stays infinite where nothing may be over, and costs nothing when nothing is", () => {
    expect(after(plans(0), new OpToll())).toBe(Infinity);
    expect(new OpToll().of(0)).toBe(0);
    expect(new OpToll(3).of(2)).toBe(6);
  });
});
