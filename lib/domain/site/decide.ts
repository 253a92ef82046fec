import { keyOf } from "@/lib/domain/department-merge";
import { done, refused } from "@/lib/domain/outcome";
import type { SiteAsked } from "@/lib/domain/site/model";

export interface SiteKnown {
  readonly now: Omit<SiteAsked, "words">;
  /** Names of the organisation's other facilities. */
  readonly otherNames: readonly string[];
  /** Checks that were begun here, ever. */
  readonly checks: number;
  readonly cylinders: number;
}

/**
 * The facility's own name, clock, scheme, unit and words. Its zone and scheme stay once checks were recorded: which day a check belongs
 * to, and by which limits it was answered, would become another one behind everybody's back.
 */
export function decideSite(known: SiteKnown, asked: SiteAsked) {
  const { now, checks } = known;
  const namesake = known.otherNames.find((name) => keyOf(name) === keyOf(asked.name));
  if (namesake) return refused("taken", `There is a facility named ${namesake} already. Choose another name.`, "name");
  const recorded = `${checks} ${checks === 1 ? "check is" : "checks are"} recorded here`;
  if (asked.timeZone !== now.timeZone && checks > 0)
    return refused(
      "not-allowed",
      `${recorded}, each on its day in ${now.timeZone}. The zone of a facility with a record stays ${now.timeZone}; found another facility for another zone.`,
      "timeZone",
    );
  if (asked.scheme !== now.scheme && checks > 0)
    return refused(
      "not-allowed",
      `${recorded} by the ${now.scheme} scheme. The scheme of a facility with a record stays ${now.scheme}; change single rules instead.`,
      "scheme",
    );
  if (asked.scheme !== now.scheme && known.cylinders > 0)
    return refused(
      "not-allowed",
      `${known.cylinders} cylinders are recorded with their colours and sizes. Set the scheme before the equipment.`,
      "scheme",
    );
  return done({ schemeChanged: asked.scheme !== now.scheme });
}
