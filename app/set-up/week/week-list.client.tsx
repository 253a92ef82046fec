"use client";

import { useSay } from "@/app/_parts/say.client";
import { Button } from "@/app/_ui/button.client";
import { Checkbox } from "@/app/_ui/choice";
import { Panel } from "@/app/_ui/panel";
import { Entries, Entry } from "@/app/set-up/entries";
import styles from "@/app/set-up/set-up.module.css";
import type { WeekView } from "@/lib/schemas/weekly";
import { listText, weekTexts } from "./week-words";

export interface WeekListProps {
  view: WeekView;
  chosen: readonly string[];
  onChosen: (ids: readonly string[]) => void;
  onToday: (roomId: string) => void;
}

/** Each room with its week and its list of today, by suite, to be ticked one by one or a suite at once. */
export function WeekList({ view, chosen, onChosen, onToday }: WeekListProps) {
  const say = useSay();
  const put = (ids: readonly string[], on: boolean) =>
    onChosen(view.rooms.map(({ id }) => id).filter((id) => (ids.includes(id) ? on : chosen.includes(id))));
  const suites = [...new Set(view.rooms.map(({ suite }) => suite))];
  return suites.map((suite) => {
    const rooms = view.rooms.filter((room) => room.suite === suite);
    const ids = rooms.map(({ id }) => id);
    const all = ids.every((id) => chosen.includes(id));
    return (
      <Panel
        key={suite}
        title={suite}
        aside={
          <Button look="quiet" onClick={() => put(ids, !all)} aria-label={`Choose ${all ? "none" : "all"} of ${suite}`}>
            {all ? "Choose none" : "Choose all"}
          </Button>
        }
      >
        <Entries name={say`Weeks of the rooms of ${suite}`}>
          {rooms.map((room) => (
            <Entry
              key={room.id}
              name={
                <span className={styles.tick}>
                  <Checkbox
                    label={room.name}
                    checked={chosen.includes(room.id)}
                    onChange={(event) => put([room.id], event.target.checked)}
                  />
                </span>
              }
              facts={weekTexts(room)}
            >
              <Button onClick={() => onToday(room.id)} aria-label={`Today's list of ${room.name}`}>
                {room.list ? `Today: ${listText({ ...room.list, needs: [] })}` : "Today: from the week"}
              </Button>
            </Entry>
          ))}
        </Entries>
      </Panel>
    );
  });
}
