import type { Answer } from "@/lib/domain/answer";
import type { Check, Evidence, EvidenceEvent, Observation, SettingValue } from "@/lib/domain/evidence";
import type { ItemId, Subject } from "@/lib/domain/items";
import type { Finding, Mark, Owed, Severity } from "@/lib/domain/judgement";
import type { AllowedFor, PortableMonitor, Role, Scheme } from "@/lib/domain/vocabulary";
import type { Quantity } from "@/lib/units/quantity";
import type { Instant, LocalDate, Timestamp } from "@/lib/units/time";

/** One limit of a rule: its shipped default and where the number comes from. No rule carries a number outside of these. */
export interface Setting<Value extends SettingValue = SettingValue> {
  readonly default: Value;
  readonly citation: string;
  /** The only words it may be, where it is a word. */
  readonly words?: readonly string[];
  /** A different default for the ISO scheme, where the two worlds measure differently. */
  readonly iso?: { readonly default: Value; readonly citation: string };
}

export type Settings = Readonly<Record<string, Setting>>;

type Widened<Value> = Value extends Quantity
  ? Quantity
  : Value extends number
    ? number
    : Value extends boolean
      ? boolean
      : Value extends string
        ? string
        : Value;
export type SettingValues<S extends Settings> = { readonly [Name in keyof S]: Widened<S[Name]["default"]> };

/** A set of site settings that is not about a finding: when a check day turns, how long a swap takes. */
export interface Policy<S extends Settings = Settings> {
  readonly id: string;
  readonly what: string;
  readonly settings: S;
}

/** Where an answer is given: what a limit may depend on, and nothing of what was found. */
export type Place = Pick<Evidence, "facility" | "settings" | "room" | "workstation"> &
  Partial<Pick<Evidence, "procedure">>;

/** What settings are found by: the site's own, and over them those of the procedure and of the model where these are known. */
export type SettingsPlace = Pick<Place, "facility" | "settings"> & Partial<Pick<Place, "workstation" | "procedure">>;

export interface About {
  readonly item: ItemId;
  readonly subject: Subject;
  readonly place: Place;
}

/**
 * What one answer is worth by a rule's limit.
 * remark: good enough to start, with something to say · uncounted: proves nothing either way, as a gauge read with the valve shut.
 */
export type Assessment = "pass" | "fail" | "remark" | "uncounted";

/** The limit shown beside an item while it is answered. */
export interface ShownLimit {
  readonly atLeast?: Quantity;
  readonly atMost?: Quantity;
  /** Strictly over: 90 does not satisfy it, 90.1 does. */
  readonly over?: Quantity;
}

/** The latest evidence about one item and subject, as far as it counts now. */
export type Standing =
  | { readonly state: "failing"; readonly observation: Observation }
  | { readonly state: "passing"; readonly observation: Observation }
  | { readonly state: "owed"; readonly because: Owed["because"]; readonly event: EvidenceEvent | null }
  /** Nobody has to answer it here, and nothing that was answered fails. */
  | { readonly state: "not-asked" };

/** How one item stands about one subject. */
export interface Stands {
  readonly item: ItemId;
  readonly subject: Subject;
  readonly standing: Standing;
  /** The rule of its own that judges it; null leaves it to the generic rule. */
  readonly owner: Rule | null;
  /** The last failing answer that a later good one cleared; null when none did. */
  readonly cleared: Observation | null;
}

/** What the judge hands to every rule: the evidence, and the questions rules ask of it. */
export interface RuleContext {
  readonly evidence: Evidence;
  readonly now: Instant;
  /** Every subject of this item that is asked here or about which an answer stands. */
  of(item: ItemId): readonly Stands[];
  /** Everything that failed and still stands. */
  failing(): readonly Stands[];
  /** Everything that passes now after it failed. */
  cleared(): readonly Stands[];
  /**
   * The standing of an item: a failing answer counts at once and stands; a passing one counts when it is signed,
   * while its check is valid, and as long as no later event has unsettled it.
   */
  standing(item: ItemId, subject: Subject): Standing;
  /** Everything that must be answered before the workstation can be ready. */
  owed(): readonly Owed[];
  /** The full check that counts now, and the one before it when none does. */
  fullCheck(): { readonly valid: Check | null; readonly last: Check | null; readonly begun: Check | null };
  /** Has the first user's check been recorded since it became owed? */
  firstUserCheckDone(): boolean;
  marks(): { readonly equipment: Mark | null; readonly provider: Mark | null };
  event(id: string): EvidenceEvent | null;
  /** A monitor that stands in the room beside the workstation's own. */
  portable(monitor: PortableMonitor): boolean;
  /**
   * Has this moment come, for what the clock alone turns? Under a running case only what had turned before the case began has:
   * nothing flips a room in use. The moment is remembered as one at which the answer may change.
   */
  hasCome(at: Instant): boolean;
  /** The check day that an instant belongs to. */
  checkDay(at: Instant): { readonly date: LocalDate; readonly from: Instant; readonly to: Instant };
  /** The end of the validity of something seen at that moment, ignoring a running case. */
  validUntil(seen: Instant): Instant;
  /** Remembers a moment at which the clock alone may change what this rule concludes. */
  changesAt(at: Instant): void;
}

export type FindingDraft = Pick<Finding, "subject" | "text"> &
  Partial<Pick<Finding, "severity" | "measured" | "limit" | "items" | "takesAway" | "supplyFailure" | "citation">> & {
    /** When the thing was seen: an allowance that ended before it was about something else. */
    readonly since?: Timestamp;
  };

export interface RuleExample {
  readonly name: string;
  /** The scheme of the ready room handed to `given`; US when absent. */
  readonly scheme?: Scheme;
  /** Changes to a ready room's evidence that make this example. */
  readonly given: (ready: Evidence) => Evidence;
  /** The worst severity this rule concludes, "holds" for none. For "owed" the rule concludes nothing and one of its items is owed. */
  readonly expect: Severity | "holds";
}

/** What use with a limit asks of people meanwhile. */
export interface LimitedUse {
  /** What is done before the first case. */
  readonly first: string;
  /** What the provider does otherwise than usual. */
  readonly differently: string;
  /** The longest time it may be allowed for at once. */
  readonly longest: AllowedFor;
}

export interface Rule<S extends Settings = Settings> extends Policy<S> {
  /** What it is about in two or three words, for where everybody reads it: no subject, no number, nobody's own words. */
  readonly inBrief: string;
  /** The severity of a finding that does not say its own. */
  readonly severity: Severity;
  /** Where the rule comes from; a setting's own citation stands before it. */
  readonly citation: string;
  /** The items whose answers this rule judges; a failed item that no rule names stops by the generic rule. */
  readonly items: readonly ItemId[];
  /** For `limits`: who may allow use meanwhile: any one of these, or all of them together. */
  readonly allowedBy: readonly Role[];
  readonly allowedTogether?: boolean;
  /** For a limit that may be allowed: on what terms. */
  readonly use?: LimitedUse;
  /** It speaks only of its own items that fail, so that it need not be asked where none of them does. */
  readonly onlyOfFailing?: boolean;
  /** A site cannot switch it off: without it a state would stand there without its reason. */
  readonly always?: boolean;
  /** Narrows `items` to some subjects, as one gas. */
  covers?(subject: Subject, place: Place): boolean;
  /** What an answer is worth: the judge and the verdict at recording both ask here. Absent: a pass is a pass. */
  assess?(answer: Answer, about: About, values: SettingValues<S>): Assessment;
  /** The limit to show while answering. */
  shows?(about: About, values: SettingValues<S>): ShownLimit | null;
  /** False where a later good look proves nothing, as a dye that reverts at rest: then only another part clears it. */
  passClears?(subject: Subject, place: Place): boolean;
  judge(context: RuleContext, values: SettingValues<S>): readonly FindingDraft[];
  readonly examples: readonly RuleExample[];
}
