"use client";

import { useState } from "react";
import { countText } from "@/app/_parts/format";
import { useMayDo } from "@/app/_parts/session.client";
import { Button } from "@/app/_ui/button.client";
import { DataTable } from "@/app/_ui/data-table";
import { Dialog } from "@/app/_ui/dialog.client";
import { Notice } from "@/app/_ui/notice";
import { PageHeading } from "@/app/_ui/page";
import { Panel } from "@/app/_ui/panel";
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
  | { what: "part"; workstation: Workstation };

/** What stands in the rooms: the models with their methods, and each workstation with its parts. */
export function EquipmentManager({ initial }: { initial: PlacesView }) {
  const { view, again } = useView("/api/v1/set-up/places", initial);
  const [open, setOpen] = useState<Open | null>(null);
  const done = () => {
    setOpen(null);
    again();
  };
  const running = view.workstations.filter(({ retired }) => !retired).length;
  return (
    <>
      <PageHeading
        title="Equipment"
        sub={`${countText(running, "workstation")} of ${countText(view.models.length, "model")}. Everything here also comes by import.`}
      />
      <div className={styles.stack}>
        <Panel title="Workstations">
          {view.workstations.length === 0 ? (
            <Notice title="No workstation yet">
              <p>
                {view.models.length === 0
                  ? "Add its model first: the model says how it is tested."
                  : "Add the first one, then its cylinders and vaporizers."}
              </p>
            </Notice>
          ) : (
            <WorkstationTable view={view} onOpen={setOpen} />
          )}
          <div className={styles.buttons}>
            <Button
              look="primary"
              disabledReason={view.models.length === 0 ? "Add its model first" : null}
              onClick={() => setOpen({ what: "workstation", workstation: null })}
            >
              Add a workstation
            </Button>
          </div>
        </Panel>
        <Panel title="Models">
          {view.models.length === 0 ? (
            <p className={styles.soft}>No model yet.</p>
          ) : (
            <ModelTable view={view} onOpen={setOpen} />
          )}
          <div className={styles.buttons}>
            <Button onClick={() => setOpen({ what: "model", model: null })}>Add a model</Button>
          </div>
        </Panel>
      </div>
      <Dialog open={open !== null} title={titleOf(open)} onClose={() => setOpen(null)}>
        {open?.what === "model" ? <ModelForm model={open.model} onSaved={done} /> : null}
        {open?.what === "workstation" ? (
          <WorkstationForm view={view} workstation={open.workstation} onSaved={done} />
        ) : null}
        {open?.what === "part" ? <PartForm view={view} workstation={open.workstation} onAdded={again} /> : null}
      </Dialog>
    </>
  );
}

function titleOf(open: Open | null): string {
  if (open?.what === "model") return open.model?.name ?? "Add a model";
  if (open?.what === "part") return `Add a part to ${open.workstation.tag}`;
  return open?.workstation?.tag ?? "Add a workstation";
}

function WorkstationTable({ view, onOpen }: { view: PlacesView; onOpen: (open: Open) => void }) {
  const mayAdd = useMayDo("add-part");
  const place = ({ roomId, storeId }: Workstation) =>
    view.rooms.find(({ id }) => id === roomId)?.name ?? view.stores.find(({ id }) => id === storeId)?.name ?? "nowhere";
  return (
    <DataTable name="Workstations">
      <thead>
        <tr>
          <th scope="col">Tag</th>
          <th scope="col">Model</th>
          <th scope="col">Serial number</th>
          <th scope="col">Stands in</th>
          <th scope="col">Parts</th>
          <th scope="col">
            <span>Change</span>
          </th>
        </tr>
      </thead>
      <tbody>
        {view.workstations.map((one) => (
          <tr key={one.id}>
            <th scope="row">
              {one.tag}
              {one.retired ? <span className={styles.soft}> · retired</span> : null}
            </th>
            <td>{view.models.find(({ id }) => id === one.modelId)?.name}</td>
            <td>{one.serial}</td>
            <td>{place(one)}</td>
            <td>{one.parts.map(({ name, position }) => `${name} (${position})`).join(", ") || "none"}</td>
            <td>
              <span className={styles.buttons}>
                <Button
                  onClick={() => onOpen({ what: "workstation", workstation: one })}
                  aria-label={`Change ${one.tag}`}
                >
                  {one.retired ? "Bring back" : "Change"}
                </Button>
                {one.retired || !mayAdd ? null : (
                  <Button
                    onClick={() => onOpen({ what: "part", workstation: one })}
                    aria-label={`Add a part to ${one.tag}`}
                  >
                    Add a part
                  </Button>
                )}
              </span>
            </td>
          </tr>
        ))}
      </tbody>
    </DataTable>
  );
}

function ModelTable({ view, onOpen }: { view: PlacesView; onOpen: (open: Open) => void }) {
  return (
    <DataTable name="Models and their methods">
      <thead>
        <tr>
          <th scope="col">Model</th>
          <th scope="col">Maker</th>
          <th scope="col">Drive</th>
          <th scope="col">Leak test</th>
          <th scope="col">Yokes</th>
          <th scope="col">Mounts</th>
          <th scope="col">Workstations</th>
          <th scope="col">
            <span>Change</span>
          </th>
        </tr>
      </thead>
      <tbody>
        {view.models.map((model) => (
          <tr key={model.id}>
            <th scope="row">{model.name}</th>
            <td>{model.maker}</td>
            <td>
              {DRIVE_WORDS[model.drive]}
              {model.driveGas === "none" ? "" : `, ${model.driveGas.replace("-", " ")}`}
            </td>
            <td>{LEAK_TEST_WORDS[model.leakTest]}</td>
            <td>
              {model.yokes.map(({ position, gas }) => `${position} ${gas.replace("-", " ")}`).join(", ") || "none"}
            </td>
            <td>{model.mounts.join(", ") || "none"}</td>
            <td className={styles.number}>{model.workstations}</td>
            <td>
              <Button onClick={() => onOpen({ what: "model", model })} aria-label={`Change ${model.name}`}>
                Change
              </Button>
            </td>
          </tr>
        ))}
      </tbody>
    </DataTable>
  );
}
