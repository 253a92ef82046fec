"use client";

import { useState } from "react";
import { Button } from "@/app/_ui/button.client";
import { Dialog } from "@/app/_ui/dialog.client";
import { Panel } from "@/app/_ui/panel";
import styles from "@/app/set-up/set-up.module.css";
import type { PlacesView } from "@/lib/schemas/places";
import { PlaceForm, type PlaceKind, type PlaceKnown } from "./place-form.client";

const KINDS: readonly { kind: PlaceKind; title: string; one: string; empty: string }[] = [
  { kind: "suite", title: "Suites", one: "suite", empty: "No suite yet." },
  {
    kind: "zone",
    title: "Pipeline zones",
    one: "pipeline zone",
    empty: "No zone yet. Without zones an event of the pipeline is told room by room.",
  },
  { kind: "store", title: "Stores", one: "store", empty: "No store yet. Spare workstations and parts lie in one." },
];

/** What rooms lie in, hang on, and are supplied from. */
export function PlacePanels({ view, onChanged }: { view: PlacesView; onChanged: () => void }) {
  const [open, setOpen] = useState<{ kind: PlaceKind; place: PlaceKnown | null } | null>(null);
  return (
    <>
      {KINDS.map(({ kind, title, one, empty }) => (
        <Panel key={kind} title={title}>
          {view[`${kind}s`].length === 0 ? <p className={styles.soft}>{empty}</p> : null}
          <ul className={styles.plainList}>
            {view[`${kind}s`].map((place) => (
              <li key={place.id} className={styles.line}>
                <span>
                  {place.name} <span className={styles.soft}>{detailOf(view, kind, place)}</span>
                </span>
                <Button onClick={() => setOpen({ kind, place })} aria-label={`Change ${place.name}`}>
                  Change
                </Button>
              </li>
            ))}
          </ul>
          <Button onClick={() => setOpen({ kind, place: null })}>Add a {one}</Button>
        </Panel>
      ))}
      <Dialog
        open={open !== null}
        title={open?.place?.name ?? `Add a ${KINDS.find(({ kind }) => kind === open?.kind)?.one ?? ""}`}
        onClose={() => setOpen(null)}
      >
        {open ? (
          <PlaceForm
            view={view}
            kind={open.kind}
            place={open.place}
            onSaved={() => {
              setOpen(null);
              onChanged();
            }}
          />
        ) : null}
      </Dialog>
    </>
  );
}

function detailOf({ rooms, suites }: PlacesView, kind: PlaceKind, place: PlaceKnown): string {
  if (kind === "store") {
    const suite = suites.find(({ id }) => id === place.suiteId)?.name;
    return suite ? `in ${suite}` : "";
  }
  const count = rooms.filter(
    ({ retired, suiteId, zoneId }) => !retired && (kind === "suite" ? suiteId : zoneId) === place.id,
  ).length;
  return `${count} ${count === 1 ? "room" : "rooms"}`;
}
