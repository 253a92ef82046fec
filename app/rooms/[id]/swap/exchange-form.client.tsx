"use client";

import { useQuery } from "@tanstack/react-query";
import { type FormEvent, useState } from "react";
import { viewOrThrow } from "@/app/_parts/api.client";
import { ProblemNotice } from "@/app/_parts/problem-notice";
import { useCommand } from "@/app/_parts/use-command.client";
import { READINESS_WORDS } from "@/app/_parts/words";
import { Button } from "@/app/_ui/button.client";
import { Checkbox } from "@/app/_ui/choice";
import { SelectField } from "@/app/_ui/field";
import { Form } from "@/app/_ui/form";
import { Notice } from "@/app/_ui/notice";
import type { Board } from "@/lib/schemas/board";
import type { RoomView } from "@/lib/schemas/room";
import type { Swapped } from "./swap-done";

interface ExchangeProps {
  view: RoomView;
  onSwapped: (swapped: Swapped) => void;
  onBack: () => void;
}

/** Two rooms change their workstations; each owes on arrival what a move makes due. */
export function ExchangeForm({ view, onSwapped, onBack }: ExchangeProps) {
  const { row } = view;
  const swap = useCommand("swap-workstation");
  const [roomId, setRoomId] = useState("");
  const [unchecked, setUnchecked] = useState(false);
  const [asked, setAsked] = useState(false);
  const { data: board, error } = useQuery({
    queryKey: ["exchange", row.roomId],
    queryFn: () => viewOrThrow<Board>("/api/v1/board"),
    staleTime: 0,
    gcTime: 0,
  });
  const rooms = (board?.rooms ?? []).filter(
    (one) => one.roomId !== row.roomId && one.workstation !== null && one.occupancy.state !== "in-use",
  );
  const other = rooms.find((one) => one.roomId === roomId) ?? null;
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    setAsked(true);
    if (!other?.workstation) return;
    const reply = await swap.send({
      roomId: row.roomId,
      outgoingWorkstationId: row.workstation?.id ?? null,
      incomingWorkstationId: other.workstation.id,
      outgoingTo: "exchange",
      ...(unchecked ? { acceptUnchecked: true } : {}),
    });
    if (reply?.ok) onSwapped({ ...reply.value, roomName: row.name });
  };
  return (
    <Form onSubmit={submit}>
      {error ? <Notice tone="wrong" title="The rooms could not be read" announce="alert" /> : null}
      <SelectField
        label="Change workstations with"
        hint="Rooms with a running case are left out."
        value={roomId}
        error={asked && !other ? "Choose a room." : null}
        onChange={(event) => setRoomId(event.target.value)}
      >
        <option value="">{board ? "Choose a room" : "Reading the rooms …"}</option>
        {rooms.map((one) => (
          <option key={one.roomId} value={one.roomId}>
            {one.name}: {one.workstation?.tag}, {READINESS_WORDS[one.state].toLowerCase()}
          </option>
        ))}
      </SelectField>
      {other?.state === "to-check" ? (
        <Checkbox
          label={`${other.workstation?.tag} is not checked: take it all the same`}
          checked={unchecked}
          onChange={(event) => setUnchecked(event.target.checked)}
        />
      ) : null}
      <ProblemNotice problem={swap.problem} />
      <Button type="submit" look="primary" size="large" wide busy={swap.busy}>
        {other ? `Exchange: ${other.workstation?.tag} here, ${row.workstation?.tag} to ${other.name}` : "Exchange"}
      </Button>
      <Button look="quiet" onClick={onBack}>
        Back to the spares
      </Button>
    </Form>
  );
}
