/** A linear model, column by column: what a general solver takes. */
export type LinearModel = {
  readonly columns: number;
  readonly rows: number;
  /** By column. The first `choices` columns are 0 or 1, the others any amount up to `most`. */
  readonly choices: number;
  readonly cost: Float64Array;
  readonly most: Float64Array;
  /** By row: its sum lies between these, both included. */
  readonly rowLeast: Float64Array;
  readonly rowMost: Float64Array;
  /** Entries of the columns one after another; column c has those from `starts[c]` up to before `starts[c + 1]`. */
  readonly starts: Int32Array;
  readonly rowOf: Int32Array;
  readonly values: Float64Array;
};

/** Puts a model together: rows in any order, columns one at a time, choices before amounts. */
export class ModelBuilder {
  private readonly least: number[] = [];
  private readonly most: number[] = [];
  private readonly costs: number[] = [];
  private readonly uppers: number[] = [];
  private readonly starts: number[] = [0];
  private readonly rowOf: number[] = [];
  private readonly values: number[] = [];
  private choices = 0;

  /** A new row, to be named by the number it gets. */
  row(least: number, most: number): number {
    this.least.push(least);
    return this.most.push(most) - 1;
  }

  entry(row: number, value = 1): void {
    this.rowOf.push(row);
    this.values.push(value);
  }

  /** Closes a column whose entries have been made, as one that is taken or not. */
  endChoice(cost: number): void {
    this.choices++;
    this.endAmount(cost, 1);
  }

  endAmount(cost: number, upper: number): void {
    this.costs.push(cost);
    this.uppers.push(upper);
    this.starts.push(this.rowOf.length);
  }

  build(): LinearModel {
    return {
      columns: this.costs.length,
      rows: this.least.length,
      choices: this.choices,
      cost: Float64Array.from(this.costs),
      most: Float64Array.from(this.uppers),
      rowLeast: Float64Array.from(this.least),
      rowMost: Float64Array.from(this.most),
      starts: Int32Array.from(this.starts),
      rowOf: Int32Array.from(this.rowOf),
      values: Float64Array.from(this.values),
    };
  }
}
