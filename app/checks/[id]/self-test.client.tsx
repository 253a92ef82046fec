"use client";

import { clockText } from "@/app/_parts/format";
import { ProblemNotice } from "@/app/_parts/problem-notice";
import { Said } from "@/app/_parts/said.client";
import { useMayDo } from "@/app/_parts/session.client";
import { useCommand } from "@/app/_parts/use-command.client";
import { Button } from "@/app/_ui/button.client";
import { Notice } from "@/app/_ui/notice";

interface SelfTestProps {
  checkId: string;
  since: string | null;
  zone: string;
  /** It runs by itself now: on to what can be looked at meanwhile. */
  onStarted: () => void;
}

/** The workstation's own test runs for minutes. Its start is recorded, so that whoever comes back knows since when. */
export function SelfTest({ checkId, since, zone, onStarted }: SelfTestProps) {
  const start = useCommand("start-self-test");
  const may = useMayDo("start-self-test");
  if (since !== null) {
    return (
      <Notice title={`Self-test running since ${clockText(since, zone)}`} announce="status">
        <p>
          <Said>
            Record its result here when it has ended. Until then go on with the other items, or with another room.
          </Said>
        </p>
      </Notice>
    );
  }
  if (!may) return null;
  const run = async () => {
    const reply = await start.send({ checkId });
    if (reply?.ok) onStarted();
  };
  return (
    <>
      <Button look="primary" size="large" wide busy={start.busy} onClick={run}>
        Self-test started: go on meanwhile
      </Button>
      <ProblemNotice problem={start.problem} />
    </>
  );
}
