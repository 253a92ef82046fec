"use client";

import { type FormEvent, useState } from "react";
import { Button } from "@/app/_ui/button.client";
import { Dialog } from "@/app/_ui/dialog.client";
import { Form } from "@/app/_ui/form";
import { Notice } from "@/app/_ui/notice";
import { Scanner } from "./scan/scanner.client";
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

type Way = "ask" | "scan" | "type";

function Question(props: Omit<ConfirmWorkstationProps, "open" | "onClose">) {
  const { expected, busy, onConfirmed } = props;
  const [way, setWay] = useState<Way>("ask");
  const [other, setOther] = useState("");
  const scanned = ({ id, tag }: { readonly id: string; readonly tag: string }) => {
    if (id === expected.id) return onConfirmed(id);
    // Another one than the records say: what that means is said before anything begins.
    setOther(tag);
    setWay("type");
  };
  if (way === "type") return <Another {...props} begunWith={other} />;
  if (way === "scan" && !busy) return <Scanner onFound={scanned} onType={() => setWay("type")} />;
  return (
    <>
      <Button look="primary" size="large" wide busy={busy} onClick={() => onConfirmed(expected.id)}>
        {expected.tag}
      </Button>
      <Button size="large" wide onClick={() => setWay("scan")}>
        Scan its code
      </Button>
      <Button size="large" wide onClick={() => setWay("type")}>
        Another number
      </Button>
    </>
  );
}

interface AnotherProps extends Omit<ConfirmWorkstationProps, "open" | "onClose"> {
  readonly begunWith: string;
}

function Another({ expected, place, busy, onConfirmed, begunWith }: AnotherProps) {
  const [typed, setTyped] = useState(begunWith);
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
