/** What has been heard of and not yet read: some rooms, or everything. */
export class Pending {
  #everything = false;
  readonly #rooms = new Set<string>();
  readonly #holders = new Set<string>();

  static all(): Pending {
    const pending = new Pending();
    pending.#everything = true;
    return pending;
  }

  get everything(): boolean {
    return this.#everything;
  }

  get rooms(): string[] {
    return [...this.#rooms];
  }

  /** Rooms and spare workstations that screens other than the board may be showing. */
  get holders(): string[] {
    return [...this.#holders];
  }

  addAll(): void {
    this.#everything = true;
  }

  add(holders: readonly { kind: "room" | "workstation"; id: string }[]): void {
    for (const { kind, id } of holders) {
      this.#holders.add(id);
      if (kind === "room") this.#rooms.add(id);
    }
  }

  /** Takes back what a failed attempt had begun on. */
  merge(other: Pending): void {
    this.#everything ||= other.#everything;
    for (const id of other.#rooms) this.#rooms.add(id);
    for (const id of other.#holders) this.#holders.add(id);
  }
}
