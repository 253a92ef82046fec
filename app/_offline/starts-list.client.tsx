"use client";

import { useEffect, useState } from "react";
import { Button } from "@/app/_ui/button.client";
import { Panel } from "@/app/_ui/panel";
import type { CheckView } from "@/lib/schemas/check";
import { keptStarts } from "./kept-checks.client";

/** The workstations whose questions this device keeps: a check of theirs may begin here and now. */
export function StartsList({ facilityId, onStart }: { facilityId: string; onStart: (view: CheckView) => void }) {
  const [starts, setStarts] = useState<readonly CheckView[]>([]);
  useEffect(() => {
    keptStarts(facilityId).then(setStarts, () => setStarts([]));
  }, [facilityId]);
  if (starts.length === 0) return null;
  return (
    <Panel title="Start a check">
      {starts.map((view) => (
        <Button key={view.id} size="large" wide onClick={() => onStart(view)}>
          {view.room ? `${view.room.name} · ${view.workstation.tag}` : view.workstation.tag}
        </Button>
      ))}
    </Panel>
  );
}
