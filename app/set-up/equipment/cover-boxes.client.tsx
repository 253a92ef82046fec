"use client";

import { Checkbox } from "@/app/_ui/choice";
import styles from "@/app/set-up/set-up.module.css";
import { ITEM_IDS, ITEMS, type ItemId } from "@/lib/domain/items";

/** Which items of the check the model's own test answers, so that nobody is asked them again. */
export function CoverBoxes({ covers, onCovers }: { covers: readonly ItemId[]; onCovers: (covers: ItemId[]) => void }) {
  return (
    <details>
      <summary className={styles.summary}>
        Its self-test covers{" "}
        {covers.length === 0 ? "nothing" : `${covers.length} ${covers.length === 1 ? "item" : "items"} of the check`}
      </summary>
      <fieldset>
        <legend className={styles.soft}>Only what its maker says the test covers</legend>
        <div className={styles.roles}>
          {ITEM_IDS.map((item) => (
            <Checkbox
              key={item}
              label={ITEMS[item].name}
              checked={covers.includes(item)}
              onChange={(event) =>
                onCovers(ITEM_IDS.filter((one) => (one === item ? event.target.checked : covers.includes(one))))
              }
            />
          ))}
        </div>
      </fieldset>
    </details>
  );
}
