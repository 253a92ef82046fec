"use client";

import { useRouter } from "next/navigation";
import { type FormEvent, useEffect, useState } from "react";
import { useWorkstations, withTag } from "@/app/_parts/use-workstations.client";
import { WorkstationChoice } from "@/app/_parts/workstation-choice.client";
import { Button } from "@/app/_ui/button.client";
import { Form } from "@/app/_ui/form";

export function WhichWorkstation() {
  const router = useRouter();
  const [typed, setTyped] = useState("");
  const [asked, setAsked] = useState(false);
  const { data } = useWorkstations(true);
  const found = withTag(data ?? [], typed);
  const going = asked ? (found?.id ?? null) : null;
  // The numbers may still be on their way when somebody is quick.
  useEffect(() => {
    if (going) router.push(`/downtime/enter?workstation=${going}`);
  }, [going, router]);
  const submit = (event: FormEvent) => {
    event.preventDefault();
    setAsked(true);
  };
  return (
    <Form onSubmit={submit}>
      <WorkstationChoice
        except={null}
        typed={typed}
        onTyped={(next) => {
          setTyped(next);
          setAsked(false);
        }}
        error={asked && data && !found ? "No workstation with this number is on record. Read the sheet again." : null}
      />
      <Button type="submit" look="primary" size="large">
        Go on
      </Button>
    </Form>
  );
}
