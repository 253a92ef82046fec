/** Times of many runs, in milliseconds. */
export class Samples {
  readonly #values: number[] = [];

  add(milliseconds: number): void {
    this.#values.push(milliseconds);
  }

  /** Runs it and keeps how long it took. */
  async time<Value>(work: () => Promise<Value>): Promise<Value> {
    const started = performance.now();
    const value = await work();
    this.add(performance.now() - started);
    return value;
  }

  get count(): number {
    return this.#values.length;
  }

  /** The value that `share` of the samples do not exceed. */
  quantile(share: number): number {
    const sorted = [...this.#values].sort((left, right) => left - right);
    const found = sorted[Math.max(0, Math.ceil(share * sorted.length) - 1)];
    if (found === undefined) throw new Error("nothing was measured");
    return found;
  }

  get p50(): number {
    return this.quantile(0.5);
  }

  get p95(): number {
    return this.quantile(0.95);
  }
}

export function median(values: readonly number[]): number {
  const samples = new Samples();
  for (const value of values) samples.add(value);
  return samples.p50;
}
