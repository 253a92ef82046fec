"use client";

import { useRouter } from "next/navigation";
import { useState } from "react";
import { dayText, whenText } from "@/app/_parts/format";
import { ProblemNotice } from "@/app/_parts/problem-notice";
import { useSession } from "@/app/_parts/session.client";
import { useCommand } from "@/app/_parts/use-command.client";
import { Button } from "@/app/_ui/button.client";
import { SelectField } from "@/app/_ui/field";
import { FormActions } from "@/app/_ui/form";
import { LinkButton } from "@/app/_ui/link-button";
import { Panel } from "@/app/_ui/panel";
import { Manager } from "@/app/set-up/manager.client";
import styles from "@/app/set-up/set-up.module.css";
import { useView } from "@/app/set-up/use-view.client";
import type { ProceduresView } from "@/lib/schemas/procedure";
import { dateIn, instantOf } from "@/lib/units/time";
import own from "./procedures.module.css";
import { BY_WORDS, KIND_WORDS } from "./words";

type OfKind = ProceduresView["kinds"][number];

export function ProceduresManager({ initial }: { initial: ProceduresView }) {
  const { view: kept } = useView("/api/v1/set-up/procedures", initial);
  // What was kept was read before a draft was begun, decided on or dropped elsewhere.
  const view = instantOf(initial.at) > instantOf(kept.at) ? initial : kept;
  const proposed = view.kinds.filter(({ draft }) => draft?.state === "proposed").length;
  const sub =
    proposed === 0
      ? "Written by one, approved by another, in force from a check day"
      : `${proposed} ${proposed === 1 ? "waits" : "wait"} for a second person`;
  return (
    <Manager title="Procedures" sub={sub}>
      {view.kinds.map((kind) => (
        <KindPanel key={kind.kind} of={kind} now={view.at} />
      ))}
    </Manager>
  );
}

/** What is in force, what waits, and the way to the next version. */
function KindPanel({ of, now }: { of: OfKind; now: string }) {
  const zone = useSession()?.facility.timeZone ?? "UTC";
  const { name, when } = KIND_WORDS[of.kind];
  const { inForce, waiting, draft } = of;
  return (
    <Panel title={name} aside={when}>
      {inForce ? (
        <VersionLines version={inForce} since={dayText(dateIn(zone, instantOf(inForce.inForceFrom)))} />
      ) : (
        <p>None is in force.</p>
      )}
      {waiting ? (
        <p className={styles.soft}>
          Version {waiting.version}, {waiting.name}, is in force from {whenText(waiting.inForceFrom, now, zone)}.
        </p>
      ) : null}
      {draft ? (
        <>
          <p>
            {draft.state === "proposed"
              ? `Proposed by ${draft.proposedBy} for ${draft.inForceOn ? dayText(draft.inForceOn) : "a day"}: ${draft.reason}`
              : `In writing: ${draft.text.items.length} items, saved by ${draft.savedBy} ${whenText(draft.savedAt, now, zone)}`}
          </p>
          <div>
            <LinkButton href={`/set-up/procedures/${of.kind}`} look="primary" size="large">
              {draft.state === "proposed" ? "Read and decide" : "Go on writing"}
            </LinkButton>
          </div>
        </>
      ) : (
        <BeginDraft of={of} />
      )}
    </Panel>
  );
}

function VersionLines({ version, since }: { version: NonNullable<OfKind["inForce"]>; since: string }) {
  return (
    <>
      <p>
        <strong>{version.name}</strong>, version {version.version}, in force since {since}
      </p>
      <p className={styles.soft}>{version.citation}</p>
      <details className={own.more}>
        <summary>{version.items.length} items, in their order</summary>
        <ol>
          {version.items.map(({ item, title, by }) => (
            // One item may stand twice, in the two schemes' words.
            <li key={`${item} ${title} ${by}`}>
              {title} <span className={styles.soft}>{BY_WORDS[by]}</span>
            </li>
          ))}
        </ol>
      </details>
    </>
  );
}

const FROM_FORCE = "";

function BeginDraft({ of }: { of: OfKind }) {
  const router = useRouter();
  const [from, setFrom] = useState(FROM_FORCE);
  const { send, busy, problem } = useCommand("draft-procedure");
  const begin = async () => {
    const reply = await send({ kind: of.kind, from: from === FROM_FORCE ? null : from });
    if (reply?.ok) router.push(`/set-up/procedures/${of.kind}`);
  };
  return (
    <>
      <SelectField label="The next version begins from" value={from} onChange={({ target }) => setFrom(target.value)}>
        <option value={FROM_FORCE}>{of.inForce ? "the newest version" : "an empty list"}</option>
        {of.readyMade.map(({ id, name, items }) => (
          <option key={id} value={id}>
            {name}, {items} items
          </option>
        ))}
      </SelectField>
      <ProblemNotice problem={problem} />
      <FormActions>
        <Button busy={busy} size="large" onClick={begin}>
          Write the next version
        </Button>
      </FormActions>
    </>
  );
}
