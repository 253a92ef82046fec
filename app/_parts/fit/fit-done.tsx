import { FocusOnShow } from "@/app/_parts/focus-on-show.client";
import styles from "@/app/_parts/plates.module.css";
import { Said } from "@/app/_parts/said.client";
import { Button } from "@/app/_ui/button.client";
import { LinkButton } from "@/app/_ui/link-button";
import { Notice } from "@/app/_ui/notice";

export interface FitDone {
  readonly fitted: string | null;
  readonly takenOff: string | null;
  readonly place: string;
  readonly recheckTaskKey: string | null;
}

/** What was done, and the way to what it made due. */
export function FitDoneView({ done, roomName, onClose }: { done: FitDone; roomName: string; onClose: () => void }) {
  return (
    <FocusOnShow className={styles.choice}>
      <FitDoneNotice done={done} />
      <Button size="large" wide onClick={onClose}>
        Back to {roomName}
      </Button>
    </FocusOnShow>
  );
}

/** The same without a way back: where the task's own result stands below. */
export function FitDoneNotice({ done: { fitted, takenOff, place, recheckTaskKey } }: { done: FitDone }) {
  return (
    <>
      <Notice tone="done" title={fitted ? `${fitted} is ${place}` : `${takenOff} is off`} announce="status">
        {fitted && takenOff ? <p>{takenOff} is off.</p> : null}
        {recheckTaskKey ? null : (
          <p>
            <Said>What it made due is part of the room’s whole check, which is owed anyway.</Said>
          </p>
        )}
      </Notice>
      {recheckTaskKey ? (
        <LinkButton href={`/tasks/${encodeURIComponent(recheckTaskKey)}`} look="primary" size="large" wide>
          Recheck now
        </LinkButton>
      ) : null}
    </>
  );
}
