import { Notice } from "@/app/_ui/notice";
import { dueAgain } from "./due-again";
import type { PartWork } from "./part-work";

/** Said before it is done, so that nobody is surprised by a room that must be looked at again. */
export function DueAgain({ kind, asked }: { kind: PartWork["kind"]; asked: readonly string[] }) {
  const items = dueAgain(kind, asked);
  if (items.length === 0) return null;
  return (
    <Notice tone="heed" title="Then due again">
      <p>{items.join("; ")}.</p>
    </Notice>
  );
}
