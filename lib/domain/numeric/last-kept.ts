/** The values that were kept or asked for last, `most` of them; whoever was not asked for the longest goes first. */
export class LastKept<Key, Value> {
  readonly #kept = new Map<Key, Value>();
  constructor(private readonly most: number) {}

  get(key: Key): Value | undefined {
    const value = this.#kept.get(key);
    if (value !== undefined) this.keep(key, value);
    return value;
  }

  keep(key: Key, value: Value): Value {
    this.#kept.delete(key);
    this.#kept.set(key, value);
    const oldest = this.#kept.keys().next();
    if (this.#kept.size > this.most && oldest.done !== true) this.#kept.delete(oldest.value);
    return value;
  }
}
