"use client";

import { type FormEvent, useState } from "react";
import { fieldMessage } from "@/app/_parts/api.client";
import { useMayDo } from "@/app/_parts/session.client";
import { useCommand } from "@/app/_parts/use-command.client";
import { GAS_WORDS } from "@/app/_parts/words";
import { Button } from "@/app/_ui/button.client";
import { Checkbox, Choice } from "@/app/_ui/choice";
import { SelectField, TextField } from "@/app/_ui/field";
import { Form } from "@/app/_ui/form";
import { typedNumber } from "@/app/set-up/number-text";
import { Saved } from "@/app/set-up/saved.client";
import styles from "@/app/set-up/set-up.module.css";
import { GASES, type Gas, type WasteGas } from "@/lib/domain/vocabulary";
import type { PlacesView } from "@/lib/schemas/places";

type Room = PlacesView["rooms"][number];

const WASTE = [
  { value: "active", label: "active" },
  { value: "passive", label: "passive" },
  { value: "none", label: "none" },
] as const;

interface Typed {
  name: string;
  suiteId: string;
  zoneId: string;
  piped: readonly Gas[];
  vacuum: boolean;
  wasteGas: WasteGas;
  walkingOrder: string;
}

/** A new room begins like the last one of the list, further along the walk: rooms of one corridor are alike. */
function startOf({ rooms, suites }: PlacesView, room: Room | null): Typed {
  const like = room ?? rooms.filter(({ retired }) => !retired).at(-1);
  const next = Math.max(0, ...rooms.map(({ walkingOrder }) => walkingOrder)) + 1;
  return {
    name: room?.name ?? "",
    suiteId: like?.suiteId ?? suites[0]?.id ?? "",
    zoneId: like?.zoneId ?? "",
    piped: like?.piped ?? ["oxygen", "air"],
    vacuum: like?.vacuum ?? true,
    wasteGas: like?.wasteGas ?? "active",
    walkingOrder: String(room?.walkingOrder ?? next),
  };
}

export function RoomForm({ view, room, onSaved }: { view: PlacesView; room: Room | null; onSaved: () => void }) {
  const { send, busy, problem } = useCommand("set-room");
  const retire = useCommand("retire-room");
  const mayRetire = useMayDo("retire-room");
  const [typed, setTyped] = useState(() => startOf(view, room));
  const [saved, setSaved] = useState<string | null>(null);
  const put = (part: Partial<Typed>) => setTyped({ ...typed, ...part });
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    setSaved(null);
    const reply = await send({
      ...typed,
      roomId: room?.id ?? null,
      zoneId: typed.zoneId || null,
      piped: [...typed.piped],
      walkingOrder: typedNumber(typed.walkingOrder),
    });
    if (!reply?.ok) return;
    setSaved(`${typed.name} is on the board`);
    if (room === null) setTyped({ ...typed, name: "", walkingOrder: String(typedNumber(typed.walkingOrder) + 1) });
    onSaved();
  };
  const retireIt = async () => {
    if (room && (await retire.send({ roomId: room.id }))?.ok) onSaved();
  };
  const error = (field: string) => fieldMessage(problem, field);
  return (
    <Form onSubmit={submit}>
      <TextField
        label="Name"
        hint="As it stands on its door"
        autoComplete="off"
        value={typed.name}
        error={error("name")}
        onChange={(event) => put({ name: event.target.value })}
      />
      <SelectField
        label="Suite"
        value={typed.suiteId}
        error={error("suiteId")}
        onChange={(event) => put({ suiteId: event.target.value })}
      >
        {view.suites.length === 0 ? <option value="">No suite yet: add one first</option> : null}
        {view.suites.map(({ id, name }) => (
          <option key={id} value={id}>
            {name}
          </option>
        ))}
      </SelectField>
      <SelectField
        label="Pipeline zone"
        hint="Rooms behind one zone valve"
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
        </div>
      </fieldset>
      <Checkbox
        label="Vacuum outlet"
        checked={typed.vacuum}
        onChange={(event) => put({ vacuum: event.target.checked })}
      />
      <Choice legend="Waste gas" options={WASTE} value={typed.wasteGas} onChange={(wasteGas) => put({ wasteGas })} />
      <TextField
        label="Place on the walk"
        hint="Smaller numbers come first in their suite"
        inputMode="numeric"
        value={typed.walkingOrder}
        error={error("walkingOrder")}
        onChange={(event) => put({ walkingOrder: event.target.value })}
      />
      <Saved
        problem={problem ?? retire.problem}
        busy={busy}
        saved={saved}
        label={room === null ? "Add room" : room.retired ? "Bring back" : "Save"}
      >
        {room && !room.retired && mayRetire ? (
          <Button look="stop" busy={retire.busy} onClick={retireIt}>
            Retire {room.name}
          </Button>
        ) : null}
      </Saved>
    </Form>
  );
}
