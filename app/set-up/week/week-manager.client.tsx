"use client";

import Link from "next/link";
import { useState } from "react";
import { countText, longDayText } from "@/app/_parts/format";
import { useSay } from "@/app/_parts/say.client";
import { Button } from "@/app/_ui/button.client";
import { Notice } from "@/app/_ui/notice";
import { Manager } from "@/app/set-up/manager.client";
import { useView } from "@/app/set-up/use-view.client";
import type { WeekView } from "@/lib/schemas/weekly";
import { TodayForm } from "./today-form.client";
import { WeekForm } from "./week-form.client";
import { WeekList } from "./week-list.client";

type Open = { what: "week" } | { what: "today"; roomId: string };

/** The usual week. It holds on every day that has no list of its own, so that the board works when nobody imported one. */
export function WeekManager({ initial }: { initial: WeekView }) {
  const say = useSay();
  const { view, again } = useView("/api/v1/set-up/week", initial);
  const [chosen, setChosen] = useState<readonly string[]>([]);
  const [open, setOpen] = useState<Open | null>(null);
  const rooms = view.rooms.filter(({ id }) => chosen.includes(id));
  const which = rooms.length === 1 ? (rooms[0]?.name ?? "") : countText(rooms.length, say("room"));
  const all = chosen.length === view.rooms.length;
  if (view.rooms.length === 0)
    return (
      <Manager title="Week" sub={say("What each weekday usually asks of each room.")}>
        <Notice title={say("No room yet")}>
          <p>
            <Link href="/set-up/rooms">{say("Add the rooms first")}</Link>, then say what their weeks are like.
          </p>
        </Notice>
      </Manager>
    );
  return (
    <Manager
      title="Week"
      sub={`It holds on days without a list of their own. A list that is entered or imported for a day wins. Today is ${longDayText(view.today)}.`}
      actions={
        <>
          <Button onClick={() => setChosen(all ? [] : view.rooms.map(({ id }) => id))}>
            {say(all ? "Choose no room" : `Choose all ${view.rooms.length} rooms`)}
          </Button>
          <Button
            look="primary"
            disabledReason={rooms.length === 0 ? say("Choose rooms first") : null}
            onClick={() => setOpen({ what: "week" })}
          >
            {rooms.length === 0 ? "Set the week" : `Set the week of ${which}`}
          </Button>
        </>
      }
      form={open && formOf({ open, view, rooms, which, close: () => setOpen(null), again, clear: () => setChosen([]) })}
      onClose={() => setOpen(null)}
    >
      <WeekList
        view={view}
        chosen={chosen}
        onChosen={setChosen}
        onToday={(roomId) => setOpen({ what: "today", roomId })}
      />
    </Manager>
  );
}

interface Opened {
  open: Open;
  view: WeekView;
  rooms: WeekView["rooms"];
  which: string;
  close: () => void;
  again: () => void;
  clear: () => void;
}

function formOf({ open, view, rooms, which, close, again, clear }: Opened) {
  const saved = () => {
    close();
    again();
  };
  if (open.what === "week") {
    const weekSaved = () => {
      clear();
      saved();
    };
    return { title: `Week of ${which}`, body: <WeekForm rooms={rooms} onSaved={weekSaved} /> };
  }
  const room = view.rooms.find(({ id }) => id === open.roomId);
  if (!room) return null;
  return {
    title: `Today's list of ${room.name}`,
    body: <TodayForm room={room} weekday={view.weekday} onSaved={saved} />,
  };
}
