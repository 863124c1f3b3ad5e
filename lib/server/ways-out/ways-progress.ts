import type { Aim } from "@/lib/domain/settling/clash/weights";

/** How far each way is: the cost of its best plan so far, and a cost no plan can go below. */
export type WayReached = { readonly aim: Aim; readonly cost: number; readonly bound: number };

export type WaysReached = {
  readonly seconds: number;
  /** 1 at first; more when the hours refused a place and all is settled again. */
  readonly round: number;
  readonly stage: "settling" | "placing";
  readonly ways: readonly WayReached[];
};

const LOOK_MS = 600;

/** What a page says while ways out are worked out. */
export class WaysProgress {
  private readonly startedAt = performance.now();
  private readonly ways = new Map<Aim, WayReached>();
  private round = 0;
  private stage: WaysReached["stage"] = "settling";
  private isOver = false;
  private wake: () => void = () => undefined;

  settling(): void {
    this.round++;
    this.stage = "settling";
    this.ways.clear();
  }

  readonly reached = (way: WayReached): void => void this.ways.set(way.aim, way);

  placing(): void {
    this.stage = "placing";
  }

  end(): void {
    this.isOver = true;
    this.wake();
  }

  /** How far it is a moment later; null when it is over. */
  async later(): Promise<WaysReached | null> {
    if (!this.isOver) {
      await new Promise<void>((resolve) => {
        const timer = setTimeout(resolve, LOOK_MS);
        this.wake = () => {
          clearTimeout(timer);
          resolve();
        };
      });
    }
    if (this.isOver) return null;
    return { seconds: (performance.now() - this.startedAt) / 1000, round: this.round, stage: this.stage, ways: [...this.ways.values()] };
  }
}
