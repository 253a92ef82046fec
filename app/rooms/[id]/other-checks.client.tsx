"use client";

import { Said } from "@/app/_parts/said.client";
import { useMayDo } from "@/app/_parts/session.client";
import { LinkButton } from "@/app/_ui/link-button";
import { Panel } from "@/app/_ui/panel";
import type { RoomView } from "@/lib/schemas/room";
import { BeginCheck } from "./begin-check.client";

type Kind = "each-case" | "close-out";

const KINDS: readonly { readonly kind: Kind; readonly start: string; readonly goOn: string; readonly why: string }[] = [
  {
    kind: "each-case",
    start: "Check before this case",
    goOn: "Go on with the check before this case",
    why: "What every new patient asks for again. It never moves the board.",
  },
  {
    kind: "close-out",
    start: "Close out",
    goOn: "Go on with the close-out",
    why: "At the end of the list: flows off, vaporizers off and filled, absorbent judged, cylinders shut, suction emptied.",
  },
];

/** The checks of a day besides the daily one, each where it belongs: between cases, and when the list is over. */
export function OtherChecks({ view, onChanged }: { view: RoomView; onChanged: () => void }) {
  const may = useMayDo("start-check");
  if (!may || !view.row.workstation || view.row.occupancy.state === "closed") return null;
  return (
    <Panel title="Other checks">
      {KINDS.map(({ kind, ...words }) => (
        <OneKind key={kind} kind={kind} words={words} view={view} onChanged={onChanged} />
      ))}
    </Panel>
  );
}

interface OneKindProps {
  readonly kind: Kind;
  readonly words: { readonly start: string; readonly goOn: string; readonly why: string };
  readonly view: RoomView;
  readonly onChanged: () => void;
}

function OneKind({ kind, words, view, onChanged }: OneKindProps) {
  const open = view.checks.find((check) => check.kind === kind && check.signedAt === null);
  return (
    <>
      <p>
        <Said>{words.why}</Said>
      </p>
      <div>
        {open ? (
          <LinkButton href={`/checks/${open.id}`} size="large">
            <Said>{words.goOn}</Said>
          </LinkButton>
        ) : (
          <BeginCheck kind={kind} row={view.row} onChanged={onChanged}>
            <Said>{words.start}</Said>
          </BeginCheck>
        )}
      </div>
    </>
  );
}
