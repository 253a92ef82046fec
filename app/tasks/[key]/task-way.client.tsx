"use client";

import { useRouter } from "next/navigation";
import { useState } from "react";
import type { CommandName } from "@/app/_parts/command-types";
import { type FitDone, FitDoneNotice } from "@/app/_parts/fit/fit-done";
import { FitForm } from "@/app/_parts/fit/fit-form.client";
import { whenText } from "@/app/_parts/format";
import { LiftHoldForm } from "@/app/_parts/lift-hold-form.client";
import { LookAtFaultForm } from "@/app/_parts/look-at-fault-form.client";
import { useMayDo, useSession } from "@/app/_parts/session.client";
import { SignedResult } from "@/app/_parts/signed-result.client";
import { rolesInWords } from "@/app/_parts/words";
import { Notice } from "@/app/_ui/notice";
import { Panel } from "@/app/_ui/panel";
import type { TaskDetail } from "@/lib/schemas/task";
import { dateIn, instantOf } from "@/lib/units/time";
import styles from "./task-page.module.css";

type Way = TaskDetail["way"];
type WayOf<Kind extends Way["kind"]> = Extract<Way, { kind: Kind }>;

interface WayProps<Kind extends Way["kind"]> {
  readonly detail: TaskDetail;
  readonly way: WayOf<Kind>;
  readonly workstationId: string;
  readonly onFinished: () => void;
}

/** A form for who may use it, and for everybody else whose it is. */
function useRefusal(command: CommandName, { task }: TaskDetail) {
  return useMayDo(command) ? null : <Notice title={`For ${rolesInWords(task.mayDo)} to do`} />;
}

/** The report as it was made, and what came of looking. */
export function FaultTask({ detail, way: { fault }, workstationId, onFinished }: WayProps<"look-at-fault">) {
  const zone = useSession()?.facility.timeZone ?? "UTC";
  const refusal = useRefusal("look-at-fault", detail);
  const [done, setDone] = useState(false);
  if (done) return <SignedResult words="Looked at" room={detail.task.room} />;
  const finish = () => {
    setDone(true);
    onFinished();
  };
  return (
    <Panel title={`Reported by ${fault.name}`} aside={whenText(fault.at, detail.at, zone)}>
      <p>“{fault.text}”</p>
      {refusal ?? (
        <>
          <p className={styles.soft}>If it is still not right, hold the workstation on the room’s page instead.</p>
          <LookAtFaultForm fault={fault} workstationId={workstationId} onDone={finish} />
        </>
      )}
    </Panel>
  );
}

export function HoldTask({ detail, way: { hold }, workstationId, onFinished }: WayProps<"lift-hold">) {
  const zone = useSession()?.facility.timeZone ?? "UTC";
  const refusal = useRefusal("lift-hold", detail);
  const [done, setDone] = useState(false);
  if (done) return <SignedResult words="The hold is lifted" room={detail.task.room} />;
  const finish = () => {
    setDone(true);
    onFinished();
  };
  return (
    <Panel title={`Held by ${hold.name}`} aside={whenText(hold.since, detail.at, zone)}>
      <p>“{hold.reason}”</p>
      {refusal ?? <LiftHoldForm holdId={hold.id} workstationId={workstationId} onDone={finish} />}
    </Panel>
  );
}

const FITTED = { absorbent: "New charge fitted", "oxygen-sensor": "New sensor fitted" } as const;

/** Another part goes on; what the change then owes is one tap further. */
export function FitTask({ detail, way, onFinished }: Omit<WayProps<"fit-part">, "workstationId">) {
  const router = useRouter();
  const zone = useSession()?.facility.timeZone ?? "UTC";
  const refusal = useRefusal("fit-part", detail);
  const [done, setDone] = useState<FitDone | null>(null);
  if (done) {
    return (
      <SignedResult words={FITTED[way.part]} room={detail.task.room}>
        <FitDoneNotice done={done} />
      </SignedResult>
    );
  }
  const { part: kind, position, takesOff, product, asked, spares } = way;
  const today = dateIn(zone, instantOf(detail.at));
  const finish = (fitted: FitDone) => {
    setDone(fitted);
    onFinished();
  };
  return (
    refusal ?? (
      <FitForm
        work={{ kind, position, takesOff, goesOn: null }}
        place={{ product, today, asked }}
        parts={spares}
        onDone={finish}
        onRefused={() => router.refresh()}
      />
    )
  );
}
