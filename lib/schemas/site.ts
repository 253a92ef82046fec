import { z } from "zod";
import { id, pressureUnit, scheme, words } from "@/lib/schemas/common";
import { timeZone } from "@/lib/schemas/set-up";
import { siteWords } from "@/lib/schemas/site-words";

export const setSiteRequest = z.strictObject({ name: words(120), timeZone, scheme, pressureUnit, words: siteWords });
export const setSiteReply = z.strictObject({ facilityId: id });

export const siteView = z.strictObject({
  name: z.string(),
  timeZone: z.string(),
  scheme,
  pressureUnit,
  words: siteWords,
  /** With checks on record the zone and the scheme stay what they are. */
  checks: z.int(),
});
export type SiteView = z.infer<typeof siteView>;
