/** So many plans are looked at before the price changes, by so much; half of them are to stand. */
const PLANS = 50;
const BY = 1.1;

/**
 * The price of a load or unload beyond what its day allows. Where days are full, a plan changes only
 * when several kilns change at once; going through plans that are a little over, the search finds
 * those. The price rises while most of its plans are over, and falls while most of them stand.
 */
export class OpToll {
  private plans = 0;
  private standing = 0;

  /** Infinity, which stays, where no plan may be over at any time. */
  constructor(public perOp = Infinity) {}

  of(over: number): number {
    return over === 0 ? 0 : this.perOp * over;
  }

  /** Counts one more plan and how much it is over; true when that changed the price. */
  isChangedBy(over: number): boolean {
    if (this.perOp === Infinity) return false;
    if (over === 0) this.standing++;
    if (++this.plans < PLANS) return false;
    this.perOp = this.standing < PLANS / 2 ? this.perOp * BY : this.perOp / BY;
    this.plans = 0;
    this.standing = 0;
    return true;
  }
}
