"use client";

import { useState } from "react";
import { countText } from "@/app/_parts/format";
import { GAS_WORDS } from "@/app/_parts/words";
import { Button } from "@/app/_ui/button.client";
import { DataTable } from "@/app/_ui/data-table";
import { Dialog } from "@/app/_ui/dialog.client";
import { Notice } from "@/app/_ui/notice";
import { PageHeading } from "@/app/_ui/page";
import { Panel } from "@/app/_ui/panel";
import styles from "@/app/set-up/set-up.module.css";
import { useView } from "@/app/set-up/use-view.client";
import type { PlacesView } from "@/lib/schemas/places";
import { PlacePanels } from "./place-panels.client";
import { RoomForm } from "./room-form.client";

type Room = PlacesView["rooms"][number];

/** Every room with what it has, and a form for one more. A retired room stays in the list, because its record does. */
export function RoomsManager({ initial }: { initial: PlacesView }) {
  const { view, again } = useView("/api/v1/set-up/places", initial);
  const [changing, setChanging] = useState<Room | null>(null);
  const running = view.rooms.filter(({ retired }) => !retired).length;
  return (
    <>
      <PageHeading
        title="Rooms"
        sub={`${countText(running, "room")} in ${countText(view.suites.length, "suite")}. Everything here also comes by import.`}
      />
      <div className={styles.columns}>
        <div className={styles.stack}>
          {view.rooms.length === 0 ? (
            <Notice title="No room yet">
              <p>
                {view.suites.length === 0
                  ? "Begin with a suite: every room lies in one, and the walk follows them."
                  : "Add the first room beside this, or import them all."}
              </p>
            </Notice>
          ) : (
            <RoomTable view={view} onChange={setChanging} />
          )}
          <PlacePanels view={view} onChanged={again} />
        </div>
        <Panel title="Add a room">
          <RoomForm key={view.suites.length} view={view} room={null} onSaved={again} />
        </Panel>
      </div>
      <Dialog open={changing !== null} title={changing?.name ?? ""} onClose={() => setChanging(null)}>
        {changing ? (
          <RoomForm
            view={view}
            room={changing}
            onSaved={() => {
              setChanging(null);
              again();
            }}
          />
        ) : null}
      </Dialog>
    </>
  );
}

function RoomTable({ view, onChange }: { view: PlacesView; onChange: (room: Room) => void }) {
  const nameOf = (list: readonly { id: string; name: string }[], id: string | null) =>
    list.find((one) => one.id === id)?.name ?? "none";
  return (
    <DataTable name="Rooms and what they have">
      <thead>
        <tr>
          <th scope="col">Room</th>
          <th scope="col">Suite</th>
          <th scope="col">Pipeline zone</th>
          <th scope="col">Piped</th>
          <th scope="col">Vacuum</th>
          <th scope="col">Waste gas</th>
          <th scope="col">Walk</th>
          <th scope="col">Workstation</th>
          <th scope="col">
            <span>Change</span>
          </th>
        </tr>
      </thead>
      <tbody>
        {view.rooms.map((room) => (
          <tr key={room.id}>
            <th scope="row">
              {room.name}
              {room.retired ? <span className={styles.soft}> · retired</span> : null}
            </th>
            <td>{nameOf(view.suites, room.suiteId)}</td>
            <td>{nameOf(view.zones, room.zoneId)}</td>
            <td>{room.piped.map((gas) => GAS_WORDS[gas]).join(", ") || "none"}</td>
            <td>{room.vacuum ? "yes" : "no"}</td>
            <td>{room.wasteGas}</td>
            <td className={styles.number}>{room.walkingOrder}</td>
            <td>{room.workstation ?? "none"}</td>
            <td>
              <Button onClick={() => onChange(room)} aria-label={`Change ${room.name}`}>
                {room.retired ? "Bring back" : "Change"}
              </Button>
            </td>
          </tr>
        ))}
      </tbody>
    </DataTable>
  );
}
