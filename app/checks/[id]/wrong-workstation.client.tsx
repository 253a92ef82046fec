"use client";

import { useState } from "react";
import { FocusOnShow } from "@/app/_parts/focus-on-show.client";
import { ProblemNotice } from "@/app/_parts/problem-notice";
import { ReasonForm } from "@/app/_parts/reason-form.client";
import { useMayDo } from "@/app/_parts/session.client";
import { useCommand } from "@/app/_parts/use-command.client";
import { useChosenWorkstation, WorkstationChoice } from "@/app/_parts/workstation-choice.client";
import { Button } from "@/app/_ui/button.client";
import { Dialog } from "@/app/_ui/dialog.client";
import { LinkButton } from "@/app/_ui/link-button";
import { Notice } from "@/app/_ui/notice";
import type { CheckView } from "@/lib/schemas/check";
import styles from "./wrong-workstation.module.css";

interface Moved {
  readonly checkId: string;
  readonly tag: string;
  readonly carried: number;
  readonly dropped: readonly { itemName: string; subjectName: string; why: string }[];
}

const OFTEN = ["Opened the wrong one", "It was swapped before the check"] as const;

/** The check was opened for one workstation and done on another: what was seen is recorded where it was seen. */
export function WrongWorkstation({ view }: { view: CheckView }) {
  const may = useMayDo("correct-workstation");
  const [open, setOpen] = useState(false);
  const [moved, setMoved] = useState<Moved | null>(null);
  if (!may || (view.kind !== "daily" && view.kind !== "first-user")) return null;
  const { tag } = view.workstation;
  return (
    <>
      <Button look="quiet" onClick={() => setOpen(true)}>
        Not {tag}?
      </Button>
      <Dialog
        open={open}
        title={moved ? `Moved to ${moved.tag}` : `This check is not of ${tag}`}
        onClose={() => setOpen(false)}
      >
        {moved ? <MovedTo moved={moved} from={tag} /> : <CorrectForm view={view} onMoved={setMoved} />}
      </Dialog>
    </>
  );
}

function CorrectForm({ view, onMoved }: { view: CheckView; onMoved: (moved: Moved) => void }) {
  const correct = useCommand("correct-workstation");
  const start = useCommand("start-check");
  const [typed, setTyped] = useState("");
  const [asked, setAsked] = useState(false);
  const right = useChosenWorkstation(typed, view.workstation.id);
  const empty = view.recorded.length === 0;
  const submit = async (reason: string) => {
    setAsked(true);
    if (!right) return;
    // Without an answer there is nothing to move: the right one's own check is opened.
    const reply = empty
      ? await start.send({ workstationId: right.id, kind: "daily" })
      : await correct.send({ checkId: view.id, workstationId: right.id, reason });
    if (!reply?.ok) return;
    const { checkId } = reply.value;
    const { carried, dropped } = "carried" in reply.value ? reply.value : { carried: 0, dropped: [] };
    onMoved({ checkId, tag: right.tag, carried, dropped });
  };
  return (
    <ReasonForm
      label="How did it come about?"
      suggestions={OFTEN}
      action={right ? (empty ? `Check ${right.tag} instead` : `Move the answers to ${right.tag}`) : "Move the answers"}
      busy={correct.busy || start.busy}
      problem={correct.problem}
      lead={
        <WorkstationChoice
          except={view.workstation.id}
          typed={typed}
          onTyped={setTyped}
          error={asked && !right ? "Type the number of the workstation that was really looked at." : null}
        />
      }
      onSubmit={submit}
    >
      <ProblemNotice problem={start.problem} />
      {empty ? null : (
        <p>
          They no longer count for {view.workstation.tag}, stay readable there, and wait for a signature on the right
          one.
        </p>
      )}
    </ReasonForm>
  );
}

function MovedTo({ moved, from }: { moved: Moved; from: string }) {
  return (
    <FocusOnShow className={styles.moved}>
      <Notice tone="done" title={`${moved.carried} answers are now of ${moved.tag}`} announce="status">
        <p>None of them counts for {from} any more.</p>
      </Notice>
      {moved.dropped.length > 0 ? (
        <div>
          <p>To be answered again there:</p>
          <ul className={styles.dropped}>
            {moved.dropped.map(({ itemName, subjectName, why }) => (
              <li key={`${itemName}${subjectName}`}>
                {subjectName ? `${subjectName}: ` : ""}
                {itemName} {why}
              </li>
            ))}
          </ul>
        </div>
      ) : null}
      <LinkButton href={`/checks/${moved.checkId}`} look="primary" size="large" wide>
        Go on with {moved.tag}
      </LinkButton>
    </FocusOnShow>
  );
}
