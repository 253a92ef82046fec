"use client";

import { useEffect, useRef, useState } from "react";
import { countText } from "@/app/_parts/format";
import { ProblemNotice } from "@/app/_parts/problem-notice";
import { Said } from "@/app/_parts/said.client";
import { useMayDo, useSession } from "@/app/_parts/session.client";
import { SignedResult } from "@/app/_parts/signed-result.client";
import { useCommand } from "@/app/_parts/use-command.client";
import { Button } from "@/app/_ui/button.client";
import { Notice } from "@/app/_ui/notice";
import { Panel } from "@/app/_ui/panel";
import type { CheckView } from "@/lib/schemas/check";
import { AnswersList } from "./answers-list";
import { changesSince } from "./changes-since";
import { type CheckState, standingOf } from "./check-state";
import { MovedOn } from "./moved-on";
import styles from "./sign-view.module.css";
import type { Sending } from "./use-sender.client";

export interface SignViewProps {
  readonly state: CheckState;
  readonly sending: Sending;
  readonly onGo: (key: string) => void;
  readonly refresh: () => Promise<CheckView | null>;
  readonly onSigned: () => void;
}

/** Everything the signature covers, failures first; then the one button that gives it. */
export function SignView({ state, sending, onGo, refresh, onSigned }: SignViewProps) {
  const zone = useSession()?.facility.timeZone ?? "UTC";
  const [moved, setMoved] = useState<readonly string[] | null>(null);
  const [signed, setSigned] = useState(false);
  const { send, busy, problem } = useCommand("sign-check");
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => heading.current?.focus(), []);
  const rows = state.view.items.map((item) => ({ item, standing: standingOf(state, item) }));
  const failing = rows.filter(({ standing }) => standing.state === "failing");
  const open = rows.filter(({ standing }) => standing.answer === null);
  const rest = rows.filter(({ standing }) => standing.answer !== null && standing.state !== "failing");
  const change = (item: { key: string; title: string }) => (
    <Button look="quiet" aria-label={`Go to ${item.title}`} onClick={() => onGo(item.key)}>
      {open.some((row) => row.item.key === item.key) ? "Answer" : "Change"}
    </Button>
  );
  const sign = async () => {
    setMoved(null);
    const seen = state.view;
    const reply = await send({ checkId: seen.id, seenVersion: seen.version });
    if (reply?.ok) {
      setSigned(true);
      onSigned();
    }
    if (reply?.ok === false && reply.problem.status === 409) {
      const now = await refresh();
      if (now) setMoved(changesSince(seen, now));
    }
  };

  const earlier = state.view.signatures.find(({ meaning }) => meaning === "performed");
  if (earlier && !signed) {
    return (
      <Notice tone="heed" title={`Signed already by ${earlier.name}`} announce="status">
        <p>
          Answers given after that belong to a recheck. <a href={`/checks/${state.view.id}`}>See the signed check</a>
        </p>
      </Notice>
    );
  }
  if (signed) return <SignedResult words="Signed: performed" room={state.view.room} />;
  return (
    <section className={styles.view} aria-labelledby="review">
      <h2 id="review" ref={heading} tabIndex={-1} className={styles.title}>
        Review and sign
      </h2>
      {failing.length > 0 ? (
        <Panel title={`${countText(failing.length, "item")} failing`} aside="they count already">
          <AnswersList rows={failing} zone={zone} action={change} />
        </Panel>
      ) : null}
      {open.length > 0 ? (
        <Panel
          title={`${countText(open.length, "item")} not answered`}
          aside={<Said>the room stays to check until they are</Said>}
        >
          <AnswersList rows={open} zone={zone} action={change} />
        </Panel>
      ) : null}
      {rest.length > 0 ? (
        <Panel title={countText(rest.length, "answer")} aside="in the procedure’s order">
          <AnswersList rows={rest} zone={zone} action={change} />
        </Panel>
      ) : null}
      {open.length > 0 ? (
        <Notice tone="heed" title="This check is not complete">
          <p>
            <Said>You may sign what you did; the room is ready only when every item owed is answered and signed.</Said>
          </p>
        </Notice>
      ) : null}
      {moved ? <MovedOn changes={moved} /> : <ProblemNotice problem={problem} />}
      <SignButton
        state={state}
        sending={sending}
        failing={failing.length}
        open={open.length}
        busy={busy}
        onSign={sign}
      />
    </section>
  );
}

interface SignButtonProps {
  state: CheckState;
  sending: Sending;
  failing: number;
  open: number;
  busy: boolean;
  onSign: () => void;
}

function SignButton({ state, sending, failing, open, busy, onSign }: SignButtonProps) {
  const name = useSession()?.person.name ?? "";
  const mayDo = useMayDo("sign-check");
  const answered = state.view.items.length - open;
  const reason = !mayDo
    ? "Your roles do not include signing a check."
    : answered === 0
      ? "Nothing is answered yet."
      : sending === "no-signal"
        ? "No connection. Your answers are kept and count as recorded, not as signed. Sign here when the connection is back."
        : sending !== "idle"
          ? "The last answers are still on their way. A signature covers only what the server has."
          : null;
  return (
    <div className={styles.sign}>
      <p>
        I performed this check. My signature covers the {countText(answered, "answer")} above
        {failing > 0 ? `, ${failing} of them failing` : ""}
        {open > 0 ? `; ${countText(open, "item")} left open` : ""}.
      </p>
      <Button look="primary" size="large" wide busy={busy} disabledReason={reason} onClick={onSign}>
        Sign as performed: {name}
      </Button>
    </div>
  );
}
