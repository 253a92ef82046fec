import type { RuleSetting, SettingValue } from "@/lib/domain/evidence";

/** What somebody wants of a rule: values of its own, or everything as shipped. */
export type SettingAsked =
  | "shipped"
  | {
      readonly on: boolean;
      /** Only the values that differ from the shipped ones. */
      readonly values: Readonly<Record<string, SettingValue>>;
      /** Where the site's own policy says so; empty leaves the shipped citation. */
      readonly citation: string;
    };

/** A setting before it has a version: it gets the one it comes into force with. */
export type SettingDraft = Omit<RuleSetting, "version">;

export interface RuleChange {
  readonly id: string;
  readonly rule: string;
  /** Null goes back to the shipped default. */
  readonly setting: SettingDraft | null;
  /** What stood when it was proposed. */
  readonly was: RuleSetting | null;
  readonly reason: string;
  readonly proposedBy: string;
  readonly proposedByName: string;
  readonly decision: "approved" | "declined" | "withdrawn" | null;
}
