import { FOR_WORDS } from "@/lib/domain/allowance";
import type { Finding, Owed } from "@/lib/domain/judgement";
import { PERMISSIONS } from "@/lib/domain/permission";
import { RULES } from "@/lib/domain/rules/all";
import { ROLES } from "@/lib/domain/vocabulary";
import type { Action } from "@/lib/domain/way-action";
import {
  action,
  CHECKERS,
  ENGINEER,
  FITTERS,
  generic,
  type Maker,
  minutesOf,
  ofAction,
  ofMorning,
  type Scene,
} from "@/lib/domain/way-makers";
import {
  anyVaporizer,
  changeAbsorbent,
  guard,
  monitor,
  ofCylinder,
  reserve,
  sensor,
  vaporFree,
  vaporizer,
  yokeLeaks,
} from "@/lib/domain/way-parts";
import { itemsInWords } from "@/lib/domain/wording";

/** What clears one reason: any one of these. */
export interface Clearing {
  readonly reason: Finding;
  readonly anyOf: readonly Action[];
}

/** For each reason of a judgement the actions that clear it, the shortest first. */
export function whatClears(scene: Scene): Clearing[] {
  return scene.judgement.reasons.map((reason) => ({ reason, anyOf: clears(reason, scene) }));
}

export function clears(reason: Finding, scene: Scene): readonly Action[] {
  const make = OF_RULE[reason.rule] ?? generic;
  const actions = [...make(reason, scene), ...allowing(reason)];
  return actions.sort((left, right) => left.minutes - right.minutes);
}

function allowing(reason: Finding): readonly Action[] {
  const rule = RULES.find(({ id }) => id === reason.rule);
  if (rule === undefined || reason.severity !== "limits" || reason.allowedUntil !== null || rule.allowedBy.length === 0)
    return [];
  const longest = FOR_WORDS[rule.use?.longest ?? "this-list"];
  const text = `Allow use with this limit, for at most ${longest}: ${rule.use?.first ?? "no measure"} ${rule.use?.differently ?? ""}`;
  return [action("allow", text.trim(), 1, rule.allowedBy, { together: rule.allowedTogether ?? false, about: rule.id })];
}

function recheck(owed: readonly Owed[], scene: Scene): readonly Action[] {
  if (owed.length === 0) return [];
  const items = owed.map(({ item, subject }) => ({ item, subject }));
  const minutes = items.length * minutesOf(ofMorning(scene).recheckItem);
  const words = itemsInWords(items, scene.context.evidence.workstation);
  return [action("recheck", `Look at and sign: ${words}`, minutes, CHECKERS, { items })];
}

const wholeCheck = (scene: Scene, kind: "daily" | "first-user"): Action =>
  action(
    "check",
    kind === "daily" ? "Do and sign the whole daily check" : "Do and sign the first-user check",
    minutesOf(ofMorning(scene).fullCheck),
    PERMISSIONS["start-check"],
    { about: kind },
  );

const unchecked: Maker = (_reason, scene) => {
  const { context, judgement } = scene;
  const { procedure } = context.evidence;
  if (procedure === null || procedure.owes.length === 0) {
    const text = "Put a daily check in force";
    return [action("put-procedure-in-force", text, minutesOf(ofAction(scene).procedure), ["manager", "administrator"])];
  }
  if (context.fullCheck().valid === null) return [wholeCheck(scene, "daily")];
  return recheck(
    judgement.owed.filter(({ because }) => because !== "recheck" && because !== "read-shut"),
    scene,
  );
};

const heldBy: Maker = (reason, scene) => {
  const hold = scene.context.evidence.workstation?.holds.find(({ reason: why }) => reason.text === `Held: ${why}`);
  const minutes = minutesOf(ofAction(scene).liftHold);
  return [
    action("lift-hold", "Look at it and lift the hold, with a reason", minutes, PERMISSIONS["lift-hold"], {
      about: hold?.id ?? null,
    }),
  ];
};

const fault: Maker = (reason, scene) => {
  const found = scene.context.evidence.workstation?.faults.find(
    ({ lookedAt, text }) => !lookedAt && reason.text.endsWith(`: ${text}`),
  );
  const minutes = minutesOf(ofAction(scene).lookAtFault);
  return [
    action("look-at-fault", "Look at what was reported and conclude", minutes, FITTERS, { about: found?.id ?? null }),
  ];
};

const withdrawn: Maker = (reason, scene) => {
  const { release, fitPart } = ofAction(scene);
  const { subject } = reason;
  const released = action("release", "Release it from quarantine or service", minutesOf(release), ENGINEER, {
    subject,
  });
  if (subject.kind === "absorbent") return [...changeAbsorbent(reason, scene), released];
  if (subject.kind !== "oxygen-sensor") return [released];
  return [
    action("replace-sensor", "Replace the oxygen sensor and calibrate it", minutesOf(fitPart), FITTERS, { subject }),
    ...sensor(reason, scene),
    released,
  ];
};

const service: Maker = (reason, scene) => [
  action("do-service", "Do the service", minutesOf(ofAction(scene).service), ENGINEER, { about: reason.text }),
];

const recall: Maker = (reason, scene) => [
  action("assess-recall", "Assess the recall", minutesOf(ofAction(scene).assessRecall), ENGINEER, {
    about: reason.text,
  }),
];

/** What draws near its limit is put right before it gets there: another cylinder, another sensor, or whatever made it move. */
const trend: Maker = (reason, scene) => {
  if (reason.subject.kind === "cylinder") return ofCylinder(reason, scene);
  if (reason.subject.kind === "oxygen-sensor") {
    const replace = minutesOf(ofAction(scene).fitPart);
    const text = "Replace the oxygen sensor and calibrate it";
    return [action("replace-sensor", text, replace, FITTERS, { subject: reason.subject })];
  }
  return generic(reason, scene);
};

const confirm: Maker = (_reason, scene) => [
  action("confirm", "Add the provider's check", minutesOf(ofMorning(scene).confirm), PERMISSIONS["confirm-check"]),
];

const NOTHING: Maker = () => [];

const OF_RULE: Readonly<Record<string, Maker>> = {
  "no-workstation": NOTHING,
  withdrawn,
  held: heldBy,
  "trend-crossing": trend,
  "reserve-oxygen-low": reserve,
  "reserve-oxygen-second": ofCylinder,
  "empty-cylinder": ofCylinder,
  "nitrous-oxide-gas-phase": ofCylinder,
  "cylinder-expiry": ofCylinder,
  "cylinder-retest": NOTHING,
  "yoke-leak": yokeLeaks,
  "hypoxic-guard": guard,
  "oxygen-in-air": sensor,
  "oxygen-after-flush": sensor,
  "low-oxygen-alarm": sensor,
  "oxygen-drift": sensor,
  monitors: monitor,
  "agent-monitor": monitor,
  "absorbent-colour": changeAbsorbent,
  "absorbent-co2": changeAbsorbent,
  "absorbent-dry": changeAbsorbent,
  "absorbent-date": changeAbsorbent,
  "vaporizer-lost": vaporizer,
  "no-usable-vaporizer": anyVaporizer,
  "vapor-free-preparation": vaporFree,
  "fault-reported": fault,
  "recall-open": recall,
  "repeated-failures": service,
  "service-late": service,
  "first-user-check": (_reason, scene) => [wholeCheck(scene, "first-user")],
  "not-checked": unchecked,
  "recheck-owed": (_reason, scene) =>
    recheck(
      scene.judgement.owed.filter(({ because }) => because === "recheck" || because === "read-shut"),
      scene,
    ),
  "provider-mark-owed": confirm,
  countersign: confirm,
  "provider-change": NOTHING,
  "failed-then-passed": NOTHING,
  "supplies-under-par": (_reason, scene) => [
    action("restock", "Restock the room", minutesOf(ofAction(scene).restock), ["technician", "supplies"]),
  ],
};

/** Last resort for everything that is wrong with the machine itself. */
export const swapWorkstation = (scene: Scene): Action =>
  action(
    "swap-workstation",
    "Swap the workstation for a checked spare",
    minutesOf(ofMorning(scene).swap),
    ROLES.filter((role) => role === "technician" || role === "charge-provider" || role === "biomedical-engineer"),
  );
