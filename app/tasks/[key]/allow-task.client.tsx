"use client";

import { useState } from "react";
import { AllowLimitForm } from "@/app/_parts/allow-limit-form.client";
import { useMayDo } from "@/app/_parts/session.client";
import { SignedResult } from "@/app/_parts/signed-result.client";
import { rolesInWords } from "@/app/_parts/words";
import { Notice } from "@/app/_ui/notice";
import { Panel } from "@/app/_ui/panel";
import type { TaskView } from "@/lib/schemas/task";

export interface AllowTaskProps {
  readonly task: TaskView;
  readonly workstationId: string;
  readonly onFinished: () => void;
}

/** A limit that nobody has allowed yet: whoever may decides here for how long, and what is done meanwhile. */
export function AllowTask({ task, workstationId, onFinished }: AllowTaskProps) {
  const mayAllow = useMayDo("allow-limit");
  const [allowed, setAllowed] = useState(false);
  if (allowed) return <SignedResult words="Allowed with this limit" room={task.room} />;
  if (!mayAllow) return <Notice title={`For ${rolesInWords(task.mayDo)} to decide`} />;
  return (
    <Panel title="Allow use with this limit">
      <AllowLimitForm
        workstationId={workstationId}
        rule={ruleOf(task.key)}
        what={task.why}
        onAllowed={() => {
          setAllowed(true);
          onFinished();
        }}
      />
    </Panel>
  );
}

/** The key of such a task reads allow:<rule>:<subject kind>:<subject id>. */
const ruleOf = (key: string): string => key.split(":")[1] ?? "";
