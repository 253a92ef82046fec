"use client";

import { useState } from "react";
import { fieldMessage } from "@/app/_parts/api.client";
import { countText } from "@/app/_parts/format";
import { ProblemNotice } from "@/app/_parts/problem-notice";
import { useMayDo } from "@/app/_parts/session.client";
import { useCommand } from "@/app/_parts/use-command.client";
import { ROLE_WORDS } from "@/app/_parts/words";
import { Button } from "@/app/_ui/button.client";
import { TextField } from "@/app/_ui/field";
import { Notice } from "@/app/_ui/notice";
import { Panel } from "@/app/_ui/panel";
import styles from "@/app/set-up/set-up.module.css";
import type { RuleChangeView, RuleLine } from "@/lib/schemas/rules";
import { settingText } from "./words";

export interface OpenChangeProps {
  change: RuleChangeView;
  rule: RuleLine | undefined;
  /** Rooms and workstations that are judged again when it is approved. */
  toJudge: number;
  onDecided: () => void;
}

/** A change that waits for its second person, with what stands and what would. */
export function OpenChange({ change, rule, toJudge, onDecided }: OpenChangeProps) {
  const approve = useCommand("approve-rules");
  const decline = useCommand("decline-rules");
  const mayDecide = useMayDo("approve-rules");
  const [reason, setReason] = useState("");
  const approved = async () => {
    if ((await approve.send({ changeId: change.id }))?.ok) onDecided();
  };
  const declined = async () => {
    if ((await decline.send({ changeId: change.id, reason }))?.ok) onDecided();
  };
  return (
    <Panel
      title={`Proposed: ${rule?.what ?? change.rule}`}
      aside={`by ${change.proposedBy}, ${ROLE_WORDS[change.proposedRole]}`}
    >
      <p>
        Now: {settingText(change.was)}. Then: <strong>{settingText(change.setting)}</strong>.
      </p>
      <p className={styles.soft}>Because: {change.reason}</p>
      <ProblemNotice problem={approve.problem} />
      {approve.busy ? (
        <Notice
          title={`Judging ${countText(toJudge, "room and workstation", "rooms and workstations")} again …`}
          announce="status"
        />
      ) : null}
      {mayDecide ? (
        <>
          <TextField
            label={change.own ? "To take it back: why" : "To decline it: why"}
            value={reason}
            error={fieldMessage(decline.problem, "reason")}
            onChange={(event) => setReason(event.target.value)}
          />
          <div className={styles.buttons}>
            <Button
              look="primary"
              busy={approve.busy}
              disabledReason={change.own ? "You proposed it; somebody else approves it" : null}
              onClick={approved}
            >
              Approve: in force at once
            </Button>
            <Button busy={decline.busy} onClick={declined}>
              {change.own ? "Take it back" : "Decline"}
            </Button>
          </div>
        </>
      ) : null}
    </Panel>
  );
}
