"use client";

import { useRouter } from "next/navigation";
import { type FormEvent, useState } from "react";
import { Button } from "@/app/_ui/button.client";
import { Field } from "@/app/_ui/field";
import { Notice } from "@/app/_ui/notice";
import { LARGEST_SEED } from "@/lib/domain/dice";
import { FAULTS } from "@/lib/domain/rehearsal/decide";
import styles from "./rehearsal.module.css";

/** How many faults, and which workstation: a number given again brings the same one, so that two people can compare. */
export function ChooseRehearsal({ refused }: { refused: string | null }) {
  const router = useRouter();
  const [faults, setFaults] = useState(String(FAULTS.usual));
  const [seed, setSeed] = useState("");
  const [error, setError] = useState<string | null>(null);
  const begin = (event: FormEvent) => {
    event.preventDefault();
    const chosen = seed.trim() === "" ? crypto.getRandomValues(new Uint16Array(1))[0] : Number(seed);
    if (chosen === undefined || !Number.isInteger(chosen) || chosen < 0 || chosen > LARGEST_SEED) {
      setError(`“${seed}” is not a workstation’s number: a whole number from 0 to ${LARGEST_SEED}.`);
      return;
    }
    router.push(`/rehearsal?seed=${chosen}&faults=${faults}`);
  };
  return (
    <form className={styles.choose} onSubmit={begin} noValidate>
      {refused ? <Notice tone="wrong">{refused}</Notice> : null}
      <Field label="Planted faults">
        {(control) => (
          <select {...control} value={faults} onChange={(event) => setFaults(event.target.value)}>
            {Array.from({ length: FAULTS.most }, (_, place) => place + FAULTS.least).map((one) => (
              <option key={one} value={one}>
                {one}
              </option>
            ))}
          </select>
        )}
      </Field>
      <Field
        label="Number of the imagined workstation"
        hint="Leave it empty for a new one. The same number brings the same faults again."
        error={error}
      >
        {(control) => (
          <input {...control} inputMode="numeric" value={seed} onChange={(event) => setSeed(event.target.value)} />
        )}
      </Field>
      <div>
        <Button type="submit" look="primary" size="large">
          Begin
        </Button>
      </div>
    </form>
  );
}
