"use client";

import { ProblemNotice } from "@/app/_parts/problem-notice";
import { useMayDo } from "@/app/_parts/session.client";
import { useCommand } from "@/app/_parts/use-command.client";
import { Button } from "@/app/_ui/button.client";
import type { RoomView } from "@/lib/schemas/room";
import { mayStart } from "./provider-confirm.client";

interface OccupancyProps {
  view: RoomView;
  onChanged: () => void;
}

/** A case begins and ends: each its own tap, apart from the provider's mark. */
export function CaseButtons({ view, onChanged }: OccupancyProps) {
  const start = useCommand("start-case");
  const end = useCommand("end-case");
  const mayBegin = useMayDo("start-case");
  const mayEnd = useMayDo("end-case");
  const { row } = view;
  const run = async (command: typeof start | typeof end) => {
    await command.send({ roomId: row.roomId });
    onChanged();
  };
  return (
    <>
      {mayBegin && row.occupancy.state === "idle" ? (
        <Button busy={start.busy} onClick={() => run(start)} disabledReason={whyNotStart(view)}>
          Case started
        </Button>
      ) : null}
      {mayEnd && row.occupancy.state === "in-use" ? (
        <Button look="primary" size="large" wide busy={end.busy} onClick={() => run(end)}>
          Case ended
        </Button>
      ) : null}
      <ProblemNotice problem={start.problem ?? end.problem} />
    </>
  );
}

function whyNotStart(view: RoomView): string | null {
  const { row } = view;
  if (mayStart(view)) return null;
  return row.headline ? `Not ready: ${row.headline}` : "This room is not ready.";
}

export function DayButtons({ view, onChanged }: OccupancyProps) {
  const close = useCommand("close-room");
  const open = useCommand("open-room");
  const mayClose = useMayDo("close-room");
  const mayOpen = useMayDo("open-room");
  const { roomId, occupancy } = view.row;
  const run = async (command: typeof close | typeof open) => {
    await command.send({ roomId });
    onChanged();
  };
  return (
    <>
      {mayClose && occupancy.state === "idle" ? (
        <Button busy={close.busy} onClick={() => run(close)}>
          Close for today
        </Button>
      ) : null}
      {mayOpen && occupancy.state === "closed" ? (
        <Button busy={open.busy} onClick={() => run(open)}>
          Open again
        </Button>
      ) : null}
      <ProblemNotice problem={close.problem ?? open.problem} />
    </>
  );
}
