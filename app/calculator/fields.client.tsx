"use client";

import { Button } from "@/app/_ui/button.client";
import { Checkbox } from "@/app/_ui/choice";
import { SelectField, TextField } from "@/app/_ui/field";
import styles from "./calculator.module.css";
import type { FormField } from "./form-model";
import { type Entered, type EnteredValue, isShown, type PageUnit, ROW, withAnotherRow } from "./form-state";
import { optionWords, unitWords } from "./words";

interface FieldsProps {
  fields: readonly FormField[];
  all: Entered;
  unit: PageUnit;
  problems: Readonly<Record<string, string>>;
  path: string;
  onChange: (all: Entered) => void;
}

export function Fields({ fields, all, path, onChange, ...rest }: FieldsProps) {
  return (
    <div className={styles.fields}>
      {fields
        .filter((field) => field.kind !== "pressure-unit" && isShown(field, all))
        .map((field) => (
          <AnyField
            key={field.name}
            {...rest}
            field={field}
            path={path === "" ? field.name : `${path}.${field.name}`}
            value={all[field.name] ?? ""}
            onChange={(value) => onChange({ ...all, [field.name]: value })}
          />
        ))}
    </div>
  );
}

interface AnyFieldProps {
  field: FormField;
  value: EnteredValue;
  unit: PageUnit;
  problems: Readonly<Record<string, string>>;
  path: string;
  onChange: (value: EnteredValue) => void;
}

function AnyField(props: AnyFieldProps) {
  const { field, value, path, problems, onChange, unit } = props;
  if (field.kind === "group") return <GroupField {...props} fields={field.fields} />;
  if (field.kind === "rows") return <RowsField {...props} fields={field.fields} />;
  if (field.kind === "flag")
    return (
      <Checkbox label={field.title} checked={value === true} onChange={(event) => onChange(event.target.checked)} />
    );
  const shared = { value: String(value), error: problemAt(problems, path), hint: field.hint };
  if (field.kind === "choice")
    return (
      <SelectField {...shared} label={field.title} onChange={(event) => onChange(event.target.value)}>
        {field.optional && !field.options.includes(String(value)) ? <option value="">not given</option> : null}
        {field.options.map((option) => (
          <option key={option} value={option}>
            {optionWords(option)}
          </option>
        ))}
      </SelectField>
    );
  const counted = field.kind === "pressure" ? unit : field.kind === "number" ? field.unit : null;
  return (
    <TextField
      {...shared}
      label={counted ? `${field.title}, ${unitWords(counted)}` : field.title}
      type={field.kind === "date" ? "date" : "text"}
      inputMode={counted === null ? undefined : "decimal"}
      autoComplete="off"
      spellCheck={false}
      onChange={(event) => onChange(event.target.value)}
    />
  );
}

/** Of the field itself or of a part of it: "pressure.value" belongs to the field of the pressure. */
const problemAt = (problems: Readonly<Record<string, string>>, path: string): string | null =>
  problems[path] ?? Object.entries(problems).find(([at]) => at.startsWith(`${path}.`))?.[1] ?? null;

function GroupField({ field, fields, value, path, ...rest }: AnyFieldProps & { fields: readonly FormField[] }) {
  const inside = <Fields {...rest} fields={fields} all={value as Entered} path={path} />;
  if (field.optional && field.name === "accuracy")
    return (
      <details className={styles.more}>
        <summary>How well the inputs are known</summary>
        {inside}
      </details>
    );
  return (
    <fieldset className={styles.group}>
      <legend>{field.title}</legend>
      {inside}
    </fieldset>
  );
}

function RowsField({
  field,
  fields,
  value,
  path,
  onChange,
  ...rest
}: AnyFieldProps & { fields: readonly FormField[] }) {
  const rows = value as readonly Entered[];
  const put = (at: number, row: Entered) => onChange(rows.map((one, place) => (place === at ? row : one)));
  return (
    <fieldset className={styles.group}>
      <legend>{field.title}</legend>
      {field.hint === "" ? null : <p className={styles.hint}>{field.hint}</p>}
      {rows.map((row, at) => (
        <div key={String(row[ROW])} className={styles.row}>
          <fieldset>
            <legend className={styles.rowName}>{`No. ${at + 1}`}</legend>
            <Fields {...rest} fields={fields} all={row} path={`${path}[${at}]`} onChange={(next) => put(at, next)} />
          </fieldset>
          <Button
            look="quiet"
            aria-label={`Remove no. ${at + 1}`}
            onClick={() => onChange(rows.filter((_, place) => place !== at))}
          >
            Remove
          </Button>
        </div>
      ))}
      <Button onClick={() => onChange(withAnotherRow(fields, rows))}>Add another</Button>
    </fieldset>
  );
}
