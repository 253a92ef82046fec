import { checkDayAt } from "@/lib/domain/check-day";
import type { Check, Evidence, EvidenceEvent } from "@/lib/domain/evidence";
import { type ItemId, type Subject, sameSubject } from "@/lib/domain/items";
import type { Entry, EvidenceIndex } from "@/lib/domain/judge-index";
import { marksAt } from "@/lib/domain/judge-marks";
import type { PerformedCheck, ReadCheck } from "@/lib/domain/judge-signatures";
import { NOT_ASKED, standingOf, validCheck } from "@/lib/domain/judge-standing";
import type { Judgement, Owed } from "@/lib/domain/judgement";
import type { Rule, RuleContext, Standing, Stands } from "@/lib/domain/rule";
import type { PortableMonitor } from "@/lib/domain/vocabulary";
import type { Instant } from "@/lib/units/time";

const NONE: readonly Stands[] = [];

export const NOBODY = -1;

/** A moment at which the clock alone may change something, and the place of the rule that says so. */
export interface Moment {
  readonly at: Instant;
  readonly by: number;
}

/** The questions rules ask of one room's evidence at one moment, each answered once. */
export class JudgeContext implements RuleContext {
  readonly evidence: Evidence;
  /** The moments remembered through changesAt, with the rule that did, and those at which a passing answer or a check runs out. */
  readonly moments: Moment[] = [];
  /** The place of the rule that is asked now; nobody while the standings are made. */
  asking = NOBODY;
  private readonly validCheck: PerformedCheck | null;
  /** In the order of the index's entries. */
  private readonly stands: Stands[] = [];
  private readonly byItem = new Map<ItemId, readonly Stands[]>();
  private readonly nowFailing: Stands[] = [];
  private readonly nowCleared: Stands[] = [];
  private readonly nowOwed: Owed[] = [];
  private readonly bothMarks: Judgement["marks"];

  constructor(
    private readonly index: EvidenceIndex,
    readonly now: Instant,
  ) {
    this.evidence = index.evidence;
    this.validCheck = validCheck(index, now);
    this.bothMarks = marksAt(index, this.validCheck);
    for (const { validUntil } of index.performed) this.changesAt(validUntil);
    for (const entry of index.entries) this.stand(entry);
  }

  private stand(entry: Entry): void {
    if (entry.passValidUntil !== null) this.changesAt(entry.passValidUntil);
    const standing = standingOf(entry, this.index, this.now, this.validCheck);
    if (entry.told?.stands.standing !== standing) entry.told = tell(entry, standing);
    const { stands, owed } = entry.told;
    this.stands.push(stands);
    if (standing.state === "failing") this.nowFailing.push(stands);
    if (stands.cleared !== null) this.nowCleared.push(stands);
    if (owed !== null) this.nowOwed.push(owed);
  }

  isCaseRunning(): boolean {
    return this.index.running !== null;
  }

  of(item: ItemId): readonly Stands[] {
    const known = this.byItem.get(item);
    if (known !== undefined) return known;
    const places = this.index.places.get(item);
    if (places === undefined) return NONE;
    const found: Stands[] = [];
    for (const place of places) {
      const stands = this.stands[place];
      if (stands !== undefined && stands.standing.state !== "not-asked") found.push(stands);
    }
    this.byItem.set(item, found);
    return found;
  }

  standing(item: ItemId, subject: Subject): Standing {
    for (const stands of this.of(item)) if (sameSubject(stands.subject, subject)) return stands.standing;
    return NOT_ASKED;
  }

  failing(): readonly Stands[] {
    return this.nowFailing;
  }

  /** Does anything fail that this rule judges? */
  fails(rule: Rule): boolean {
    for (const { owner } of this.nowFailing) if (owner === rule) return true;
    return false;
  }

  cleared(): readonly Stands[] {
    return this.nowCleared;
  }

  owed(): readonly Owed[] {
    return this.nowOwed;
  }

  fullCheck(): ReturnType<RuleContext["fullCheck"]> {
    const { performed } = this.index;
    return { valid: this.validCheck?.check ?? null, last: performed[0]?.check ?? null, begun: this.begunCheck() };
  }

  /** A full check of this check day that was begun and not yet signed. */
  private begunCheck(): Check | null {
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
    return this.bothMarks;
  }

  event(id: string): EvidenceEvent | null {
    return this.index.events.find(({ event }) => event.id === id)?.event ?? null;
  }

  portable(monitor: PortableMonitor): boolean {
    return this.evidence.room?.portable?.includes(monitor) ?? false;
  }

  hasCome(at: Instant): boolean {
    const { running } = this.index;
    if (running !== null) return at <= running.since;
    this.changesAt(at);
    return at <= this.now;
  }

  checkDay(at: Instant): ReturnType<RuleContext["checkDay"]> {
    return checkDayAt(this.index.clock, at);
  }

  validUntil(seen: Instant): Instant {
    return checkDayAt(this.index.clock, seen).validUntil;
  }

  changesAt(at: Instant): void {
    if (at <= this.now) return;
    for (const moment of this.moments) if (moment.at === at && moment.by === this.asking) return;
    this.moments.push({ at, by: this.asking });
  }

  /** Is everything that was seen and checked worth the same in another context of this evidence? */
  standsAs(other: JudgeContext): boolean {
    if (this.validCheck !== other.validCheck || this.stands.length !== other.stands.length) return false;
    for (let place = 0; place < this.stands.length; place += 1) {
      if (this.stands[place] !== other.stands[place]) return false;
    }
    return true;
  }
}

/** One room's evidence at a moment, for whoever wants to show how each item stands. */
export const contextAt = (index: EvidenceIndex, now: Instant): RuleContext => new JudgeContext(index, now);

function tell({ item, subject, owner, decided }: Entry, standing: Standing): NonNullable<Entry["told"]> {
  const cleared = standing.state === "passing" ? (decided.cleared?.observation ?? null) : null;
  const owed =
    standing.state === "owed" ? { item, subject, because: standing.because, event: standing.event?.id ?? null } : null;
  return { stands: { item, subject, standing, owner, cleared }, owed };
}
