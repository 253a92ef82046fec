import type { Procedure } from "@/lib/domain/procedure/model";
import { DAILY_ISO } from "@/lib/domain/ready-made-procedures/daily-iso";
import { DAILY_US } from "@/lib/domain/ready-made-procedures/daily-us";
import { EACH_CASE } from "@/lib/domain/ready-made-procedures/each-case";
import type { Scheme } from "@/lib/domain/vocabulary";

const BY_SCHEME: Readonly<Record<Scheme, readonly Procedure[]>> = {
  US: [DAILY_US, EACH_CASE],
  ISO: [DAILY_ISO, EACH_CASE],
};

/** The procedures a new facility starts with; from then on they are its own, versioned. */
export const readyMadeProcedures = (scheme: Scheme): readonly Procedure[] => BY_SCHEME[scheme];
