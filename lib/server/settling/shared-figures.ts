/**
 * What the threads of one settlement tell each other without messages, which a thread that computes
 * could not read: the best cost and the best bound so far, and the wish to stop.
 */
export class SharedFigures {
  private readonly figures: Float64Array;
  private readonly flags: Int32Array;

  constructor(readonly buffer: SharedArrayBuffer) {
    this.figures = new Float64Array(buffer, 0, 2);
    this.flags = new Int32Array(buffer, 16, 2);
  }

  static create(): SharedFigures {
    const shared = new SharedFigures(new SharedArrayBuffer(24));
    shared.figures[0] = Infinity;
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
