"use client";

import Link from "next/link";
import { useState } from "react";
import { fetchView } from "@/app/_parts/api.client";
import { countText, whenText } from "@/app/_parts/format";
import { ProblemNotice } from "@/app/_parts/problem-notice";
import { useSay } from "@/app/_parts/say.client";
import { useMayDo, useSession } from "@/app/_parts/session.client";
import { SignedResult } from "@/app/_parts/signed-result.client";
import { useCommand } from "@/app/_parts/use-command.client";
import { CHECK_KIND_WORDS, ROLE_WORDS } from "@/app/_parts/words";
import { Button } from "@/app/_ui/button.client";
import { Notice } from "@/app/_ui/notice";
import { Page, PageHeading } from "@/app/_ui/page";
import { Panel } from "@/app/_ui/panel";
import type { CheckView } from "@/lib/schemas/check";
import { AnswersList } from "./answers-list";
import { changesSince } from "./changes-since";
import { standingOf, startState } from "./check-state";
import { MovedOn } from "./moved-on";
import { SHORTENED } from "./procedure-line";
import styles from "./sign-view.module.css";
import { WrongWorkstation } from "./wrong-workstation.client";

const subOf = ({ workstation, procedure, shortened }: CheckView): string =>
  [
    workstation.tag,
    workstation.model,
    procedure ? `${procedure.name}, version ${procedure.version}` : null,
    shortened ? SHORTENED : null,
  ]
    .filter(Boolean)
    .join(" · ");

/** A signed check: what was found, failures first, who signed; and for a provider the second mark in one tap. */
export function SignedCheck({ check }: { check: CheckView }) {
  const session = useSession();
  const say = useSay();
  const zone = session?.facility.timeZone ?? "UTC";
  const [view, setView] = useState(check);
  const [moved, setMoved] = useState<readonly string[] | null>(null);
  const [confirmed, setConfirmed] = useState(false);
  const mayConfirm = useMayDo("confirm-check");
  const { send, busy, problem } = useCommand("confirm-check");
  const confirm = async () => {
    setMoved(null);
    const reply = await send({ checkId: view.id, seenVersion: view.version });
    if (reply?.ok) setConfirmed(true);
    if (reply?.ok !== false || reply.problem.status !== 409) return;
    const now = await fetchView<CheckView>(`/api/v1/checks/${view.id}`);
    if (!now.ok) return;
    setMoved(changesSince(view, now.value));
    setView(now.value);
  };
  const place = view.room?.name ?? view.workstation.tag;
  return (
    <Page narrow>
      <PageHeading title={`${place}: ${say(CHECK_KIND_WORDS[view.kind])}`} sub={subOf(view)} />
      <div>
        <WrongWorkstation view={view} />
      </div>
      {confirmed ? (
        <SignedResult words="Confirmed: provider’s check" room={view.room} />
      ) : (
        <>
          <Panel title="Signed">
            {view.signatures.length === 0 ? (
              <p>
                Not yet. {view.startedBy} is on it, since {whenText(view.startedAt, view.at, zone)}.
              </p>
            ) : null}
            <ul className={styles.marks}>
              {view.signatures.map(({ name, role, meaning, at }) => (
                <li key={`${meaning}${at}`}>
                  <strong>{name}</strong>, {ROLE_WORDS[role]}: {meaning} {whenText(at, view.at, zone)}
                </li>
              ))}
            </ul>
          </Panel>
          <FoundPanels view={view} zone={zone} />
          {moved ? <MovedOn changes={moved} /> : <ProblemNotice problem={problem} />}
          {mayConfirm && owesConfirmation(view) ? (
            <div className={styles.sign}>
              <p>I have seen what was found and confirm this workstation for use as the provider.</p>
              <Button look="primary" size="large" wide busy={busy} onClick={confirm}>
                Confirm as provider: {session?.person.name}
              </Button>
            </div>
          ) : null}
        </>
      )}
      {view.room ? <Link href={`/rooms/${view.room.id}`}>To {view.room.name}</Link> : null}
    </Page>
  );
}

/** A provider who performed the check has looked already; one confirmation is enough. */
function owesConfirmation({ signatures }: CheckView): boolean {
  if (signatures.length === 0) return false;
  const byProvider = signatures.some(
    ({ meaning, role }) => meaning === "performed" && (role === "provider" || role === "charge-provider"),
  );
  return !byProvider && !signatures.some(({ meaning }) => meaning === "confirmed");
}

function FoundPanels({ view, zone }: { view: CheckView; zone: string }) {
  const state = startState(view);
  const rows = view.items.map((item) => ({ item, standing: standingOf(state, item) }));
  const failing = rows.filter(({ standing }) => standing.state === "failing");
  const open = rows.filter(({ standing }) => standing.answer === null);
  const rest = rows.filter(({ standing }) => standing.answer !== null && standing.state !== "failing");
  return (
    <>
      {failing.length > 0 ? (
        <Panel title={`${countText(failing.length, "item")} failing`}>
          <AnswersList rows={failing} zone={zone} />
        </Panel>
      ) : (
        <Notice tone="done" title="Nothing failed" />
      )}
      {open.length > 0 ? (
        <Panel
          title={`${countText(open.length, "item")} not answered in this check`}
          aside="asked here now; the part may have been fitted since"
        >
          <AnswersList rows={open} zone={zone} />
        </Panel>
      ) : null}
      <Panel title={`${countText(rest.length, "answer")} in order`}>
        <AnswersList rows={rest} zone={zone} />
      </Panel>
    </>
  );
}
