/** Lower is sooner: what somebody waits for while typing, a picture, what fills in by itself. */
export type Urgency = 0 | 1 | 2;

type Task = {
  readonly slot: string;
  readonly urgency: Urgency;
  /** Never rejects. */
  readonly start: () => Promise<void>;
};

/**
 * One thing at a time, the most urgent next. Each slot holds one question: a newer one takes the place of
 * an older that has not been begun, so that a fast typist is answered about the last keystroke, not about all.
 */
export class Desk {
  private tasks: Task[] = [];
  private busy = false;

  put(task: Task): void {
    this.drop(task.slot);
    this.tasks.push(task);
    void this.next();
  }

  drop(slot: string): void {
    this.tasks = this.tasks.filter((task) => task.slot !== slot);
  }

  private async next(): Promise<void> {
    if (this.busy) return;
    const first = this.tasks.reduce<Task | undefined>((best, task) => (best === undefined || task.urgency < best.urgency ? task : best), undefined);
    if (first === undefined) return;
    this.drop(first.slot);
    this.busy = true;
    await first.start();
    this.busy = false;
    void this.next();
  }
}
