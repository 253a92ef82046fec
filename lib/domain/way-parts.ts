import type { Finding } from "@/lib/domain/judgement";
import { needsOf } from "@/lib/domain/needs";
import { PERMISSIONS } from "@/lib/domain/permission";
import { hypoxicGuard } from "@/lib/domain/rules/gas-mixing/hypoxic-guard";
import { lostVaporizers } from "@/lib/domain/rules/lost-vaporizers";
import { valuesOf } from "@/lib/domain/rules/settings";
import type { Action } from "@/lib/domain/way-action";
import {
  action,
  CHECKERS,
  FITTERS,
  generic,
  type Maker,
  minutesOf,
  ofAction,
  ofMorning,
  putRight,
  type Scene,
} from "@/lib/domain/way-makers";
import { itemlessName, itemsInWords, lowerFirst } from "@/lib/domain/wording";

/** What is done about parts of the workstation and about its gases. */

const swapCylinder = (subject: Finding["subject"], scene: Scene): Action => {
  const name = lowerFirst(itemlessName(subject, scene.context.evidence.workstation));
  const minutes = minutesOf(ofMorning(scene).cylinder);
  return action("swap-cylinder", `Swap ${name}, read it and test its yoke`, minutes, PERMISSIONS["swap-cylinder"], {
    subject,
  });
};

export const reserve: Maker = (reason, scene) => {
  const { workstation } = scene.context.evidence;
  if (reason.subject.kind === "cylinder") return [swapCylinder(reason.subject, scene), ...yokeOf(reason, scene)];
  const yokes = workstation?.model.yokes.filter(({ gas }) => gas === "oxygen") ?? [];
  const text = "Fit an oxygen cylinder, read it and test its yoke";
  const minutes = minutesOf(ofMorning(scene).cylinder);
  return yokes
    .slice(0, 1)
    .map(({ position }) => action("fit-cylinder", text, minutes, PERMISSIONS["swap-cylinder"], { about: position }));
};

/** A cylinder that has enough and does not count because its yoke leaks. */
function yokeOf({ subject }: Finding, scene: Scene): readonly Action[] {
  const leaks = scene.context.standing("yoke-leak", subject).state === "failing";
  return leaks ? [putRight([{ item: "yoke-leak", subject }], scene)] : [];
}

export const ofCylinder: Maker = (reason, scene) =>
  reason.subject.kind === "cylinder" ? [swapCylinder(reason.subject, scene)] : generic(reason, scene);

export const yokeLeaks: Maker = (reason, scene) => [...generic(reason, scene), swapCylinder(reason.subject, scene)];

export const changeAbsorbent: Maker = ({ subject }, scene) => [
  action("change-absorbent", "Change the absorbent and test for leaks", minutesOf(ofAction(scene).fitPart), FITTERS, {
    subject,
  }),
];

export const sensor: Maker = (reason, scene) => {
  const { fitPart, bringPortable } = ofAction(scene);
  const { subject } = reason;
  const replace = action("replace-sensor", "Replace the oxygen sensor and calibrate it", minutesOf(fitPart), FITTERS, {
    subject,
  });
  const portable = action(
    "bring-portable",
    "Bring a free-standing oxygen analyzer",
    minutesOf(bringPortable),
    CHECKERS,
    {
      about: "oxygen-analyzer",
    },
  );
  return reason.severity === "due" ? [replace] : [...generic(reason, scene), replace, portable];
};

export const monitor: Maker = (reason, scene) => {
  const [item] = reason.items;
  if (item === undefined || reason.severity === "due") return generic(reason, scene);
  const text = `Bring a portable one: ${itemsInWords([{ item, subject: reason.subject }], null)}`;
  const minutes = minutesOf(ofAction(scene).bringPortable);
  return [...generic(reason, scene), action("bring-portable", text, minutes, CHECKERS, { about: item })];
};

const fitVaporizer = (subject: Finding["subject"] | null, scene: Scene): Action =>
  action(
    "fit-vaporizer",
    subject
      ? `Fit another one for ${lowerFirst(itemlessName(subject, scene.context.evidence.workstation))}`
      : "Fit a vaporizer",
    minutesOf(ofAction(scene).fitPart),
    FITTERS,
    { subject },
  );

export const vaporizer: Maker = (reason, scene) => [...generic(reason, scene), fitVaporizer(reason.subject, scene)];

/** One usable vaporizer is enough to lift this limit. */
export const anyVaporizer: Maker = (_reason, scene) => {
  const lost = lostVaporizers(scene.context);
  const actions = lost.flatMap(({ subject, items }) => [
    ...(items.length > 0
      ? [
          putRight(
            items.map((item) => ({ item, subject })),
            scene,
          ),
        ]
      : []),
    fitVaporizer(subject, scene),
  ]);
  return lost.length === 0 ? [fitVaporizer(null, scene)] : actions;
};

export const guard: Maker = (reason, scene) => {
  const { evidence } = scene.context;
  const may = valuesOf(hypoxicGuard, evidence).mayIsolate && reason.severity === "stops";
  const wanted = needsOf(evidence.room?.list ?? null).includes("nitrous-oxide");
  if (!may || wanted) return generic(reason, scene);
  const minutes = minutesOf(ofAction(scene).isolate);
  return [
    ...generic(reason, scene),
    action("isolate-nitrous-oxide", "Isolate nitrous oxide and sign it", minutes, CHECKERS),
  ];
};

export const vaporFree: Maker = (_reason, scene) => {
  const model = scene.context.evidence.workstation?.model.vaporFreeMinutes ?? minutesOf(ofAction(scene).vaporFree);
  return [action("prepare-vapor-free", "Take the vaporizers off and flush it vapor-free", model, FITTERS)];
};
