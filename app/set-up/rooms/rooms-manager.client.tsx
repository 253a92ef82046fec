"use client";

import { useState } from "react";
import { countText } from "@/app/_parts/format";
import { useSay } from "@/app/_parts/say.client";
import { GAS_WORDS } from "@/app/_parts/words";
import { Button } from "@/app/_ui/button.client";
import { Notice } from "@/app/_ui/notice";
import { Panel } from "@/app/_ui/panel";
import { Entries, Entry } from "@/app/set-up/entries";
import { Manager } from "@/app/set-up/manager.client";
import { useView } from "@/app/set-up/use-view.client";
import { GASES } from "@/lib/domain/vocabulary";
import type { PlacesView } from "@/lib/schemas/places";
import { AddRoomsForm } from "./add-rooms-form.client";
import { PlaceForm } from "./place-form.client";
import { KINDS, type PlaceOpen, PlacePanels } from "./place-panels.client";
import { RoomForm } from "./room-form.client";

type Room = PlacesView["rooms"][number];
type Open = { what: "add" } | { what: "room"; room: Room } | ({ what: "place" } & PlaceOpen);

/** Every room with what it has, by suite. A retired room stays in the list, because its record does. */
export function RoomsManager({ initial }: { initial: PlacesView }) {
  const say = useSay();
  const { view, again } = useView("/api/v1/set-up/places", initial);
  const [open, setOpen] = useState<Open | null>(null);
  const running = view.rooms.filter(({ retired }) => !retired).length;
  const suites = view.suites.length;
  const done = () => {
    setOpen(null);
    again();
  };
  const addSuite = () => setOpen({ what: "place", kind: "suite", place: null });
  return (
    <Manager
      title={say("Rooms")}
      sub={`${countText(running, say("room"))} in ${countText(suites, say("suite"))}. Everything here also comes by import.`}
      actions={
        suites === 0 ? (
          <Button look="primary" onClick={addSuite}>
            {say("Add a suite")}
          </Button>
        ) : (
          <Button look="primary" onClick={() => setOpen({ what: "add" })}>
            {say("Add rooms")}
          </Button>
        )
      }
      form={open && { title: titleOf(open, say), body: <OpenForm open={open} view={view} done={done} again={again} /> }}
      onClose={() => setOpen(null)}
    >
      {view.rooms.length === 0 ? (
        <Notice title={say("No room yet")}>
          <p>
            {suites === 0
              ? say("Begin with a suite: every room lies in one, and the walk follows them.")
              : say("Add the rooms of a corridor at once, such as OR 1 to OR 12, or import them all.")}
          </p>
        </Notice>
      ) : (
        <RoomsBySuite view={view} onOpen={(room) => setOpen({ what: "room", room })} />
      )}
      <PlacePanels view={view} onOpen={(place) => setOpen({ what: "place", ...place })} />
    </Manager>
  );
}

function titleOf(open: Open, say: ReturnType<typeof useSay>): string {
  if (open.what === "add") return say("Add rooms");
  if (open.what === "room") return open.room.name;
  return open.place?.name ?? say(`Add a ${KINDS[open.kind].one}`);
}

function OpenForm({ open, view, done, again }: { open: Open; view: PlacesView; done: () => void; again: () => void }) {
  if (open.what === "add") return <AddRoomsForm view={view} onAdded={again} />;
  if (open.what === "room") return <RoomForm view={view} room={open.room} onSaved={done} />;
  return <PlaceForm view={view} kind={open.kind} place={open.place} onSaved={done} />;
}

function RoomsBySuite({ view, onOpen }: { view: PlacesView; onOpen: (room: Room) => void }) {
  const say = useSay();
  const groups = view.suites
    .map((suite) => ({ ...suite, rooms: view.rooms.filter(({ suiteId }) => suiteId === suite.id) }))
    .filter(({ rooms }) => rooms.length > 0);
  return groups.map(({ id, name, rooms }) => (
    <Panel key={id} title={name} aside={countText(rooms.filter(({ retired }) => !retired).length, say("room"))}>
      <Entries name={say`Rooms of ${name}`}>
        {rooms.map((room) => (
          <Entry key={room.id} name={room.name} note={room.retired ? "retired" : null} facts={factsOf(view, room, say)}>
            <Button onClick={() => onOpen(room)} aria-label={`Change ${room.name}`}>
              {room.retired ? "Bring back" : "Change"}
            </Button>
          </Entry>
        ))}
      </Entries>
    </Panel>
  ));
}

/** "AW-01 · Level 2 north · oxygen, air · vacuum · WAGD active" */
const factsOf = (view: PlacesView, room: Room, say: ReturnType<typeof useSay>) => [
  room.workstation ?? "no workstation",
  view.zones.find(({ id }) => id === room.zoneId)?.name ?? "no pipeline zone",
  GASES.filter((gas) => room.piped.includes(gas))
    .map((gas) => GAS_WORDS[gas].toLowerCase())
    .join(", ") || "no piped gas",
  room.vacuum ? "vacuum" : "no vacuum",
  say`waste gas ${room.wasteGas}`,
];
