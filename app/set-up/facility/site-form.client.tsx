"use client";

import { useRouter } from "next/navigation";
import { type FormEvent, useState } from "react";
import { fieldMessage } from "@/app/_parts/api.client";
import { useCommand } from "@/app/_parts/use-command.client";
import { Choice } from "@/app/_ui/choice";
import { SelectField, TextField } from "@/app/_ui/field";
import { Form } from "@/app/_ui/form";
import { Saved } from "@/app/set-up/saved.client";
import styles from "@/app/set-up/set-up.module.css";
import { SCHEME_WORDS, SITE_WORDS, type SiteWord } from "@/lib/domain/site/model";
import type { SiteView } from "@/lib/schemas/site";
import { SCHEMES, UNITS } from "./units";
import { ZoneField } from "./zone-field.client";

const WORD_LABELS: Record<SiteWord, string> = {
  anesthesia: "The specialty",
  wasteGas: "The system for waste gas",
  suite: "A group of rooms",
  room: "A room",
  check: "The daily check",
};

/** What this facility is called, and by which clock, scheme, unit and words it goes. */
export function SiteForm({ site }: { site: SiteView }) {
  const router = useRouter();
  const { send, busy, problem } = useCommand("set-site");
  const { checks, ...start } = site;
  const [typed, setTyped] = useState(start);
  const [saved, setSaved] = useState<string | null>(null);
  const put = (part: Partial<typeof typed>) => setTyped({ ...typed, ...part });
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    setSaved(null);
    if (!(await send(typed))?.ok) return;
    setSaved("Saved. Every screen shows it from now on");
    router.refresh();
  };
  const error = (field: string) => fieldMessage(problem, field);
  return (
    <Form onSubmit={submit}>
      <TextField
        label="Name of this facility"
        autoComplete="off"
        value={typed.name}
        error={error("name")}
        onChange={(event) => put({ name: event.target.value })}
      />
      <ZoneField value={typed.timeZone} error={error("timeZone")} onChange={(timeZone) => put({ timeZone })} />
      <Choice
        legend="Scheme"
        options={SCHEMES}
        value={typed.scheme}
        onChange={(scheme) => put({ scheme, words: SCHEME_WORDS[scheme] })}
        error={error("scheme")}
      />
      {checks > 0 ? (
        <p className={styles.soft}>With checks on record the time zone and the scheme stay what they are.</p>
      ) : null}
      <Choice
        legend="Pressure unit"
        options={UNITS}
        value={UNITS.find(({ value }) => value === typed.pressureUnit)?.value ?? null}
        onChange={(pressureUnit) => put({ pressureUnit })}
      />
      <fieldset>
        <legend className={styles.legend}>Words</legend>
        <p className={styles.soft}>Every screen says it so. They come with the scheme, and each may be changed.</p>
        <div className={styles.pair}>
          {(Object.keys(SITE_WORDS) as SiteWord[]).map((word) => (
            <SelectField
              key={word}
              label={WORD_LABELS[word]}
              value={typed.words[word]}
              onChange={(event) => put({ words: { ...typed.words, [word]: event.target.value } })}
            >
              {SITE_WORDS[word].map((one) => (
                <option key={one} value={one}>
                  {one}
                </option>
              ))}
            </SelectField>
          ))}
        </div>
      </fieldset>
      <Saved problem={problem} busy={busy} saved={saved} label="Save" />
    </Form>
  );
}
