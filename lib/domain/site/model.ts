import type { Scheme } from "@/lib/domain/vocabulary";
import type { PressureUnit } from "@/lib/units/pressure";

/** Where the trade has two words for one thing, a site writes one of them. */
export const SITE_WORDS = {
  anesthesia: ["anesthesia", "anaesthesia"],
  wasteGas: ["WAGD", "AGSS"],
  suite: ["suite", "core", "pod", "theatre suite"],
  room: ["operating room", "theatre"],
  check: ["machine check", "session check"],
} as const;
export type SiteWord = keyof typeof SITE_WORDS;
export type SiteWords = { readonly [Word in SiteWord]: (typeof SITE_WORDS)[Word][number] };

/** What a scheme says when a site has not chosen. Source: common practice, no source. */
export const SCHEME_WORDS: Readonly<Record<Scheme, SiteWords>> = {
  US: { anesthesia: "anesthesia", wasteGas: "WAGD", suite: "suite", room: "operating room", check: "machine check" },
  ISO: { anesthesia: "anaesthesia", wasteGas: "AGSS", suite: "theatre suite", room: "theatre", check: "session check" },
};

export interface SiteAsked {
  readonly name: string;
  readonly timeZone: string;
  readonly scheme: Scheme;
  readonly pressureUnit: PressureUnit;
  readonly words: SiteWords;
}

/** The words in force: the site's own, and the scheme's for what it did not choose. */
export const wordsOf = (scheme: Scheme, chosen: Partial<SiteWords>): SiteWords => ({
  ...SCHEME_WORDS[scheme],
  ...chosen,
});
