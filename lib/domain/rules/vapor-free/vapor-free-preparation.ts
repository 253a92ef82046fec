import type { Answer } from "@/lib/domain/answer";
import type { Evidence, ModelEvidence } from "@/lib/domain/evidence";
import type { FindingDraft, Rule, RuleContext } from "@/lib/domain/rule";
import { answered, chosen, good, reading, withRoom, withWorkstation } from "@/lib/domain/rules/examples";
import { workstationSubject } from "@/lib/domain/rules/failing";
import { said } from "@/lib/domain/wording";
import { instantOf, timeIn } from "@/lib/units/time";

const FILTERS = "filters";

/**
 * For a patient at risk of malignant hyperthermia. A prepared state: flushed for the time the model needs, or with filters for the
 * model's shorter time, and no vaporizer on its mount. It ends when one is mounted, and with its check day.
 */
export const vaporFreePreparation: Rule = {
  id: "vapor-free-preparation",
  inBrief: "not vapor-free",
  what: "A list that needs a vapor-free workstation gets one that was prepared so",
  severity: "limits",
  citation: "common practice, no source; the flush time is the model's own, by its maker",
  items: ["vapor-free"],
  settings: {},
  allowedBy: [],
  assess: (answer, { place }) => preparation(answer, place.workstation?.model ?? null),
  judge: (context) => {
    const needed = context.evidence.room?.list?.needs.includes("vapor-free") ?? false;
    const standing = context.standing("vapor-free", workstationSubject(context));
    if (!needed) return standing.state === "failing" ? [tooShort(standing.observation.answer, context, "note")] : [];
    const mounted = context.evidence.workstation?.fitted.vaporizers.length ?? 0;
    if (standing.state === "failing") return [tooShort(standing.observation.answer, context, "limits")];
    if (standing.state === "passing" && mounted === 0) return [prepared(standing.observation.observedAt, context)];
    const why = mounted > 0 ? "a vaporizer is mounted" : "not prepared";
    return context.evidence.workstation === null ? [] : [unprepared(`Not vapor-free: ${why}`, context)];
  },
  examples: [
    { name: "not needed", given: (ready) => ready, expect: "holds" },
    { name: "needed, not prepared", given: (ready) => needed(bare(ready)), expect: "limits" },
    { name: "flushed 60 of 60 min", given: (ready) => flushed(ready, 60), expect: "note" },
    { name: "flushed 59 of 60 min", given: (ready) => flushed(ready, 59), expect: "limits" },
    {
      name: "with filters, on a model that takes them",
      given: (ready) => answered(needed(bare(ready, 10)), "vapor-free", chosen(FILTERS)),
      expect: "note",
    },
    {
      name: "with filters, on a model that takes none",
      given: (ready) => answered(needed(bare(ready)), "vapor-free", chosen(FILTERS)),
      expect: "limits",
    },
    {
      name: "prepared, and a vaporizer mounted",
      given: (ready) => answered(needed(ready), "vapor-free", good),
      expect: "limits",
    },
  ],
};

function preparation(answer: Answer, model: ModelEvidence | null) {
  if (answer.kind === "pass") return answer.passed ? "pass" : "fail";
  if (answer.kind === "choice" && answer.choice === FILTERS)
    return (model?.vaporFreeFilterMinutes ?? null) === null ? "fail" : "pass";
  const minutes = model?.vaporFreeMinutes ?? null;
  if (answer.kind !== "number" || answer.reading.unit !== "min" || minutes === null) return "uncounted";
  return answer.reading.value < minutes ? "fail" : "pass";
}

function tooShort(answer: Answer, context: RuleContext, severity: "limits" | "note"): FindingDraft {
  const minutes = context.evidence.workstation?.model.vaporFreeMinutes ?? null;
  const text =
    answer.kind === "number"
      ? `Not vapor-free: flushed ${said(answer.reading)} (at least ${minutes} min)`
      : "Not vapor-free: preparation failed";
  const measured = answer.kind === "number" ? answer.reading : null;
  return { ...unprepared(text, context), severity, measured };
}

const unprepared = (text: string, context: RuleContext): FindingDraft => ({
  subject: workstationSubject(context),
  text,
  takesAway: ["not-vapor-free"],
});

function prepared(at: string, context: RuleContext): FindingDraft {
  const text = `Prepared vapor-free at ${timeIn(context.evidence.facility.timeZone, instantOf(at))}`;
  return { subject: workstationSubject(context), severity: "note", text, measured: at };
}

const needed = (ready: Evidence): Evidence =>
  withRoom(ready, { list: ready.room?.list ? { ...ready.room.list, needs: ["vapor-free"] } : null });

/** The vaporizers off, and so no longer asked about. */
const bare = (ready: Evidence, vaporFreeFilterMinutes: number | null = null): Evidence =>
  withWorkstation(ready, ({ fitted, model }) => ({
    model: { ...model, vaporFreeFilterMinutes },
    fitted: { ...fitted, vaporizers: [] },
  }));

const flushed = (ready: Evidence, minutes: number): Evidence =>
  answered(needed(bare(ready)), "vapor-free", reading(minutes, "min"));
