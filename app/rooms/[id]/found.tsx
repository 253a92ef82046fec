import type { ItemId } from "@/lib/domain/items";
import type { RoomView } from "@/lib/schemas/room";
import { shortly } from "./gas-path-nodes";
import styles from "./room.module.css";

/** What a provider looks at before saying yes; failures stand above them. Of cylinders and pipelines it is the oxygen. */
const LOOKED_AT: readonly ItemId[] = [
  "self-inflating-bag",
  "suction",
  "cylinder-gauge",
  "pipeline-pressure",
  "low-pressure-leak",
  "breathing-leak",
  "oxygen-in-air",
];

/** What was found on the way of the gas, in the few lines that are read in ten seconds. */
export function Found({ view }: { view: RoomView }) {
  const failing = view.parts.filter(({ standing }) => standing === "failing");
  const looked = LOOKED_AT.flatMap((item) =>
    view.parts.filter((part) => part.item === item && part.standing !== "failing" && isOxygenIfGas(part, view)),
  );
  return (
    <ul className={styles.found}>
      {[...failing, ...looked].map((part) => (
        <li key={part.key} className={part.standing === "failing" ? styles.foundFailing : undefined}>
          <span>{part.subjectName || part.itemName}</span>
          <strong>
            {part.standing === "failing" ? "Not in order: " : null}
            {shortly(part)}
          </strong>
        </li>
      ))}
    </ul>
  );
}

function isOxygenIfGas({ subject }: RoomView["parts"][number], { fitted }: RoomView): boolean {
  if (subject.kind === "pipeline") return subject.id === "oxygen";
  if (subject.kind !== "cylinder") return true;
  return fitted?.cylinders.some(({ id, gas }) => id === subject.id && gas === "oxygen") ?? false;
}
