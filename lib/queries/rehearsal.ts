import type { z } from "zod";
import type { Actor } from "@/lib/auth/actor";
import type { Procedure } from "@/lib/domain/procedure/model";
import { rehearse, resultOf } from "@/lib/domain/rehearsal/decide";
import { imaginedPlace } from "@/lib/domain/rehearsal-place";
import { PLANTED_FAULT_STUDIES } from "@/lib/domain/rehearsal-studies";
import type { Place } from "@/lib/domain/rule";
import { questionsView } from "@/lib/queries/questions";
import { inFacility, type Reading } from "@/lib/queries/read";
import type { RehearsalQuery, RehearsalResultView, RehearsalView, rehearsalAnswers } from "@/lib/schemas/rehearsal";
import type { Tx } from "@/lib/storage/client";
import type { Frame } from "@/lib/storage/facility-frame";
import { procedureInForce } from "@/lib/storage/procedures";
import type { Instant } from "@/lib/units/time";

/** The site's own daily check on a workstation that does not exist. Reads the procedure and the limits, and writes nothing anywhere. */
export function readRehearsal(actor: Actor, query: RehearsalQuery, reading?: Reading): Promise<RehearsalView | null> {
  return inFacility(
    actor,
    async (tx, frame, now) => {
      const stage = await stageOf(tx, frame, now);
      if (stage === null) return null;
      const { procedure, place } = stage;
      const { questions } = rehearse(query.seed, query.faults, procedure, place);
      const signs = new Map(questions.map((one) => [one.key, one.signs.map((sign) => ({ ...sign }))]));
      return {
        ...query,
        procedure: { name: procedure.name, version: procedure.version },
        questions: questionsView(questions.map(({ signs: _, ...question }) => question)).map((question) => ({
          ...question,
          signs: signs.get(question.key) ?? [],
        })),
      };
    },
    reading,
  );
}

/** What was found of what was planted. The answers are looked at and forgotten. */
export function scoreRehearsal(
  actor: Actor,
  { seed, faults, answers }: z.infer<typeof rehearsalAnswers>,
  reading?: Reading,
): Promise<RehearsalResultView> {
  return inFacility(
    actor,
    async (tx, frame, now) => {
      const stage = await stageOf(tx, frame, now);
      const nothing = { items: [] };
      const place = stage?.place ?? imaginedPlace(frame.facility, frame.settings);
      const result = resultOf({ seed, faults }, stage?.procedure ?? nothing, place, answers);
      return {
        found: result.found,
        planted: result.planted,
        faults: result.faults.map(({ key, title, wrong, harm, outcome, because }) => ({
          key,
          title,
          wrong,
          harm,
          outcome,
          because,
        })),
        falseAlarms: result.falseAlarms.map((one) => ({ ...one })),
        unseen: result.unseen.map((one) => ({ ...one })),
        unanswered: result.unanswered.map((one) => ({ ...one })),
        studies: PLANTED_FAULT_STUDIES.map((one) => ({ ...one })),
      };
    },
    reading,
  );
}

async function stageOf(
  tx: Tx,
  { scope, facility, settings }: Frame,
  now: Instant,
): Promise<{ procedure: Procedure; place: Place } | null> {
  const daily = await procedureInForce(tx, scope.facilityId, "daily", now);
  return daily && { procedure: daily.document, place: imaginedPlace(facility, settings) };
}
