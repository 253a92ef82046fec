import type { FitWork, Part, PartWork } from "@/app/_parts/fit/part-work";
import type { PathNode } from "@/app/rooms/[id]/gas-path-nodes";
import { SENSOR_POSITION } from "@/lib/domain/department-parts";
import type { RoomView } from "@/lib/schemas/room";

export interface OfferedWork {
  /** On its button, and over its form. */
  readonly label: string;
  readonly title: string;
  readonly work: PartWork;
}

/** What can be done at this place; nothing where nothing is fitted or taken off. */
export function worksAt({ id, position }: PathNode, { fitted }: RoomView): OfferedWork[] {
  if (!fitted) return [];
  if (position !== null && id.startsWith("yoke-")) {
    const on = fitted.cylinders.some((cylinder) => cylinder.position === position);
    const label = on ? "Swap this cylinder" : "Fit a cylinder";
    return [
      {
        label,
        title: `${on ? "Swap the" : "Fit a"} cylinder on yoke ${position}`,
        work: { kind: "cylinder", position },
      },
    ];
  }
  if (position !== null && id.startsWith("mount-")) return atMount(position, fitted);
  if (id === "absorbent") return atAbsorber(fitted);
  if (id === "oxygen-sensor") return atSensor(fitted);
  return [];
}

type Fitted = NonNullable<RoomView["fitted"]>;

function atMount(position: string, { vaporizers, mounts }: Fitted): OfferedWork[] {
  const here = vaporizers.find(({ mount }) => mount === position) ?? null;
  const fitting = (mount: string, takesOff: Part | null, goesOn: Part | null): FitWork => ({
    kind: "vaporizer",
    position: mount,
    takesOff,
    goesOn,
  });
  const on = `on mount ${position}`;
  if (here === null)
    return [{ label: "Fit a vaporizer", title: `Fit a vaporizer ${on}`, work: fitting(position, null, null) }];
  const empty = mounts.filter((mount) => vaporizers.every((one) => one.mount !== mount));
  return [
    { label: "Fit another vaporizer", title: `Fit another vaporizer ${on}`, work: fitting(position, here, null) },
    {
      label: "Take it off",
      title: `Take ${here.tag} off mount ${position}`,
      work: { kind: "remove", position, part: here },
    },
    ...empty.map((mount) => ({
      label: `Move it to mount ${mount}`,
      title: `Move ${here.tag} to mount ${mount}`,
      work: fitting(mount, null, here),
    })),
  ];
}

const named = (label: string): Pick<OfferedWork, "label" | "title"> => ({ label, title: label });

const FIRST_CANISTER = "1";

function atAbsorber({ absorbent }: Fitted): OfferedWork[] {
  if (absorbent.length === 0) {
    const work = { kind: "absorbent", position: FIRST_CANISTER, takesOff: null, goesOn: null } as const;
    return [{ label: "Fit absorbent", title: "Fit absorbent", work }];
  }
  return absorbent.map((charge) => ({
    ...named(absorbent.length === 1 ? "Change the absorbent" : `Change the absorbent in canister ${charge.position}`),
    work: { kind: "absorbent", position: charge.position, takesOff: charge, goesOn: null },
  }));
}

function atSensor({ oxygenSensor }: Fitted): OfferedWork[] {
  return [
    {
      ...named(oxygenSensor ? "Replace the oxygen sensor" : "Fit an oxygen sensor"),
      work: { kind: "oxygen-sensor", position: SENSOR_POSITION, takesOff: oxygenSensor, goesOn: null },
    },
  ];
}
