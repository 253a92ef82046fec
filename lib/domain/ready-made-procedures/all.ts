import type { Procedure } from "@/lib/domain/procedure/model";
import { DAILY_ISO_AS_FOUND, DAILY_US_AS_FOUND } from "@/lib/domain/ready-made-procedures/daily-as-found";
import { DAILY_FDA_1993, EACH_CASE_FDA_1993 } from "@/lib/domain/ready-made-procedures/daily-fda-1993";
import { DAILY_ISO } from "@/lib/domain/ready-made-procedures/daily-iso";
import { DAILY_US } from "@/lib/domain/ready-made-procedures/daily-us";
import { EACH_CASE, EACH_CASE_ISO } from "@/lib/domain/ready-made-procedures/each-case";
import { CLOSE_OUT, PROVIDER_CHANGE } from "@/lib/domain/ready-made-procedures/other-kinds";
import { SESSION_UK } from "@/lib/domain/ready-made-procedures/session-uk";
import type { Scheme } from "@/lib/domain/vocabulary";

const BY_SCHEME: Readonly<Record<Scheme, readonly Procedure[]>> = {
  US: [DAILY_US, EACH_CASE, CLOSE_OUT, PROVIDER_CHANGE],
  ISO: [DAILY_ISO, EACH_CASE_ISO, CLOSE_OUT, PROVIDER_CHANGE],
};

/** The procedures a new facility starts with; from then on they are its own, versioned. */
export const readyMadeProcedures = (scheme: Scheme): readonly Procedure[] => BY_SCHEME[scheme];

/** Every ready-made procedure: a draft of a kind may begin from any of that kind. */
export const LIBRARY: readonly Procedure[] = [
  DAILY_US,
  DAILY_US_AS_FOUND,
  DAILY_FDA_1993,
  DAILY_ISO,
  DAILY_ISO_AS_FOUND,
  SESSION_UK,
  EACH_CASE,
  EACH_CASE_FDA_1993,
  EACH_CASE_ISO,
  CLOSE_OUT,
  PROVIDER_CHANGE,
];

export const readyMade = (id: string): Procedure | undefined => LIBRARY.find((procedure) => procedure.id === id);
