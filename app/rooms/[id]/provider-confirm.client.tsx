"use client";

import { clockText, countText } from "@/app/_parts/format";
import { ProblemNotice } from "@/app/_parts/problem-notice";
import { useMayDo } from "@/app/_parts/session.client";
import { useCommand } from "@/app/_parts/use-command.client";
import { Button } from "@/app/_ui/button.client";
import { LinkButton } from "@/app/_ui/link-button";
import { Panel } from "@/app/_ui/panel";
import type { RoomView } from "@/lib/schemas/room";
import { Found } from "./found";
import styles from "./room.module.css";

/** A provider confirms a room that may start; before that there is nothing to confirm. */
export const mayStart = ({ row }: RoomView): boolean => row.state === "ready" || row.state === "ready-limited";

/** The second mark in ten seconds: what was found, by whom, and one tap bound to exactly that. */
export function ProviderConfirm({ view, onChanged }: { view: RoomView; onChanged: () => void }) {
  const may = useMayDo("confirm-check");
  const confirm = useCommand("confirm-check");
  const { confirmable, facility } = view;
  if (!may || !confirmable) return null;
  const accept = async () => {
    await confirm.send({ checkId: confirmable.checkId, seenVersion: confirmable.version });
    onChanged();
  };
  return (
    <Panel title="Provider’s check">
      <p>
        {confirmable.signedBy} signed the equipment at {clockText(confirmable.signedAt, facility.timeZone)}
        {confirmable.failing === 0
          ? ", all in order."
          : `, with ${countText(confirmable.failing, "answer")} not in order.`}
      </p>
      <Found view={view} />
      <div className={styles.buttons}>
        <Button
          look="primary"
          size="large"
          wide
          busy={confirm.busy}
          onClick={accept}
          disabledReason={mayStart(view) ? null : "First clear what keeps the room from starting."}
        >
          Confirm what was found
        </Button>
        <LinkButton href={`/checks/${confirmable.checkId}`} look="quiet">
          Read every answer
        </LinkButton>
      </div>
      <ProblemNotice problem={confirm.problem} />
    </Panel>
  );
}
