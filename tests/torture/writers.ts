import { setTimeout as pause } from "node:timers/promises";
import { startCheck } from "@/lib/commands/start-check";
import { readCheck } from "@/lib/queries/check";
import { type BenchDepartment, CLOCK } from "@/tests/bench/department";
import { PASSWORD, TECHNICIAN } from "@/tests/bench/department-files";
import { type Answer, ask } from "@/tests/support/http";
import { signInByHttp } from "@/tests/support/sign-in";

interface Bag {
  readonly checkId: string;
  readonly item: string;
  readonly subject: unknown;
}

const AGAIN_AFTER_MS = 40;

/**
 * Careful clients, each at a check of its own: a request is sent again with the same key until somebody answers it. What was
 * acknowledged is kept, to be looked for afterwards.
 */
export class Writers {
  readonly acknowledged: string[] = [];
  readonly refused: string[] = [];
  unanswered = 0;
  #stopped = false;
  #sent = 0;
  #work: Promise<void>[] = [];

  private constructor(
    private readonly cookie: string,
    private readonly bags: readonly Bag[],
    private readonly prefix: string,
  ) {}

  static async at(department: BenchDepartment, url: string, count: number, prefix: string): Promise<Writers> {
    const { database, technician } = department;
    const bags: Bag[] = [];
    for (const room of department.rooms.slice(0, count)) {
      const workstationId = room.workstation?.id ?? "";
      const { reply } = await department.must(startCheck, { workstationId, kind: "daily" }, technician);
      const check = await readCheck(technician, reply.checkId, { database, now: CLOCK.now });
      const bag = check?.items.find(({ item }) => item === "self-inflating-bag");
      if (!bag) throw new Error("the check asks for no bag");
      bags.push({ checkId: reply.checkId, item: bag.item, subject: bag.subject });
    }
    return new Writers(await signInByHttp(url, TECHNICIAN, PASSWORD), bags, prefix);
  }

  begin(urlOf: (place: number) => string): void {
    this.#work = this.bags.map((bag, place) => this.#write(bag, () => urlOf(place)));
  }

  async stop(): Promise<void> {
    this.#stopped = true;
    await Promise.all(this.#work);
  }

  /** Until that many more were acknowledged. */
  async untilMore(count: number): Promise<void> {
    const wanted = this.acknowledged.length + count;
    while (this.acknowledged.length < wanted && this.refused.length === 0) await pause(5);
  }

  async #write({ checkId, item, subject }: Bag, url: () => string): Promise<void> {
    while (!this.#stopped) {
      this.#sent += 1;
      const note = `${this.prefix}-${this.#sent}`;
      const input = { checkId, answers: [{ item, subject, answer: { kind: "pass", passed: true, note } }] };
      const { status, body } = await this.#untilAnswered(url, JSON.stringify(input), note);
      if (status === 200) this.acknowledged.push(note);
      else this.refused.push(`${note}: ${status} ${body.slice(0, 200)}`);
    }
  }

  async #untilAnswered(url: () => string, text: string, key: string): Promise<Answer> {
    const headers = {
      Cookie: this.cookie,
      "Content-Type": "application/json",
      "Content-Length": Buffer.byteLength(text),
      "Idempotency-Key": `key-of-${key}`,
    };
    for (;;) {
      const answer = await ask(`${url()}/api/v1/commands/record-answers`, {
        method: "POST",
        headers,
        body: text,
      }).catch(() => null);
      if (answer !== null && answer.status < 500 && answer.status !== 429) return answer;
      this.unanswered += 1;
      await pause(AGAIN_AFTER_MS);
    }
  }
}
