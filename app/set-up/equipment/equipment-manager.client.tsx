"use client";

import { useState } from "react";
import { countText } from "@/app/_parts/format";
import { useMayDo } from "@/app/_parts/session.client";
import { Button } from "@/app/_ui/button.client";
import { Notice } from "@/app/_ui/notice";
import { Panel } from "@/app/_ui/panel";
import { Entries, Entry } from "@/app/set-up/entries";
import { Manager } from "@/app/set-up/manager.client";
import styles from "@/app/set-up/set-up.module.css";
import { useView } from "@/app/set-up/use-view.client";
import type { PlacesView } from "@/lib/schemas/places";
import { ModelForm } from "./model-form.client";
import { PartForm } from "./part-form.client";
import { DRIVE_WORDS, LEAK_TEST_WORDS } from "./words";
import { WorkstationForm } from "./workstation-form.client";

type Workstation = PlacesView["workstations"][number];
type Model = PlacesView["models"][number];
type Open =
  | { what: "model"; model: Model | null }
  | { what: "workstation"; workstation: Workstation | null }
  | { what: "part"; workstationId: string };

/** What stands in the rooms: the models with their methods, and each workstation with its parts. */
export function EquipmentManager({ initial }: { initial: PlacesView }) {
  const { view, again } = useView("/api/v1/set-up/places", initial);
  const [open, setOpen] = useState<Open | null>(null);
  const done = () => {
    setOpen(null);
    again();
  };
  const running = view.workstations.filter(({ retired }) => !retired).length;
  const noModel = view.models.length === 0;
  return (
    <Manager
      title="Equipment"
      sub={`${countText(running, "workstation")} of ${countText(view.models.length, "model")}. Everything here also comes by import.`}
      actions={
        <>
          <Button look={noModel ? "primary" : "plain"} onClick={() => setOpen({ what: "model", model: null })}>
            Add a model
          </Button>
          <Button
            look={noModel ? "plain" : "primary"}
            disabledReason={noModel ? "Add its model first" : null}
            onClick={() => setOpen({ what: "workstation", workstation: null })}
          >
            Add a workstation
          </Button>
        </>
      }
      form={open && formOf(open, view, done, again)}
      onClose={() => setOpen(null)}
    >
      <Panel title="Workstations">
        {view.workstations.length === 0 ? (
          <Notice title="No workstation yet">
            <p>
              {noModel
                ? "Add its model first: the model says how it is tested."
                : "Add the first one, then its cylinders and vaporizers."}
            </p>
          </Notice>
        ) : (
          <Workstations view={view} onOpen={setOpen} />
        )}
      </Panel>
      <Panel title="Models" aside="Shared with the organisation's other facilities">
        {noModel ? <p className={styles.soft}>No model yet.</p> : <Models view={view} onOpen={setOpen} />}
      </Panel>
    </Manager>
  );
}

function formOf(open: Open, view: PlacesView, done: () => void, again: () => void) {
  if (open.what === "model")
    return { title: open.model?.name ?? "Add a model", body: <ModelForm model={open.model} onSaved={done} /> };
  if (open.what === "part") {
    const workstation = view.workstations.find(({ id }) => id === open.workstationId);
    if (!workstation) return null;
    return {
      title: `Add a part to ${workstation.tag}`,
      body: <PartForm view={view} workstation={workstation} onAdded={again} />,
    };
  }
  return {
    title: open.workstation?.tag ?? "Add a workstation",
    body: open.workstation ? (
      <WorkstationForm view={view} workstation={open.workstation} onSaved={done} />
    ) : (
      <WorkstationForm view={view} workstation={null} onSaved={again} />
    ),
  };
}

/** "AW-01 · OR 1", with its model, its number and what is fitted to it. */
function Workstations({ view, onOpen }: { view: PlacesView; onOpen: (open: Open) => void }) {
  const mayAdd = useMayDo("add-part");
  const place = ({ roomId, storeId }: Workstation) =>
    view.rooms.find(({ id }) => id === roomId)?.name ?? view.stores.find(({ id }) => id === storeId)?.name ?? "nowhere";
  return (
    <Entries name="Workstations">
      {view.workstations.map((one) => (
        <Entry
          key={one.id}
          name={one.tag}
          note={one.retired ? "retired" : place(one)}
          facts={[
            view.models.find(({ id }) => id === one.modelId)?.name ?? null,
            `serial number ${one.serial}`,
            one.parts.map(({ name, position }) => `${name} (${position})`).join(", ") || "nothing fitted",
          ]}
        >
          {one.retired || !mayAdd ? null : (
            <Button
              onClick={() => onOpen({ what: "part", workstationId: one.id })}
              aria-label={`Add a part to ${one.tag}`}
            >
              Add a part
            </Button>
          )}
          <Button onClick={() => onOpen({ what: "workstation", workstation: one })} aria-label={`Change ${one.tag}`}>
            {one.retired ? "Bring back" : "Change"}
          </Button>
        </Entry>
      ))}
    </Entries>
  );
}

function Models({ view, onOpen }: { view: PlacesView; onOpen: (open: Open) => void }) {
  return (
    <Entries name="Models and their methods">
      {view.models.map((model) => (
        <Entry key={model.id} name={model.name} note={model.maker} facts={modelFacts(model)}>
          <Button onClick={() => onOpen({ what: "model", model })} aria-label={`Change ${model.name}`}>
            Change
          </Button>
        </Entry>
      ))}
    </Entries>
  );
}

const modelFacts = (model: Model) => [
  countText(model.workstations, "workstation"),
  `${DRIVE_WORDS[model.drive]}${model.driveGas === "none" ? "" : ` driven by ${model.driveGas.replace("-", " ")}`}`,
  `leak test ${LEAK_TEST_WORDS[model.leakTest]}`,
  model.yokes.length === 0
    ? "no yoke"
    : `yokes ${model.yokes.map(({ position, gas }) => `${position} ${gas.replace("-", " ")}`).join(", ")}`,
  model.mounts.length === 0 ? "no vaporizer mount" : `mounts ${model.mounts.join(", ")}`,
];
