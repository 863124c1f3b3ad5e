import type { OneKiln } from "@/lib/domain/settling/hours/one-kiln";

/** Beyond this distance two asks are not exchanged in one step; keeps long orders affordable. */
const REACH = 120;

/**
 * Dynasearch: finds, by a dynamic programme, the best set of moves on an order that do not overlap,
 * and makes them all at once. Moves exchange two asks, or take one out and put it in elsewhere.
 * R. K. Congram, C. N. Potts & S. L. van de Velde, INFORMS J. Computing 14 (2002); the moves that put
 * in elsewhere after A. Grosso, F. Della Croce & R. Tadei, Operations Research Letters 32 (2004).
 */
export class Dynasearch {
  private readonly ends: Float64Array;
  private readonly costBefore: Float64Array;
  private readonly gainUpTo: Float64Array;
  private readonly moveFrom: Int32Array;
  private readonly moveKind: Uint8Array;
  private readonly shiftedForward: Float64Array;

  constructor(private readonly one: OneKiln) {
    const { count } = one;
    this.ends = new Float64Array(count);
    this.costBefore = new Float64Array(count + 1);
    this.gainUpTo = new Float64Array(count + 1);
    this.moveFrom = new Int32Array(count + 1);
    this.moveKind = new Uint8Array(count + 1);
    this.shiftedForward = new Float64Array(count);
  }

  /** Improves an order in place until no set of moves does; gives its cost. */
  descend(order: Int32Array): number {
    for (;;) {
      const cost = this.measure(order);
      const gain = this.bestMoves(order);
      if (!(gain > 1e-7)) return cost;
      this.make(order);
    }
  }

  private measure(order: Int32Array): number {
    const { count, hours, due, weight } = this.one;
    let end = 0;
    let cost = 0;
    for (let i = 0; i < count; i++) {
      const ask = order[i]!;
      end += hours[ask]!;
      this.ends[i] = end;
      if (end > due[ask]!) cost += weight[ask]! * (end - due[ask]!);
      this.costBefore[i + 1] = cost;
    }
    return cost;
  }

  /** Fills `gainUpTo[k]`, the most that moves among the first k positions can save. */
  private bestMoves(order: Int32Array): number {
    const { count, hours, due, weight } = this.one;
    const { ends, costBefore, gainUpTo, moveFrom, moveKind, shiftedForward } = this;
    for (let k = 0; k < count; k++) {
      const late = order[k]!;
      const lateHours = hours[late]!;
      const lateDue = due[late]!;
      const lateWeight = weight[late]!;
      const lateEnd = ends[k]!;
      let best = gainUpTo[k]!;
      let from = -1;
      let kind = 0;
      let pushedBack = 0;
      shiftedForward[k] = 0;
      for (let i = k - 1; i >= 0 && k - i <= REACH; i--) {
        const early = order[i]!;
        const earlyHours = hours[early]!;
        const earlyWeight = weight[early]!;
        const room = gainUpTo[i]! - best;
        const start = ends[i]! - earlyHours;
        const now = costBefore[k + 1]! - costBefore[i]!;
        const earlyAtEnd = lateEnd > due[early]! ? earlyWeight * (lateEnd - due[early]!) : 0;
        const lateAtStart = start + lateHours > lateDue ? lateWeight * (start + lateHours - lateDue) : 0;

        const lateForward = lateEnd - earlyHours;
        const ahead = shiftedForward[i]! + (lateForward > lateDue ? lateWeight * (lateForward - lateDue) : 0);
        shiftedForward[i] = ahead;
        if (room + now - ahead - earlyAtEnd > 1e-9) {
          best = gainUpTo[i]! + now - ahead - earlyAtEnd;
          from = i;
          kind = 1;
        }

        const earlyPushed = ends[i]! + lateHours;
        pushedBack += earlyPushed > due[early]! ? earlyWeight * (earlyPushed - due[early]!) : 0;
        const gainBack = now - pushedBack - lateAtStart;
        if (gainUpTo[i]! + gainBack - best > 1e-9) {
          best = gainUpTo[i]! + gainBack;
          from = i;
          kind = 2;
        }

        if (k - i < 2) continue;
        // What is between moves by the difference; it can save at most its whole cost.
        const shift = lateHours - earlyHours;
        const between = costBefore[k]! - costBefore[i + 1]!;
        const most = now - earlyAtEnd - lateAtStart - (shift >= 0 ? between : 0);
        if (gainUpTo[i]! + most - best <= 1e-9) continue;
        const enough = gainUpTo[i]! + now - earlyAtEnd - lateAtStart - best - 1e-9;
        let shifted = 0;
        for (let m = i + 1; m < k && shifted < enough; m++) {
          const ask = order[m]!;
          const end = ends[m]! + shift;
          if (end > due[ask]!) shifted += weight[ask]! * (end - due[ask]!);
        }
        if (shifted < enough) {
          best = gainUpTo[i]! + now - earlyAtEnd - lateAtStart - shifted;
          from = i;
          kind = 3;
        }
      }
      gainUpTo[k + 1] = best;
      moveFrom[k + 1] = from;
      moveKind[k + 1] = kind;
    }
    return gainUpTo[count]!;
  }

  private make(order: Int32Array): void {
    let k = this.one.count;
    while (k > 0) {
      const from = this.moveFrom[k]!;
      if (from < 0) {
        k--;
        continue;
      }
      const to = k - 1;
      const early = order[from]!;
      const late = order[to]!;
      const kind = this.moveKind[k]!;
      if (kind === 1) {
        order.copyWithin(from, from + 1, to + 1);
        order[to] = early;
      } else if (kind === 2) {
        order.copyWithin(from + 1, from, to);
        order[from] = late;
      } else {
        order[from] = late;
        order[to] = early;
      }
      k = from;
    }
  }
}
