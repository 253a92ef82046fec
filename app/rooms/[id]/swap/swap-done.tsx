import { FocusOnShow } from "@/app/_parts/focus-on-show.client";
import styles from "@/app/_parts/plates.module.css";
import { Button } from "@/app/_ui/button.client";
import { LinkButton } from "@/app/_ui/link-button";
import { Notice } from "@/app/_ui/notice";
import type { OwedItem } from "@/lib/schemas/moves";
import { owedLines } from "./swap-choice";

export interface Swapped {
  readonly roomName: string;
  readonly incomingTag: string;
  readonly outgoingTag: string | null;
  readonly owed: OwedItem[];
  readonly recheckTaskKey: string | null;
}

/** What the swap left to do, and the way straight to it. */
export function SwapDone({ swapped, onClose }: { swapped: Swapped; onClose: () => void }) {
  const { outgoingTag, owed, recheckTaskKey, roomName } = swapped;
  const lines = owedLines(owed);
  return (
    <FocusOnShow className={styles.choice}>
      <Notice tone="done" title={outgoingTag ? `${outgoingTag} is out` : "It is on record"} announce="status">
        <p>{lines.length === 0 ? `${roomName} owes nothing more.` : "Look at this where it stands now:"}</p>
        <ul className={styles.lines}>
          {lines.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      </Notice>
      {recheckTaskKey ? (
        <LinkButton href={`/tasks/${encodeURIComponent(recheckTaskKey)}`} look="primary" size="large" wide>
          Recheck now
        </LinkButton>
      ) : lines.length > 0 ? (
        <p>Its whole check is owed here: start it on the room’s page.</p>
      ) : null}
      <Button size="large" wide onClick={onClose}>
        Back to {roomName}
      </Button>
    </FocusOnShow>
  );
}
