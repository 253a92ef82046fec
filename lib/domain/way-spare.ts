import type { Evidence, WorkstationEvidence } from "@/lib/domain/evidence";
import type { Subject } from "@/lib/domain/items";
import { JudgeContext } from "@/lib/domain/judge-context";
import { indexOf } from "@/lib/domain/judge-index";
import { NOTHING_ON_RECORD } from "@/lib/domain/nothing-on-record";
import { isAboutRoom, lookedAtWell } from "@/lib/domain/way-simulated";
import { instantOf, type Timestamp } from "@/lib/units/time";

/**
 * The room with a checked spare of the same model and make-up in it, its arrival looked at well. What is wrong with the room itself
 * stays wrong. Null where nothing stands there now: of an unknown spare nothing can be promised.
 */
export function swappedIn(evidence: Evidence): Evidence | null {
  const { workstation, procedure } = evidence;
  if (workstation === null || procedure === null) return null;
  const spare = spareLike(workstation, evidence.now);
  const owes = procedure.owes.map((one) => ({ ...one, subject: ofSpare(one.subject) }));
  const swapped: Evidence = {
    ...evidence,
    workstation: spare,
    procedure: { ...procedure, owes },
    trends: [],
    events: evidence.events.filter(({ subject }) => subject.kind === "room" || subject.kind === "pipeline"),
    checks: evidence.checks.map((check) => ({ ...check, workstation: check.workstation ?? workstation.id })),
  };
  const context = new JudgeContext(indexOf(swapped), instantOf(swapped.now));
  const arrival = owes.filter(
    (one) => !isAboutRoom(one) && context.standing(one.item, one.subject).state !== "failing",
  );
  return lookedAtWell(swapped, arrival, "daily");
}

const MOVED: readonly Subject["kind"][] = ["workstation", "cylinder", "vaporizer", "absorbent", "oxygen-sensor"];

const ofSpare = (subject: Subject): Subject =>
  MOVED.includes(subject.kind) ? { kind: subject.kind, id: `${subject.id}:spare` } : subject;

function spareLike(workstation: WorkstationEvidence, from: Timestamp): WorkstationEvidence {
  const moved = <Part extends { readonly id: string; readonly from: string }>(part: Part): Part => ({
    ...part,
    id: `${part.id}:spare`,
    from,
  });
  const { cylinders, vaporizers, absorbent, oxygenSensor } = workstation.fitted;
  return {
    id: `${workstation.id}:spare`,
    tag: "spare",
    model: workstation.model,
    fitted: {
      cylinders: cylinders.map(moved).map((one) => ({ ...one, expiry: null, retestDue: null })),
      vaporizers: vaporizers.map(moved).map((one) => ({ ...one, calibration: null })),
      absorbent: absorbent.map(moved).map((one) => ({ ...one, dateKnown: true })),
      oxygenSensor: oxygenSensor && moved(oxygenSensor),
    },
    ...NOTHING_ON_RECORD,
  };
}
