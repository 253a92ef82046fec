"use client";

import { GAS_WORDS } from "@/app/_parts/words";
import { Button } from "@/app/_ui/button.client";
import { FieldError, SelectField, TextField } from "@/app/_ui/field";
import styles from "@/app/set-up/set-up.module.css";
import { GASES, type Gas } from "@/lib/domain/vocabulary";

interface Yoke {
  position: string;
  gas: Gas;
}

/** Each hanger yoke with its position and the gas that its pins let in. */
export function YokeFields({
  yokes,
  error,
  onYokes,
}: {
  yokes: Yoke[];
  error: string | null;
  onYokes: (yokes: Yoke[]) => void;
}) {
  const put = (place: number, part: Partial<Yoke>) =>
    onYokes(yokes.map((yoke, at) => (at === place ? { ...yoke, ...part } : yoke)));
  return (
    <fieldset>
      <legend className={styles.legend}>Hanger yokes</legend>
      {yokes.map((yoke, place) => (
        // A key that stays: a yoke's place in the list is all that does while its name is typed.
        <div key={`yoke ${String(place)}`} className={styles.pair}>
          <TextField
            label={`Yoke ${place + 1}: position`}
            autoComplete="off"
            value={yoke.position}
            onChange={(event) => put(place, { position: event.target.value })}
          />
          <SelectField
            label={`Yoke ${place + 1}: gas`}
            value={yoke.gas}
            onChange={(event) => put(place, { gas: event.target.value as Gas })}
          >
            {GASES.map((gas) => (
              <option key={gas} value={gas}>
                {GAS_WORDS[gas]}
              </option>
            ))}
          </SelectField>
          <Button
            look="quiet"
            onClick={() => onYokes(yokes.filter((_, at) => at !== place))}
            aria-label={`Take yoke ${yoke.position} away`}
          >
            Take away
          </Button>
        </div>
      ))}
      <Button onClick={() => onYokes([...yokes, { position: String(yokes.length + 1), gas: "oxygen" }])}>
        Add a yoke
      </Button>
      {error ? <FieldError>{error}</FieldError> : null}
    </fieldset>
  );
}
