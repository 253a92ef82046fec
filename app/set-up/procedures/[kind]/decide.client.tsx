"use client";

import { useRouter } from "next/navigation";
import { dayText } from "@/app/_parts/format";
import { ProblemNotice } from "@/app/_parts/problem-notice";
import { ReasonForm } from "@/app/_parts/reason-form.client";
import { useCommand } from "@/app/_parts/use-command.client";
import { Button } from "@/app/_ui/button.client";
import { Notice } from "@/app/_ui/notice";
import { Panel } from "@/app/_ui/panel";
import own from "@/app/set-up/procedures/procedures.module.css";
import { itemFacts } from "@/app/set-up/procedures/words";
import styles from "@/app/set-up/set-up.module.css";
import type { DraftView } from "@/lib/schemas/procedure";

interface DecideProps {
  readonly draft: DraftView;
  readonly onDone: () => void;
}

/** The whole text, and then the two answers there are. Whoever wrote in it takes it back or waits. */
export function Decide({ draft, onDone }: DecideProps) {
  const router = useRouter();
  const approve = useCommand("approve-procedure");
  const decline = useCommand("decline-procedure");
  const accept = async () => {
    const reply = await approve.send({ draftId: draft.id, revision: draft.revision });
    if (reply?.ok) router.push("/set-up/procedures");
  };
  const sendBack = async (reason: string) => {
    const reply = await decline.send({ draftId: draft.id, reason });
    if (reply?.ok) onDone();
  };
  return (
    <>
      <Panel title={draft.text.name} aside={`from ${draft.inForceOn ? dayText(draft.inForceOn) : "a day"}`}>
        <p>{draft.reason}</p>
        <p className={styles.soft}>{draft.text.citation}</p>
        <ol className={own.items}>
          {draft.text.items.map((one) => (
            <li key={`${one.item} ${JSON.stringify(one.applies)}`}>
              <details>
                <summary>{one.title}</summary>
                <p>{one.how}</p>
                <p>{one.why}</p>
                <p>When it fails: {one.whenItFails}</p>
                <p className={styles.soft}>{itemFacts(one).join(" · ")}</p>
              </details>
            </li>
          ))}
        </ol>
      </Panel>
      {draft.own ? (
        <Notice title="You wrote in it: somebody else approves it" />
      ) : (
        <Panel title="Approve" aside="this signs it">
          <ProblemNotice problem={approve.problem} />
          <div>
            <Button look="primary" size="large" busy={approve.busy} onClick={accept}>
              Approve and sign
            </Button>
          </div>
        </Panel>
      )}
      <Panel title={draft.own ? "Take it back" : "Send it back"} aside="the text goes back to writing, whole">
        <ReasonForm
          label="Why?"
          action={draft.own ? "Take back" : "Decline"}
          look="plain"
          busy={decline.busy}
          problem={decline.problem}
          onSubmit={sendBack}
        />
      </Panel>
    </>
  );
}
