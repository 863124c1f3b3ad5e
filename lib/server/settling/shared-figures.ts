import type { DayPlacement } from "@/lib/domain/settling/days/day-problem";

/** Bytes of the figures and flags before the plan, and of the plan by run: kiln, load, unload, steamer day. */
const HEAD = 32;
const FIELDS = 4;

export type SharedPlan = { readonly cost: number; readonly placements: readonly DayPlacement[] };

/**
 * What the threads of one settlement tell each other without messages, which a thread that computes
 * could not read: the best cost and the best bound so far, the wish to stop, and the best whole plan in
 * days where there is room for one.
 */
export class SharedFigures {
  private readonly figures: Float64Array;
  private readonly flags: Int32Array;
  private readonly plan: Int32Array;

  constructor(readonly buffer: SharedArrayBuffer) {
    this.figures = new Float64Array(buffer, 0, 3);
    this.flags = new Int32Array(buffer, 24, 2);
    this.plan = new Int32Array(buffer, HEAD);
  }

  /** `runs`: how many a plan to be shared has; 0 shares none. */
  static create(runs = 0): SharedFigures {
    const shared = new SharedFigures(new SharedArrayBuffer(HEAD + 4 * FIELDS * runs));
    shared.figures[0] = Infinity;
    shared.figures[2] = Infinity;
    return shared;
  }

  /** Both only get better, so one read a moment ago is still true. */
  get cost(): number {
    return this.figures[0] ?? Infinity;
  }

  offerCost(cost: number): void {
    this.locked(() => {
      if (cost < this.cost) this.figures[0] = cost;
    });
  }

  /** A plan in which every run is placed; kept when it is the best and has as many runs as there is room for. */
  offerPlan({ cost, placements }: SharedPlan): void {
    if (placements.length * FIELDS !== this.plan.length) return;
    this.locked(() => {
      if (!(cost < this.planCost)) return;
      this.figures[2] = cost;
      for (const { job, kiln, start, end, steam } of placements) this.plan.set([kiln, start, end, steam], job * FIELDS);
    });
  }

  /** What the best plan offered costs; Infinity when there is none. */
  get planCost(): number {
    return this.figures[2] ?? Infinity;
  }

  bestPlan(): SharedPlan | undefined {
    const plan = new Int32Array(this.plan.length);
    let cost = Infinity;
    this.locked(() => {
      cost = this.planCost;
      plan.set(this.plan);
    });
    if (cost === Infinity) return undefined;
    const placements = Array.from({ length: plan.length / FIELDS }, (_, job) => {
      const [kiln = -1, start = -1, end = -1, steam = -1] = plan.subarray(job * FIELDS);
      return { job, kiln, start, end, steam };
    });
    return { cost, placements };
  }

  get bound(): number {
    return this.figures[1] ?? 0;
  }

  offerBound(bound: number): void {
    this.locked(() => {
      if (bound > this.bound) this.figures[1] = bound;
    });
  }

  get isStopped(): boolean {
    return Atomics.load(this.flags, 0) === 1;
  }

  stop(): void {
    Atomics.store(this.flags, 0, 1);
  }

  private locked(work: () => void): void {
    while (Atomics.compareExchange(this.flags, 1, 0, 1) !== 0);
    work();
    Atomics.store(this.flags, 1, 0);
  }
}
