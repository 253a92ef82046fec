import type { ReactNode } from "react";
import { Button } from "@/app/_ui/button.client";
import { Field } from "@/app/_ui/field";
import { Panel } from "@/app/_ui/panel";
import { first, type SearchParams } from "@/app/reports/range";
import type { WhatIfChoices } from "@/lib/schemas/what-if";
import styles from "./what-if.module.css";

interface AskProps {
  choices: WhatIfChoices;
  asked: SearchParams;
}

/** Three questions, each a form of its own. */
export function AskForms({ choices, asked }: AskProps) {
  const was = (name: string) => first(asked[name]) ?? "";
  return (
    <div className={styles.forms}>
      <Ask title="The oxygen pipeline fails now" what="pipeline-fails">
        <Select label="Where" name="zoneId" value={was("zoneId")} options={[["", "Everywhere"], ...zonesOf(choices)]} />
      </Ask>
      <Ask title="A workstation goes out" what="workstation-out">
        <Select
          label="Workstation"
          name="workstationId"
          value={was("workstationId")}
          options={choices.workstations.map(({ id, tag, room }) => [id, `${tag}, ${room}`])}
        />
      </Ask>
      <Ask title="Parts are withdrawn" what="withdrawn">
        <Select
          label="What"
          name="part"
          value={was("part")}
          options={[
            ["vaporizer", "A vaporizer"],
            ["cylinder", "Cylinders of a lot"],
            ["absorbent", "Absorbent of a lot"],
          ]}
        />
        <Field
          label="Tag, serial number or product"
          hint="Its beginning names a whole lot: OX-50 is all that begin so."
        >
          {(control) => (
            <input
              {...control}
              name="named"
              required
              maxLength={60}
              list="withdrawn-names"
              defaultValue={was("named")}
            />
          )}
        </Field>
        <datalist id="withdrawn-names">
          {[...choices.vaporizers, ...choices.cylinders, ...choices.absorbents].map((name) => (
            <option key={name} value={name} />
          ))}
        </datalist>
      </Ask>
    </div>
  );
}

const zonesOf = ({ zones }: WhatIfChoices): [string, string][] => zones.map(({ id, name }) => [id, name]);

function Ask({ title, what, children }: { title: string; what: string; children: ReactNode }) {
  return (
    <Panel title={title}>
      <form action="/what-if" className={styles.form}>
        <input type="hidden" name="what" value={what} />
        {children}
        <Button type="submit">Suppose it</Button>
      </form>
    </Panel>
  );
}

interface SelectProps {
  label: string;
  name: string;
  value: string;
  options: readonly (readonly [string, string])[];
}

function Select({ label, name, value, options }: SelectProps) {
  return (
    <Field label={label}>
      {(control) => (
        <select {...control} key={value} name={name} defaultValue={value}>
          {options.map(([id, text]) => (
            <option key={id} value={id}>
              {text}
            </option>
          ))}
        </select>
      )}
    </Field>
  );
}
