"use client";

import { useId } from "react";
import { Field } from "@/app/_ui/field";

/** Any IANA zone may be typed; the browser's own list helps. */
export function ZoneField({
  value,
  error,
  onChange,
}: {
  value: string;
  error: string | null;
  onChange: (zone: string) => void;
}) {
  const listId = useId();
  return (
    <Field label="Time zone" hint="Such as America/Chicago or Europe/London" error={error}>
      {(control) => (
        <>
          <input
            {...control}
            list={listId}
            autoComplete="off"
            spellCheck={false}
            value={value}
            onChange={(event) => onChange(event.target.value)}
          />
          <datalist id={listId}>
            {Intl.supportedValuesOf("timeZone").map((zone) => (
              <option key={zone} value={zone} />
            ))}
          </datalist>
        </>
      )}
    </Field>
  );
}
