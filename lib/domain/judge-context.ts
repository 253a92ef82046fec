import { checkDayAt } from "@/lib/domain/check-day";
import type { Check, Evidence, EvidenceEvent } from "@/lib/domain/evidence";
import { type ItemId, type Subject, sameSubject } from "@/lib/domain/items";
import type { Entry, EvidenceIndex } from "@/lib/domain/judge-index";
import { marksAt } from "@/lib/domain/judge-marks";
import type { PerformedCheck, ReadCheck } from "@/lib/domain/judge-signatures";
import { NOT_ASKED, standingOf, validCheck } from "@/lib/domain/judge-standing";
import type { Judgement, Owed } from "@/lib/domain/judgement";
import type { RuleContext, Standing, Stands } from "@/lib/domain/rule";
import type { Instant } from "@/lib/units/time";

const NONE: readonly Stands[] = [];

/** The questions rules ask of one room's evidence at one moment, each answered once. */
export class JudgeContext implements RuleContext {
  readonly evidence: Evidence;
  /** The moments remembered through changesAt, and those at which a passing answer or a check runs out. */
  readonly moments: Instant[] = [];
  readonly #valid: PerformedCheck | null;
  readonly #byItem = new Map<ItemId, Stands[]>();
  readonly #failing: Stands[] = [];
  readonly #owed: Owed[] = [];
  readonly #marks: Judgement["marks"];

  constructor(
    private readonly index: EvidenceIndex,
    readonly now: Instant,
  ) {
    this.evidence = index.evidence;
    this.#valid = validCheck(index, now);
    this.#marks = marksAt(index, this.#valid);
    for (const { validUntil } of index.performed) this.changesAt(validUntil);
    for (const entry of index.entries) this.#stand(entry);
  }

  #stand(entry: Entry): void {
    if (entry.passValidUntil !== null) this.changesAt(entry.passValidUntil);
    const standing = standingOf(entry, this.index, this.now, this.#valid);
    if (standing.state === "not-asked") return;
    const { item, subject } = entry;
    const stands = { item, subject, standing, named: entry.owner !== null };
    const ofItem = this.#byItem.get(item);
    if (ofItem === undefined) this.#byItem.set(item, [stands]);
    else ofItem.push(stands);
    if (standing.state === "failing") this.#failing.push(stands);
    if (standing.state === "owed") {
      this.#owed.push({ item, subject, because: standing.because, event: standing.event?.id ?? null });
    }
  }

  isCaseRunning(): boolean {
    return this.index.running !== null;
  }

  of(item: ItemId): readonly Stands[] {
    return this.#byItem.get(item) ?? NONE;
  }

  standing(item: ItemId, subject: Subject): Standing {
    for (const stands of this.of(item)) if (sameSubject(stands.subject, subject)) return stands.standing;
    return NOT_ASKED;
  }

  failing(): readonly Stands[] {
    return this.#failing;
  }

  owed(): readonly Owed[] {
    return this.#owed;
  }

  fullCheck(): ReturnType<RuleContext["fullCheck"]> {
    const { performed } = this.index;
    return { valid: this.#valid?.check ?? null, last: performed[0]?.check ?? null, begun: this.#begunCheck() };
  }

  /** A full check of this check day that was begun and not yet signed. */
  #begunCheck(): Check | null {
    const { from: since, to: turns } = checkDayAt(this.index.clock, this.now);
    let newest: ReadCheck | null = null;
    for (const one of this.index.checks) {
      if (!one.full || one.signatures.length > 0 || one.startedAt < since) continue;
      if (newest === null || one.startedAt > newest.startedAt) newest = one;
    }
    if (newest !== null) this.changesAt(turns);
    return newest?.check ?? null;
  }

  firstUserCheckDone(): boolean {
    return this.index.firstUserOwedSince === null;
  }

  marks(): Judgement["marks"] {
    return this.#marks;
  }

  event(id: string): EvidenceEvent | null {
    return this.index.events.find(({ event }) => event.id === id)?.event ?? null;
  }

  validUntil(seen: Instant): Instant {
    return checkDayAt(this.index.clock, seen).validUntil;
  }

  changesAt(at: Instant): void {
    if (at > this.now && !this.moments.includes(at)) this.moments.push(at);
  }
}

/** One room's evidence at a moment, for whoever wants to show how each item stands. */
export const contextAt = (index: EvidenceIndex, now: Instant): RuleContext => new JudgeContext(index, now);
