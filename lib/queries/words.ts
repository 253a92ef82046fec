import { type Actor, scopeOf } from "@/lib/auth/actor";
import { type SiteWords, wordsOf } from "@/lib/domain/site/model";
import { appReading, type Reading } from "@/lib/queries/read";
import type { Scope } from "@/lib/storage/client";
import { chosenWords } from "@/lib/storage/site";

/** The words that hold in the actor's facility. */
export const readWords = (actor: Actor, reading: Pick<Reading, "database"> = appReading()): Promise<SiteWords> =>
  readWordsOf(scopeOf(actor), actor.facility.scheme, reading);

/** The same for whoever is no person, such as a wall. */
export const readWordsOf = (
  scope: Scope,
  scheme: Actor["facility"]["scheme"],
  reading: Pick<Reading, "database"> = appReading(),
): Promise<SiteWords> =>
  reading.database.inScope(scope, async (tx) => wordsOf(scheme, await chosenWords(tx, scope.facilityId)));
