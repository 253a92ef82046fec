"use client";

import { useSay } from "@/app/_parts/say.client";
import { GAS_WORDS } from "@/app/_parts/words";
import { Checkbox, Choice } from "@/app/_ui/choice";
import { SelectField, TextField } from "@/app/_ui/field";
import { typedNumber } from "@/app/set-up/number-text";
import styles from "@/app/set-up/set-up.module.css";
import { GASES, type Gas, type WasteGas } from "@/lib/domain/vocabulary";
import type { PlacesView } from "@/lib/schemas/places";

type Room = PlacesView["rooms"][number];

const WASTE = [
  { value: "active", label: "active" },
  { value: "passive", label: "passive" },
  { value: "none", label: "none" },
] as const;

/** What a room lies in and is supplied with; the place on the walk is a text until it is sent. */
export interface Supplies {
  suiteId: string;
  zoneId: string;
  piped: readonly Gas[];
  vacuum: boolean;
  wasteGas: WasteGas;
  walkingOrder: string;
}

/** A new room begins like the last one of the list, further along the walk: rooms of one corridor are alike. */
export function suppliesOf({ rooms, suites }: PlacesView, room: Room | null): Supplies {
  const like = room ?? rooms.filter(({ retired }) => !retired).at(-1);
  const next = Math.max(0, ...rooms.map(({ walkingOrder }) => walkingOrder)) + 1;
  return {
    suiteId: like?.suiteId ?? suites[0]?.id ?? "",
    zoneId: like?.zoneId ?? "",
    piped: like?.piped ?? ["oxygen", "air"],
    vacuum: like?.vacuum ?? true,
    wasteGas: like?.wasteGas ?? "active",
    walkingOrder: String(room?.walkingOrder ?? next),
  };
}

export const sentSupplies = ({ piped, zoneId, walkingOrder, ...rest }: Supplies) => ({
  ...rest,
  zoneId: zoneId || null,
  piped: [...piped],
  walkingOrder: typedNumber(walkingOrder),
});

export interface SupplyFieldsProps {
  view: PlacesView;
  typed: Supplies;
  put: (part: Partial<Supplies>) => void;
  error: (field: string) => string | null;
}

export function SupplyFields({ view, typed, put, error }: SupplyFieldsProps) {
  const say = useSay();
  return (
    <>
      <div className={styles.pair}>
        <SelectField
          label={say("Suite")}
          value={typed.suiteId}
          error={error("suiteId")}
          onChange={(event) => put({ suiteId: event.target.value })}
        >
          {view.suites.map(({ id, name }) => (
            <option key={id} value={id}>
              {name}
            </option>
          ))}
        </SelectField>
        <SelectField
          label="Pipeline zone"
          hint={say("Rooms behind one zone valve")}
          value={typed.zoneId}
          error={error("zoneId")}
          onChange={(event) => put({ zoneId: event.target.value })}
        >
          <option value="">none</option>
          {view.zones.map(({ id, name }) => (
            <option key={id} value={id}>
              {name}
            </option>
          ))}
        </SelectField>
      </div>
      <fieldset>
        <legend className={styles.legend}>Piped gases</legend>
        <div className={styles.roles}>
          {GASES.map((gas) => (
            <Checkbox
              key={gas}
              label={GAS_WORDS[gas]}
              checked={typed.piped.includes(gas)}
              onChange={(event) =>
                put({ piped: GASES.filter((one) => (one === gas ? event.target.checked : typed.piped.includes(one))) })
              }
            />
          ))}
          <Checkbox
            label="Vacuum outlet"
            checked={typed.vacuum}
            onChange={(event) => put({ vacuum: event.target.checked })}
          />
        </div>
      </fieldset>
      <Choice
        legend={say("Waste gas")}
        options={WASTE}
        value={typed.wasteGas}
        onChange={(wasteGas) => put({ wasteGas })}
      />
      <TextField
        label="Place on the walk"
        hint={say("Smaller numbers come first in their suite")}
        inputMode="numeric"
        value={typed.walkingOrder}
        error={error("walkingOrder")}
        onChange={(event) => put({ walkingOrder: event.target.value })}
      />
    </>
  );
}
