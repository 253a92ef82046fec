import type { Evidence, FittedCylinder, FittedVaporizer, WorkstationEvidence } from "@/lib/domain/evidence";
import type { ItemId, Subject } from "@/lib/domain/items";
import { JudgeContext } from "@/lib/domain/judge-context";
import { indexOf } from "@/lib/domain/judge-index";
import { RECHECK } from "@/lib/domain/recheck";
import { RULES } from "@/lib/domain/rules/all";
import type { EventKind, PortableMonitor, Role } from "@/lib/domain/vocabulary";
import type { Action, ItemAbout } from "@/lib/domain/way-action";
import { lookedAtWell, momentOn, withPartReplaced } from "@/lib/domain/way-simulated";
import { swappedIn } from "@/lib/domain/way-spare";
import { quantity } from "@/lib/units/quantity";
import { DAY, instantOf, later, timestampOf } from "@/lib/units/time";

/**
 * The evidence after an action that ended well, one moment on. Null for what no simulation can promise: a repair by biomedical
 * engineering, a service, an assessment.
 */
export function applied(action: Action, before: Evidence): Evidence | null {
  const evidence = momentOn(before);
  switch (action.kind) {
    case "check":
      return lookedAtWell(
        evidence,
        askedAndNotFailing(evidence),
        action.about === "first-user" ? "first-user" : "daily",
      );
    case "recheck":
      return lookedAtWell(evidence, notFailing(action.items, evidence), "recheck");
    case "put-right":
      return lookedAtWell(evidence, action.items, "recheck");
    case "bring-portable":
      return withRoom(evidence, (room) => ({ portable: [...(room.portable ?? []), action.about as PortableMonitor] }));
    case "isolate-nitrous-oxide":
      return aboutWorkstation(evidence, "nitrous-oxide-isolated");
    case "prepare-vapor-free":
      return aboutWorkstation(
        withFitted(evidence, () => ({ vaporizers: [] })),
        "vapor-free",
      );
    case "allow":
      return allowed(action, evidence);
    case "lift-hold":
      return withWorkstation(evidence, ({ holds }) => ({ holds: holds.filter(({ id }) => id !== action.about) }));
    case "look-at-fault":
      return withWorkstation(evidence, ({ faults }) => ({
        faults: faults.map((one) => (one.id === action.about ? { ...one, lookedAt: true } : one)),
      }));
    case "swap-workstation":
      return swappedIn(evidence);
    default:
      return withPart(action, evidence);
  }
}

function withPart(action: Action, evidence: Evidence): Evidence | null {
  switch (action.kind) {
    case "swap-cylinder":
      return fitted(evidence, action.subject, "cylinder-swapped");
    case "fit-cylinder":
      return withNewCylinder(evidence, action.about ?? "1");
    case "change-absorbent":
      return fitted(evidence, action.subject, "absorbent-changed");
    case "replace-sensor":
      return fitted(evidence, action.subject, "sensor-replaced");
    case "fit-vaporizer":
      return action.subject === null
        ? withNewVaporizer(evidence)
        : fitted(evidence, action.subject, "vaporizer-fitted");
    default:
      return null;
  }
}

const contextOf = (evidence: Evidence): JudgeContext => new JudgeContext(indexOf(evidence), instantOf(evidence.now));

/** A look never makes good what fails; only putting it right does. */
function notFailing(items: readonly ItemAbout[], evidence: Evidence): ItemAbout[] {
  const context = contextOf(evidence);
  return items.filter(({ item, subject }) => context.standing(item, subject).state !== "failing");
}

/** A whole check asks everything, also about a part that was fitted since the last one and owes nothing until the next. */
const askedAndNotFailing = (evidence: Evidence): ItemAbout[] => notFailing(evidence.procedure?.owes ?? [], evidence);

function withWorkstation(
  evidence: Evidence,
  change: (workstation: WorkstationEvidence) => Partial<WorkstationEvidence>,
): Evidence {
  const { workstation } = evidence;
  return workstation === null ? evidence : { ...evidence, workstation: { ...workstation, ...change(workstation) } };
}

const withFitted = (
  evidence: Evidence,
  change: (parts: WorkstationEvidence["fitted"]) => Partial<WorkstationEvidence["fitted"]>,
): Evidence => withWorkstation(evidence, ({ fitted: parts }) => ({ fitted: { ...parts, ...change(parts) } }));

function withRoom(
  evidence: Evidence,
  change: (room: NonNullable<Evidence["room"]>) => Partial<NonNullable<Evidence["room"]>>,
): Evidence | null {
  return evidence.room === null ? null : { ...evidence, room: { ...evidence.room, ...change(evidence.room) } };
}

function aboutWorkstation(evidence: Evidence, item: ItemId): Evidence | null {
  const { workstation } = evidence;
  if (workstation === null) return null;
  return lookedAtWell(evidence, [{ item, subject: { kind: "workstation", id: workstation.id } }], "recheck");
}

function allowed({ about, mayDo, together }: Action, evidence: Evidence): Evidence | null {
  const rule = RULES.find(({ id }) => id === about);
  if (rule === undefined) return null;
  const roles: readonly Role[] = together ? mayDo : mayDo.slice(0, 1);
  const until = timestampOf(later(instantOf(evidence.now), DAY));
  const by = roles.map((role) => ({ person: `simulated:${role}`, role }));
  return withWorkstation(evidence, (workstation) => ({
    allowed: [...workstation.allowed, { rule: rule.id, by, measures: rule.use?.first ?? "", until }],
  }));
}

/** The same place with a new good part in it, and what its event makes due answered well. */
function fitted(evidence: Evidence, old: Subject | null, event: EventKind): Evidence | null {
  if (old === null) return null;
  const made: Subject = { kind: old.kind, id: `${old.id}:new` };
  const replace = <Part extends { readonly id: string; readonly from: string }>(part: Part): Part =>
    part.id === old.id ? { ...part, id: made.id, from: evidence.now } : part;
  const changed = withFitted(evidence, (parts) => ({
    cylinders: parts.cylinders.map(replace).map(undated(made.id)),
    vaporizers: parts.vaporizers.map(replace).map(uncalibrated(made.id)),
    absorbent: parts.absorbent.map(replace).map((one) => (one.id === made.id ? { ...one, dateKnown: true } : one)),
    oxygenSensor: parts.oxygenSensor && replace(parts.oxygenSensor),
  }));
  return afterFitting(withPartReplaced(changed, old, made), made, event);
}

const undated =
  (id: string) =>
  (one: FittedCylinder): FittedCylinder =>
    one.id === id ? { ...one, expiry: null, retestDue: null } : one;
const uncalibrated =
  (id: string) =>
  (one: FittedVaporizer): FittedVaporizer =>
    one.id === id ? { ...one, calibration: null } : one;

function afterFitting(evidence: Evidence, part: Subject, kind: EventKind): Evidence {
  const later1 = momentOn(evidence);
  const rows = RECHECK[kind];
  const items = (rows === "everything" ? [] : rows).flatMap(({ item, of }): ItemAbout[] =>
    of === "same" ? [{ item, subject: part }] : owedOf(item, later1),
  );
  return lookedAtWell(later1, notFailing(items, later1), "recheck");
}

const owedOf = (item: ItemId, evidence: Evidence): ItemAbout[] =>
  contextOf(evidence)
    .owed()
    .filter((owed) => owed.item === item)
    .map(({ subject }) => ({ item, subject }));

function withNewCylinder(evidence: Evidence, position: string): Evidence {
  const us = evidence.facility.scheme === "US";
  const id = `cylinder:${position}:new`;
  const made: FittedCylinder = {
    id,
    serial: id,
    position,
    gas: "oxygen",
    scheme: evidence.facility.scheme,
    size: "E",
    waterCapacityL: us ? 4.8 : 4.68,
    ratedContentsL: us ? 660 : 680,
    ratedPressure: us ? quantity(1900, "psi") : quantity(137, "bar"),
    from: evidence.now,
    expiry: null,
    retestDue: null,
  };
  const changed = withFitted(evidence, ({ cylinders }) => ({ cylinders: [...cylinders, made] }));
  return afterFitting(changed, { kind: "cylinder", id }, "cylinder-swapped");
}

function withNewVaporizer(evidence: Evidence): Evidence | null {
  const mount = evidence.workstation?.model.mounts[0];
  if (mount === undefined) return null;
  const id = `vaporizer:${mount}:new`;
  const made: FittedVaporizer = {
    id,
    tag: id,
    mount,
    agent: "sevoflurane",
    filler: "keyed",
    from: evidence.now,
    calibration: null,
  };
  const changed = withFitted(evidence, ({ vaporizers }) => ({ vaporizers: [...vaporizers, made] }));
  return afterFitting(changed, { kind: "vaporizer", id }, "vaporizer-fitted");
}
