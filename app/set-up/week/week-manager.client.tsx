"use client";

import Link from "next/link";
import { useState } from "react";
import { longDayText } from "@/app/_parts/format";
import { Button } from "@/app/_ui/button.client";
import { Dialog } from "@/app/_ui/dialog.client";
import { Notice } from "@/app/_ui/notice";
import { PageHeading } from "@/app/_ui/page";
import styles from "@/app/set-up/set-up.module.css";
import { useView } from "@/app/set-up/use-view.client";
import type { WeekView } from "@/lib/schemas/weekly";
import { TodayForm } from "./today-form.client";
import { WeekForm } from "./week-form.client";
import { WeekTable } from "./week-table.client";

/** The usual week. It holds on every day that has no list of its own, so that the board works when nobody imported one. */
export function WeekManager({ initial }: { initial: WeekView }) {
  const { view, again } = useView("/api/v1/set-up/week", initial);
  const [chosen, setChosen] = useState<readonly string[]>([]);
  const [editing, setEditing] = useState(false);
  const [today, setToday] = useState<string | null>(null);
  const rooms = view.rooms.filter(({ id }) => chosen.includes(id));
  const listed = view.rooms.find(({ id }) => id === today) ?? null;
  if (view.rooms.length === 0)
    return (
      <>
        <PageHeading title="Week" sub="What each weekday usually asks of each room." />
        <Notice title="No room yet">
          <p>
            <Link href="/set-up/rooms">Add the rooms first</Link>, then say what their weeks are like.
          </p>
        </Notice>
      </>
    );
  return (
    <>
      <PageHeading
        title="Week"
        sub={`It holds on days without a list of their own. A list that is entered or imported for a day wins. Today is ${longDayText(view.today)}.`}
      />
      <div className={styles.stack}>
        <div className={styles.buttons}>
          <Button
            look="primary"
            disabledReason={rooms.length === 0 ? "Choose rooms in the table first" : null}
            onClick={() => setEditing(true)}
          >
            {rooms.length === 0
              ? "Set their week"
              : `Set the week of ${rooms.length === 1 ? (rooms[0]?.name ?? "") : `${rooms.length} rooms`}`}
          </Button>
          <Button onClick={() => setChosen(chosen.length === view.rooms.length ? [] : view.rooms.map(({ id }) => id))}>
            {chosen.length === view.rooms.length ? "Choose none" : "Choose all"}
          </Button>
        </div>
        <WeekTable view={view} chosen={chosen} onChosen={setChosen} onToday={setToday} />
      </div>
      <Dialog
        open={editing}
        title={rooms.length === 1 ? `Week of ${rooms[0]?.name}` : `Week of ${rooms.length} rooms`}
        onClose={() => setEditing(false)}
      >
        <WeekForm
          rooms={rooms}
          onSaved={() => {
            setEditing(false);
            setChosen([]);
            again();
          }}
        />
      </Dialog>
      <Dialog open={listed !== null} title={`Today's list of ${listed?.name ?? ""}`} onClose={() => setToday(null)}>
        {listed ? (
          <TodayForm
            room={listed}
            weekday={view.weekday}
            onSaved={() => {
              setToday(null);
              again();
            }}
          />
        ) : null}
      </Dialog>
    </>
  );
}
