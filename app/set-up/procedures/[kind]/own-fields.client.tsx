"use client";

import { SelectField, TextField } from "@/app/_ui/field";
import styles from "@/app/set-up/set-up.module.css";
import { OWN_FAILING, type OwnFailing } from "@/lib/domain/procedure/model";
import { UNITS } from "@/lib/units/quantity";
import type { Item } from "./draft-screen.client";

const FAILING_WORDS: Record<OwnFailing, string> = {
  stops: "stops the workstation",
  due: "is work, and stops nothing",
};

type Answer = Item["answer"];

const FORMS: Record<"pass" | "number" | "choice", { readonly label: string; readonly answer: Answer }> = {
  pass: { label: "yes or no", answer: { kind: "pass", yes: "Yes", no: "No" } },
  number: { label: "a reading", answer: { kind: "number", unit: "%", least: 0, most: 100, decimals: 0 } },
  choice: {
    label: "one of several",
    answer: {
      kind: "choice",
      options: [
        { value: "good", label: "Good" },
        { value: "bad", label: "Bad" },
      ],
    },
  },
};

interface OwnFieldsProps {
  readonly item: Item;
  readonly onChange: (change: Partial<Item>) => void;
  /** Another form of answer has no limits yet. */
  readonly onForm: (answer: Answer) => void;
}

/** A question of the site's own: how it is answered, and what follows when it fails. */
export function OwnFields({ item, onChange, onForm }: OwnFieldsProps) {
  const { answer } = item;
  return (
    <>
      <SelectField
        label="How it is answered"
        value={answer.kind}
        onChange={({ target }) => onForm(FORMS[target.value as keyof typeof FORMS].answer)}
      >
        {Object.entries(FORMS).map(([kind, { label }]) => (
          <option key={kind} value={kind}>
            {label}
          </option>
        ))}
      </SelectField>
      {answer.kind === "pass" ? <PassFields answer={answer} onChange={(next) => onChange({ answer: next })} /> : null}
      {answer.kind === "number" ? <NumberFields item={item} answer={answer} onChange={onChange} /> : null}
      {answer.kind === "choice" ? (
        <TextField
          label="Choices, with commas between"
          value={answer.options.map(({ label }) => label).join(", ")}
          onChange={({ target }) => onChange({ answer: { kind: "choice", options: optionsOf(target.value) } })}
        />
      ) : null}
      {answer.kind === "choice" ? null : (
        <SelectField
          label="What a failed answer does"
          value={item.failing ?? "stops"}
          onChange={({ target }) => onChange({ failing: target.value as OwnFailing })}
        >
          {OWN_FAILING.map((failing) => (
            <option key={failing} value={failing}>
              {FAILING_WORDS[failing]}
            </option>
          ))}
        </SelectField>
      )}
    </>
  );
}

const optionsOf = (typed: string) =>
  typed
    .split(",")
    .map((label) => ({ value: label.trim().toLowerCase().replaceAll(/\s+/g, "-"), label: label.trimStart() }));

type Pass = Extract<Answer, { kind: "pass" }>;
type Reading = Extract<Answer, { kind: "number" }>;

function PassFields({ answer, onChange }: { answer: Pass; onChange: (answer: Pass) => void }) {
  return (
    <div className={styles.pair}>
      <TextField
        label="When it is right"
        value={answer.yes}
        maxLength={40}
        onChange={({ target }) => onChange({ ...answer, yes: target.value })}
      />
      <TextField
        label="When it is not"
        value={answer.no}
        maxLength={40}
        onChange={({ target }) => onChange({ ...answer, no: target.value })}
      />
    </div>
  );
}

interface NumberFieldsProps extends Omit<OwnFieldsProps, "onForm"> {
  readonly answer: Reading;
}

function NumberFields({ item, answer, onChange }: NumberFieldsProps) {
  const reading = (change: Partial<Reading>) => onChange({ answer: { ...answer, ...change } });
  const limit = (name: "atLeast" | "atMost", typed: string) => {
    const { [name]: _before, ...rest } = item.limits ?? {};
    onChange({ limits: typed === "" ? rest : { ...rest, [name]: Number(typed) } });
  };
  // The site's own unit is only shown: a procedure keeps pressures in psi, so that one text serves every site.
  const inPsi = answer.unit === "site-pressure" ? "In psi" : undefined;
  return (
    <>
      <SelectField
        label="Unit"
        value={answer.unit}
        onChange={({ target }) => reading({ unit: target.value as Reading["unit"] })}
      >
        <option value="site-pressure">the site’s pressure unit</option>
        {UNITS.map((unit) => (
          <option key={unit} value={unit}>
            {unit}
          </option>
        ))}
      </SelectField>
      <div className={styles.pair}>
        <TextField
          label="Lowest that can be typed"
          hint={inPsi}
          type="number"
          value={answer.least}
          onChange={({ target }) => target.value !== "" && reading({ least: Number(target.value) })}
        />
        <TextField
          label="Highest that can be typed"
          hint={inPsi}
          type="number"
          value={answer.most}
          onChange={({ target }) => target.value !== "" && reading({ most: Number(target.value) })}
        />
      </div>
      <div className={styles.pair}>
        <TextField
          label="Fails under"
          hint={inPsi ? "In psi; empty: no limit" : "Empty: no limit"}
          type="number"
          value={item.limits?.atLeast ?? ""}
          onChange={({ target }) => limit("atLeast", target.value)}
        />
        <TextField
          label="Fails over"
          hint={inPsi ? "In psi; empty: no limit" : "Empty: no limit"}
          type="number"
          value={item.limits?.atMost ?? ""}
          onChange={({ target }) => limit("atMost", target.value)}
        />
      </div>
    </>
  );
}
