"use client";

import { NEED_WORDS } from "@/app/_parts/words";
import { Button } from "@/app/_ui/button.client";
import { DataTable } from "@/app/_ui/data-table";
import styles from "@/app/set-up/set-up.module.css";
import { WEEKDAY_NAMES, WEEKDAYS } from "@/lib/domain/weekly-template/model";
import type { WeekView } from "@/lib/schemas/weekly";

type Room = WeekView["rooms"][number];
type ShownList = NonNullable<Room["list"]>;

export interface WeekTableProps {
  view: WeekView;
  chosen: readonly string[];
  onChosen: (ids: readonly string[]) => void;
  onToday: (roomId: string) => void;
}

export function WeekTable({ view, chosen, onChosen, onToday }: WeekTableProps) {
  const toggle = (id: string, on: boolean) =>
    onChosen(view.rooms.map((room) => room.id).filter((one) => (one === id ? on : chosen.includes(one))));
  return (
    <DataTable name="The week of each room">
      <thead>
        <tr>
          <th scope="col">Choose</th>
          <th scope="col">Room</th>
          <th scope="col">Today</th>
          {WEEKDAYS.map((day) => (
            <th key={day} scope="col">
              {WEEKDAY_NAMES[day].slice(0, 3)}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {view.rooms.map((room) => (
          <tr key={room.id}>
            <td>
              <label className={styles.check}>
                <input
                  type="checkbox"
                  aria-label={`Choose ${room.name}`}
                  checked={chosen.includes(room.id)}
                  onChange={(event) => toggle(room.id, event.target.checked)}
                />
              </label>
            </td>
            <th scope="row">
              {room.name}
              <span className={styles.soft}> · {room.suite}</span>
            </th>
            <td>
              <Button onClick={() => onToday(room.id)} aria-label={`Today's list of ${room.name}`}>
                {room.list ? listText(room.list) : "from the week"}
              </Button>
            </td>
            {WEEKDAYS.map((day) => (
              <td key={day}>{cellText(room, day)}</td>
            ))}
          </tr>
        ))}
      </tbody>
    </DataTable>
  );
}

function cellText({ days }: Room, weekday: number): string {
  const day = days.find((one) => one.weekday === weekday);
  if (!day) return "not said";
  return day.closed ? "closed" : listText(day);
}

/** "07:15 to 15:30, sedation" */
export function listText({ firstCase, ends, needs }: Pick<ShownList, "firstCase" | "ends" | "needs">): string {
  const times = firstCase === null ? "open, no first case" : `${firstCase}${ends === null ? "" : ` to ${ends}`}`;
  return [times, ...needs.map((need) => NEED_WORDS[need])].join(", ");
}
