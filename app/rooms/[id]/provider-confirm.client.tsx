"use client";

import { clockText, countText } from "@/app/_parts/format";
import { ProblemNotice } from "@/app/_parts/problem-notice";
import { useMayDo } from "@/app/_parts/session.client";
import { useCommand } from "@/app/_parts/use-command.client";
import { Button } from "@/app/_ui/button.client";
import { LinkButton } from "@/app/_ui/link-button";
import { Panel } from "@/app/_ui/panel";
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

function Found({ view }: { view: RoomView }) {
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
