"use client";

import { Said } from "@/app/_parts/said.client";
import { useMayDo } from "@/app/_parts/session.client";
import { LinkButton } from "@/app/_ui/link-button";
import type { RoomView } from "@/lib/schemas/room";
import { BeginCheck } from "./begin-check.client";

/** Starts the daily check, or goes on with the one that is open: one workstation has one open daily check, whoever began it. */
export function CheckButton({ view, onChanged }: { view: RoomView; onChanged: () => void }) {
  const may = useMayDo("start-check");
  const { row, checks } = view;
  const open = checks.find(({ kind, signedAt }) => kind === "daily" && signedAt === null);
  if (!may || !row.workstation) return null;
  if (open) {
    return (
      <LinkButton href={`/checks/${open.id}`} look="primary" size="large">
        <Said>Go on with the daily check</Said>
      </LinkButton>
    );
  }
  const isFirst = row.marks.equipment === null;
  const isNext = isFirst && row.occupancy.state !== "closed";
  return (
    <BeginCheck
      kind="daily"
      row={row}
      look={isNext ? "primary" : "plain"}
      size={isNext ? "large" : "normal"}
      disabledReason={row.occupancy.state === "in-use" ? "A case is running: check after it." : null}
      onChanged={onChanged}
    >
      <Said>{isFirst ? "Start daily check" : "Check again"}</Said>
    </BeginCheck>
  );
}
