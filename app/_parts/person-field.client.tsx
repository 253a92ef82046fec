"use client";

import { SelectField } from "@/app/_ui/field";
import type { MessagesView } from "@/lib/schemas/messages";

interface PersonFieldProps {
  readonly label: string;
  readonly people: MessagesView["people"];
  readonly value: string;
  readonly error: string | null;
  readonly onChange: (personId: string) => void;
}

/** One of those who could be asked; who is on duty stands first and says so. */
export function PersonField({ label, people, value, error, onChange }: PersonFieldProps) {
  return (
    <SelectField label={label} value={value} error={error} onChange={({ target }) => onChange(target.value)}>
      <option value="">Choose a person</option>
      {people.map(({ id, name, onDuty }) => (
        <option key={id} value={id}>
          {onDuty ? `${name}, on duty` : name}
        </option>
      ))}
    </SelectField>
  );
}
