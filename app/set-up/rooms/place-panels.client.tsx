"use client";

import { countText } from "@/app/_parts/format";
import { useSay } from "@/app/_parts/say.client";
import { Button } from "@/app/_ui/button.client";
import { Panel } from "@/app/_ui/panel";
import { Entries, Entry } from "@/app/set-up/entries";
import styles from "@/app/set-up/set-up.module.css";
import type { PlacesView } from "@/lib/schemas/places";
import type { PlaceKind, PlaceKnown } from "./place-form.client";

export const KINDS: Readonly<Record<PlaceKind, { title: string; one: string; empty: string }>> = {
  suite: { title: "Suites", one: "suite", empty: "No suite yet." },
  zone: {
    title: "Pipeline zones",
    one: "pipeline zone",
    empty: "No zone yet. Without zones an event of the pipeline is told room by room.",
  },
  store: { title: "Stores", one: "store", empty: "No store yet. Spare workstations and parts lie in one." },
};
const ORDER: readonly PlaceKind[] = ["suite", "zone", "store"];

export interface PlaceOpen {
  kind: PlaceKind;
  place: PlaceKnown | null;
}

/** What rooms lie in, hang on, and are supplied from. */
export function PlacePanels({ view, onOpen }: { view: PlacesView; onOpen: (open: PlaceOpen) => void }) {
  const say = useSay();
  return ORDER.map((kind) => {
    const { title, one, empty } = KINDS[kind];
    const places = view[`${kind}s`];
    return (
      <Panel key={kind} title={say(title)}>
        {places.length === 0 ? (
          <p className={styles.soft}>{say(empty)}</p>
        ) : (
          <Entries name={say(title)}>
            {places.map((place) => (
              <Entry key={place.id} name={place.name} facts={[detailOf(view, kind, place, say)]}>
                <Button onClick={() => onOpen({ kind, place })} aria-label={`Change ${place.name}`}>
                  Change
                </Button>
              </Entry>
            ))}
          </Entries>
        )}
        <div className={styles.buttons}>
          <Button onClick={() => onOpen({ kind, place: null })}>{say(`Add a ${one}`)}</Button>
        </div>
      </Panel>
    );
  });
}

function detailOf(
  { rooms, suites }: PlacesView,
  kind: PlaceKind,
  place: PlaceKnown,
  say: ReturnType<typeof useSay>,
): string {
  if (kind === "store") {
    const suite = suites.find(({ id }) => id === place.suiteId)?.name;
    return suite ? `in ${suite}` : "";
  }
  const count = rooms.filter(
    ({ retired, suiteId, zoneId }) => !retired && (kind === "suite" ? suiteId : zoneId) === place.id,
  ).length;
  return countText(count, say("room"));
}
