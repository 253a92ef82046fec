"use client";

import { useId, useState } from "react";
import { Button } from "@/app/_ui/button.client";
import { FieldError, TextField } from "@/app/_ui/field";
import styles from "./plates.module.css";
import { Scanner } from "./scan/scanner.client";
import { type KnownWorkstation, likeTag, useWorkstations, withTag } from "./use-workstations.client";

interface WorkstationChoiceProps {
  /** Left out: the one that it is not. */
  except: string | null;
  typed: string;
  onTyped: (typed: string) => void;
  error: string | null;
}

const MOST_SHOWN = 4;

/** A workstation by the number on its label: typed, tapped in the list that the typing narrows, or scanned. */
export function WorkstationChoice({ except, typed, onTyped, error }: WorkstationChoiceProps) {
  const group = useId();
  const { data, isError } = useWorkstations(true);
  const others = (data ?? []).filter(({ id }) => id !== except);
  const shown = typed.trim() === "" ? [] : likeTag(others, typed).slice(0, MOST_SHOWN);
  const chosen = withTag(others, typed);
  const [scanning, setScanning] = useState(false);
  if (scanning) {
    const found = ({ tag }: { readonly tag: string }) => {
      onTyped(tag);
      setScanning(false);
    };
    return <Scanner onFound={found} onType={() => setScanning(false)} />;
  }
  return (
    <fieldset className={styles.choice}>
      <legend className={styles.legend}>The workstation before you</legend>
      <TextField
        label="Number on its label"
        autoComplete="off"
        autoCapitalize="characters"
        spellCheck={false}
        maxLength={60}
        value={typed}
        onChange={(event) => onTyped(event.target.value)}
      />
      {typed.trim() === "" ? (
        <Button size="large" wide onClick={() => setScanning(true)}>
          Scan its code
        </Button>
      ) : null}
      {shown.map(({ id, tag, model, place }) => (
        <label key={id} className={styles.plate}>
          <input type="radio" name={group} checked={chosen?.id === id} onChange={() => onTyped(tag)} />
          <span className={styles.oneLine}>
            <strong>{tag}</strong> <span className={styles.why}>{`${model}, ${place}`}</span>
          </span>
        </label>
      ))}
      {isError ? (
        <FieldError>The workstations could not be read. Try again when the connection is back.</FieldError>
      ) : null}
      {error ? <FieldError>{error}</FieldError> : null}
    </fieldset>
  );
}

/** The workstation that was typed or tapped; null while it is none, or that same one. */
export function useChosenWorkstation(typed: string, except: string | null): KnownWorkstation | null {
  const { data } = useWorkstations(true);
  const found = withTag(data ?? [], typed);
  return found?.id === except ? null : found;
}
