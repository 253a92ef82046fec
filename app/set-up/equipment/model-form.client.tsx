"use client";

import { type FormEvent, useState } from "react";
import { fieldMessage } from "@/app/_parts/api.client";
import { useCommand } from "@/app/_parts/use-command.client";
import { Checkbox, Choice } from "@/app/_ui/choice";
import { SelectField, TextField } from "@/app/_ui/field";
import { Form } from "@/app/_ui/form";
import { typedOrNull } from "@/app/set-up/number-text";
import { Saved } from "@/app/set-up/saved.client";
import styles from "@/app/set-up/set-up.module.css";
import { DRIVES, type Drive, type Gas, LEAK_TESTS, type LeakTest } from "@/lib/domain/vocabulary";
import type { PlacesView } from "@/lib/schemas/places";
import { CoverBoxes } from "./cover-boxes.client";
import { DRIVE_WORDS, LEAK_TEST_WORDS } from "./words";
import { YokeFields } from "./yoke-fields.client";

type Model = PlacesView["models"][number];

const SENSORS = [
  { value: "galvanic", label: "galvanic cell" },
  { value: "paramagnetic", label: "paramagnetic" },
] as const;

function startOf(model: Model | null) {
  return {
    name: model?.name ?? "",
    maker: model?.maker ?? "",
    drive: model?.drive ?? ("ascending-bellows" as Drive),
    driveGas: model?.driveGas ?? ("oxygen" as Gas | "none"),
    leakTest: model?.leakTest ?? ("bulb" as LeakTest),
    oxygenSensor: model?.oxygenSensor ?? ("galvanic" as const),
    mounts: model?.mounts.join(", ") ?? "1, 2",
    yokes: model?.yokes ?? [{ position: "1", gas: "oxygen" as const }],
    selfTestCovers: model?.selfTestCovers ?? [],
    outletSelector: model?.outletSelector ?? false,
    vaporFreeMinutes: String(model?.vaporFreeMinutes ?? ""),
    vaporFreeFilterMinutes: String(model?.vaporFreeFilterMinutes ?? ""),
  };
}
type Typed = ReturnType<typeof startOf>;

/** How a model is driven and tested, and what has a place on it. */
export function ModelForm({ model, onSaved }: { model: Model | null; onSaved: () => void }) {
  const { send, busy, problem } = useCommand("set-model");
  const [typed, setTyped] = useState<Typed>(() => startOf(model));
  const put = (part: Partial<Typed>) => setTyped({ ...typed, ...part });
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    const reply = await send({
      ...typed,
      modelId: model?.id ?? null,
      mounts: typed.mounts
        .split(",")
        .map((mount) => mount.trim())
        .filter(Boolean),
      vaporFreeMinutes: typedOrNull(typed.vaporFreeMinutes),
      vaporFreeFilterMinutes: typedOrNull(typed.vaporFreeFilterMinutes),
    });
    if (reply?.ok) onSaved();
  };
  const error = (field: string) => fieldMessage(problem, field);
  return (
    <Form onSubmit={submit}>
      <TextField
        label="Name"
        autoComplete="off"
        value={typed.name}
        error={error("name")}
        onChange={(event) => put({ name: event.target.value })}
      />
      <TextField
        label="Maker"
        autoComplete="off"
        value={typed.maker}
        error={error("maker")}
        onChange={(event) => put({ maker: event.target.value })}
      />
      <DriveFields typed={typed} put={put} error={error} />
      <SelectField
        label="Low-pressure leak test"
        value={typed.leakTest}
        onChange={(event) => put({ leakTest: event.target.value as LeakTest })}
      >
        {LEAK_TESTS.map((test) => (
          <option key={test} value={test}>
            {LEAK_TEST_WORDS[test]}
          </option>
        ))}
      </SelectField>
      <Choice
        legend="Oxygen sensor"
        options={SENSORS}
        value={typed.oxygenSensor}
        onChange={(oxygenSensor) => put({ oxygenSensor })}
      />
      <TextField
        label="Vaporizer mounts"
        hint="Their names from the left, with commas; empty for none"
        autoComplete="off"
        value={typed.mounts}
        error={error("mounts")}
        onChange={(event) => put({ mounts: event.target.value })}
      />
      <YokeFields yokes={typed.yokes} error={error("yokes")} onYokes={(yokes) => put({ yokes })} />
      <CoverBoxes covers={typed.selfTestCovers} onCovers={(selfTestCovers) => put({ selfTestCovers })} />
      <Checkbox
        label="Has a selector for its common gas outlet"
        checked={typed.outletSelector}
        onChange={(event) => put({ outletSelector: event.target.checked })}
      />
      <div className={styles.pair}>
        <TextField
          label="Vapor-free flush, minutes"
          hint="From its maker; empty when none is given"
          inputMode="numeric"
          value={typed.vaporFreeMinutes}
          error={error("vaporFreeMinutes")}
          onChange={(event) => put({ vaporFreeMinutes: event.target.value })}
        />
        <TextField
          label="The same with vapor filters"
          hint="Empty when none fit"
          inputMode="numeric"
          value={typed.vaporFreeFilterMinutes}
          error={error("vaporFreeFilterMinutes")}
          onChange={(event) => put({ vaporFreeFilterMinutes: event.target.value })}
        />
      </div>
      <Saved problem={problem} busy={busy} saved={null} label={model === null ? "Add model" : "Save"} />
    </Form>
  );
}

/** Bellows need a gas and nothing else does, so the gas follows the drive until somebody says otherwise. */
function DriveFields({
  typed,
  put,
  error,
}: {
  typed: Typed;
  put: (part: Partial<Typed>) => void;
  error: (field: string) => string | null;
}) {
  const isBellows = (drive: Drive) => drive.endsWith("bellows");
  const choose = (drive: Drive) =>
    put({ drive, driveGas: isBellows(drive) ? (typed.driveGas === "none" ? "oxygen" : typed.driveGas) : "none" });
  return (
    <div className={styles.pair}>
      <SelectField
        label="Ventilator's drive"
        value={typed.drive}
        onChange={(event) => choose(event.target.value as Drive)}
      >
        {DRIVES.map((drive) => (
          <option key={drive} value={drive}>
            {DRIVE_WORDS[drive]}
          </option>
        ))}
      </SelectField>
      <SelectField
        label="Drive gas"
        value={typed.driveGas}
        error={error("driveGas")}
        onChange={(event) => put({ driveGas: event.target.value as Gas | "none" })}
      >
        <option value="oxygen">oxygen</option>
        <option value="air">air</option>
        <option value="none">none</option>
      </SelectField>
    </div>
  );
}
