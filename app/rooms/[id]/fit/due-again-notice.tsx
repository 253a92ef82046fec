import { Notice } from "@/app/_ui/notice";
import type { RoomView } from "@/lib/schemas/room";
import { dueAgain } from "./due-again";
import type { PartWork } from "./part-work";

/** Said before it is done, so that nobody is surprised by a room that must be looked at again. */
export function DueAgain({ kind, view }: { kind: PartWork["kind"]; view: RoomView }) {
  const items = dueAgain(kind, view);
  if (items.length === 0) return null;
  return (
    <Notice tone="heed" title="Then due again">
      <p>{items.join("; ")}.</p>
    </Notice>
  );
}
