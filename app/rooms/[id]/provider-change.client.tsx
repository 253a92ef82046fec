"use client";

import { clockText } from "@/app/_parts/format";
import { ProblemNotice } from "@/app/_parts/problem-notice";
import { useMayDo, useSession } from "@/app/_parts/session.client";
import { useCommand } from "@/app/_parts/use-command.client";
import { Button } from "@/app/_ui/button.client";
import { Panel } from "@/app/_ui/panel";
import type { RoomView } from "@/lib/schemas/room";
import { Found } from "./found";
import styles from "./room.module.css";

interface ChangeProps {
  view: RoomView;
  onChanged: () => void;
}

/** Who takes over a running case says in one tap whether they looked. It moves no state; either answer is on record. */
export function ProviderChange({ view, onChanged }: ChangeProps) {
  const may = useMayDo("change-provider");
  const me = useSession()?.person.name;
  const change = useCommand("change-provider");
  const { row, providerChanges } = view;
  const inUse = row.occupancy.state === "in-use";
  if (!inUse && providerChanges.length === 0) return null;
  const latest = providerChanges[0]?.name ?? row.marks.provider?.name;
  const mine = latest === me;
  const say = async (confirmed: boolean) => {
    await change.send({ roomId: row.roomId, confirmed });
    onChanged();
  };
  if (providerChanges.length === 0 && !(may && inUse && !mine)) return null;
  return (
    <Panel title="Change of provider">
      <Changes view={view} />
      {may && inUse && !mine && row.workstation ? (
        <>
          <p>Taking over? This is what was found:</p>
          <Found view={view} />
          <div className={styles.buttons}>
            <Button look="primary" size="large" wide busy={change.busy} onClick={() => say(true)}>
              I take over, and I looked
            </Button>
            <Button size="large" wide busy={change.busy} onClick={() => say(false)}>
              I take over, could not look
            </Button>
          </div>
          <ProblemNotice problem={change.problem} />
        </>
      ) : null}
    </Panel>
  );
}

function Changes({ view: { providerChanges, facility } }: { view: RoomView }) {
  if (providerChanges.length === 0) return null;
  return (
    <ul>
      {providerChanges.map(({ name, confirmed, at }) => (
        <li key={`${at}${name}`}>
          {clockText(at, facility.timeZone)} {name}: {confirmed ? "confirmed" : "could not look"}
        </li>
      ))}
    </ul>
  );
}
