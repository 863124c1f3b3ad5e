import type { ClashGround } from "@/lib/domain/settling/clash/clash-ground";
import { inDays } from "@/lib/domain/settling/clash/season-slots";
import type { DayProblem } from "@/lib/domain/settling/days/day-problem";
import type { SettledPlan } from "@/lib/server/settling/settle-task";
import type { Reached } from "@/lib/server/replan/replan-row";

const BEAT_MS = 700;

/** Watches over a search: tells every beat how far it is, and passes on when it is to stop. */
export class SeasonWatch {
  isStopped = false;
  isGone = false;
  private reached: Reached = { state: "searching", runs: 0, moves: null, cost: null, bound: null };
  private stopSearch: (() => void) | undefined;
  private timer: NodeJS.Timeout | undefined;

  constructor(private readonly tell: (reached: Reached) => Promise<"go on" | "stop" | "gone">) {}

  /** Begins to tell; ends with `end()`. */
  begin(): void {
    const again = async (): Promise<void> => {
      await this.beat();
      if (this.timer !== undefined) this.timer = setTimeout(() => void again(), BEAT_MS);
    };
    this.timer = setTimeout(() => void again(), 0);
  }

  end(): void {
    clearTimeout(this.timer);
    this.timer = undefined;
  }

  /** A search has begun; `stop` ends it with the best so far. One that begins when it is to stop is short by itself. */
  searching({ runs }: ClashGround, stop: () => void): void {
    this.reached = { ...this.reached, state: "searching", runs: runs.length };
    this.stopSearch = stop;
    if (this.isGone) stop();
  }

  found(ground: ClashGround, problem: DayProblem, plan: SettledPlan, { cost, bound }: { readonly cost: number; readonly bound: number }): void {
    if (plan.kind !== "days" || plan.leftOut > 0) return;
    const index = new Map(ground.kilns.map(({ kilnId }, i) => [kilnId, i]));
    const moves = inDays(problem, plan.placements).filter(({ job, kiln, start }) => {
      const standing = ground.runs[job]?.standing ?? null;
      return standing === null || standing.day !== start || index.get(standing.kilnId) !== kiln;
    });
    this.reached = { ...this.reached, moves: moves.length, cost, bound };
  }

  /** A plan is about to be tried out; told at once. */
  async placing(): Promise<void> {
    this.reached = { ...this.reached, state: "placing" };
    await this.beat();
  }

  private async beat(): Promise<void> {
    const answer = await this.tell(this.reached).catch(() => "go on" as const);
    // Once: what is searched for afterwards, without what the hours refuse, is short by itself.
    if (answer === "stop" && !this.isStopped) this.stop();
    if (answer === "gone") this.giveUp();
  }

  stop(): void {
    this.isStopped = true;
    this.stopSearch?.();
  }

  giveUp(): void {
    this.isGone = true;
    this.stop();
  }
}
