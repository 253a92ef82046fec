import type { Evidence } from "@/lib/domain/evidence";
import { evidenceDocument } from "@/lib/schemas/evidence";
import { answerProblems } from "./answer-checks";
import { identityProblems } from "./identity-checks";
import { numberProblems } from "./number-checks";
import { type DocumentProblem, pathOf } from "./problem";
import { schemaProblems } from "./schema-problems";
import { isRule, RULE_IDS, settingsProblems, vanishingNames } from "./settings-checks";
import { timeProblems } from "./time-checks";

export type ReadEvidence =
  | { readonly ok: true; readonly evidence: Evidence }
  | { readonly ok: false; readonly problems: readonly DocumentProblem[] };

/** More than anybody reads; a document of another kind is wrong in every line. */
const MOST_TOLD = 100;

/**
 * An evidence document from outside. What the shape allows and the judge could not mean is refused too: a limit that no rule
 * reads, a reading in a unit that does not measure the thing, two things under one name, a look that has not happened yet.
 */
export function readEvidence(document: unknown): ReadEvidence {
  const parsed = evidenceDocument.safeParse(document);
  if (!parsed.success) return refused(schemaProblems(evidenceDocument, document, parsed.error.issues));
  const evidence: Evidence = parsed.data;
  const problems = [
    ...zoneProblems(evidence),
    ...vanishingNames(document),
    ...settingsProblems(evidence),
    ...numberProblems(evidence),
    ...identityProblems(evidence),
    ...timeProblems(evidence),
    ...answerProblems(evidence),
    ...allowanceProblems(evidence),
  ];
  return problems.length === 0 ? { ok: true, evidence } : refused(problems);
}

function refused(problems: readonly DocumentProblem[]): ReadEvidence {
  const rest = problems.length - MOST_TOLD;
  if (rest <= 0) return { ok: false, problems };
  const more = { path: "", value: null, message: `${rest} more problems are not listed` };
  return { ok: false, problems: [...problems.slice(0, MOST_TOLD), more] };
}

/** Asking the zone data costs more than everything else here. */
const knownZones = new Set<string>();

function zoneProblems({ facility: { timeZone } }: Evidence): DocumentProblem[] {
  if (knownZones.has(timeZone)) return [];
  try {
    new Intl.DateTimeFormat("en", { timeZone });
    knownZones.add(timeZone);
    return [];
  } catch {
    const message = `“${timeZone}” is not a time zone; must be one of the IANA database, such as America/Chicago`;
    return [{ path: pathOf(["facility", "timeZone"]), value: timeZone, message }];
  }
}

function allowanceProblems({ workstation }: Evidence): DocumentProblem[] {
  return (workstation?.allowed ?? []).flatMap(({ rule }, place) =>
    isRule(rule)
      ? []
      : [
          {
            path: pathOf(["workstation", "allowed", place, "rule"]),
            value: rule,
            message: `unknown rule; known: ${RULE_IDS.join(", ")}`,
          },
        ],
  );
}
