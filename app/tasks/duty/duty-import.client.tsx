"use client";

import { useRouter } from "next/navigation";
import { type ChangeEvent, type FormEvent, useState } from "react";
import { countText } from "@/app/_parts/format";
import { ProblemNotice } from "@/app/_parts/problem-notice";
import { useCommand } from "@/app/_parts/use-command.client";
import { Button } from "@/app/_ui/button.client";
import { TextAreaField, TextField } from "@/app/_ui/field";
import { Form, FormActions } from "@/app/_ui/form";
import { Notice } from "@/app/_ui/notice";

/** A roster from a file or from the clipboard: what it says of a person's day replaces what was said of that day. */
export function DutyImport({ onDone }: { onDone: () => void }) {
  const router = useRouter();
  const { send, busy, problem } = useCommand("import-duty");
  const [csv, setCsv] = useState("");
  const [asked, setAsked] = useState(false);
  const [imported, setImported] = useState<string | null>(null);
  const read = async ({ target }: ChangeEvent<HTMLInputElement>) => {
    const file = target.files?.[0];
    if (file) setCsv(await file.text());
  };
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    setAsked(true);
    if (csv.trim() === "") return;
    const reply = await send({ csv });
    if (!reply?.ok) return;
    const { people, spans, merged } = reply.value;
    setImported(
      `${countText(people, "person", "people")}, ${countText(spans, "stretch", "stretches")}${merged > 0 ? `; ${merged} overlapped and became one with another` : ""}.`,
    );
    router.refresh();
  };
  if (imported !== null) {
    return (
      <>
        <Notice tone="done" title="The roster is imported" announce="status">
          <p>{imported}</p>
        </Notice>
        <Button look="primary" onClick={onDone}>
          To the roster
        </Button>
      </>
    );
  }
  return (
    <Form onSubmit={submit}>
      <p>
        One line a stretch: date, user id, role, from, to.{" "}
        <a href="/tasks/duty/template.csv" download>
          Template
        </a>
      </p>
      <TextField label="File" type="file" accept=".csv,text/csv,text/plain" onChange={read} />
      <TextAreaField
        label="Or its text"
        rows={6}
        spellCheck={false}
        value={csv}
        error={asked && csv.trim() === "" ? "Choose a file, or paste its text here." : null}
        onChange={({ target }) => setCsv(target.value)}
      />
      <ProblemNotice problem={problem} />
      <FormActions>
        <Button type="submit" look="primary" busy={busy}>
          Import
        </Button>
      </FormActions>
    </Form>
  );
}
