"use client";

import { type FormEvent, useState } from "react";
import { Button } from "@/app/_ui/button.client";
import { Dialog } from "@/app/_ui/dialog.client";
import { Form } from "@/app/_ui/form";
import { Notice } from "@/app/_ui/notice";
import { useWorkstations, withTag } from "./use-workstations.client";
import { WorkstationChoice } from "./workstation-choice.client";

interface ConfirmWorkstationProps {
  open: boolean;
  /** The workstation that stands there by the records. */
  expected: { readonly id: string; readonly tag: string };
  place: string;
  busy: boolean;
  onClose: () => void;
  onConfirmed: (workstationId: string) => void;
}

/** A check begins with a look at the number on the workstation: what is recorded belongs to that one and to no other. */
export function ConfirmWorkstation({ open, expected, place, busy, onClose, onConfirmed }: ConfirmWorkstationProps) {
  return (
    <Dialog open={open} title="Which number is on the workstation?" onClose={onClose}>
      <Question expected={expected} place={place} busy={busy} onConfirmed={onConfirmed} />
    </Dialog>
  );
}

function Question({ expected, place, busy, onConfirmed }: Omit<ConfirmWorkstationProps, "open" | "onClose">) {
  const [another, setAnother] = useState(false);
  if (another) return <Another expected={expected} place={place} busy={busy} onConfirmed={onConfirmed} />;
  return (
    <>
      <Button look="primary" size="large" wide busy={busy} onClick={() => onConfirmed(expected.id)}>
        {expected.tag}
      </Button>
      <Button size="large" wide onClick={() => setAnother(true)}>
        Another number
      </Button>
    </>
  );
}

function Another({ expected, place, busy, onConfirmed }: Omit<ConfirmWorkstationProps, "open" | "onClose">) {
  const [typed, setTyped] = useState("");
  const [asked, setAsked] = useState(false);
  const { data } = useWorkstations(true);
  const found = withTag(data ?? [], typed);
  const submit = (event: FormEvent) => {
    event.preventDefault();
    setAsked(true);
    if (found) onConfirmed(found.id);
  };
  return (
    <Form onSubmit={submit}>
      <WorkstationChoice
        except={null}
        typed={typed}
        onTyped={setTyped}
        error={asked && !found ? "No workstation with this number is on record. Read it again." : null}
      />
      {found && found.id !== expected.id ? (
        <Notice tone="heed" title={`${found.tag} is on record in ${found.place}, ${expected.tag} in ${place}`}>
          <p>Its check will count for {found.place}. If it stands here now, swap it in first.</p>
        </Notice>
      ) : null}
      <Button type="submit" look="primary" size="large" wide busy={busy}>
        {found ? `Check ${found.tag}` : "Check"}
      </Button>
    </Form>
  );
}
