"use client";

import { useState } from "react";
import { AllowLimitForm } from "@/app/_parts/allow-limit-form.client";
import { whenText } from "@/app/_parts/format";
import type { MarkShape } from "@/app/_parts/mark-shapes";
import { Mark, type Tone } from "@/app/_parts/readiness-mark";
import { useMayDo } from "@/app/_parts/session.client";
import tones from "@/app/_parts/tones.module.css";
import { Button } from "@/app/_ui/button.client";
import { Dialog } from "@/app/_ui/dialog.client";
import { Panel } from "@/app/_ui/panel";
import { VisuallyHidden } from "@/app/_ui/visually-hidden";
import type { Severity } from "@/lib/domain/judgement";
import type { RoomView } from "@/lib/schemas/room";
import type { Timestamp } from "@/lib/units/time";
import styles from "./room.module.css";
import { AnyOf, WayToReady } from "./way";
import why from "./why.module.css";

type Finding = RoomView["judgement"]["reasons"][number];

/** What a reason does to the room, in a word and a shape. */
const LOOKS: Record<Severity, { shape: MarkShape; tone: Tone; word: string }> = {
  out: { shape: "struck", tone: "out", word: "out of service" },
  stops: { shape: "barred", tone: "stop", word: "stops" },
  owed: { shape: "open-pins", tone: "due", word: "to check" },
  limits: { shape: "half-seated", tone: "limit", word: "limits" },
  due: { shape: "due", tone: "plain", word: "due" },
  note: { shape: "closed", tone: "soft", word: "note" },
};

interface WhyProps {
  view: RoomView;
  now: Timestamp;
  onChanged: () => void;
}

/** Why the room stands as it does: every reason with its limit's origin, and the shortest way out of it. */
export function Why({ view, now, onChanged }: WhyProps) {
  const { reasons } = view.judgement;
  const mayAllow = useMayDo("allow-limit");
  const [allowing, setAllowing] = useState<Finding | null>(null);
  const { workstation } = view.row;
  return (
    <Panel title="Why">
      {reasons.length === 0 ? <p>Nothing stands against it.</p> : null}
      <ul className={why.reasons}>
        {reasons.map((reason, index) => (
          <Reason
            clears={view.clears[index] ?? []}
            key={`${reason.rule}:${reason.subject.kind}:${reason.subject.id}:${reason.text}`}
            reason={reason}
            now={now}
            zone={view.facility.timeZone}
            onAllow={mayAllow && workstation ? setAllowing : null}
          />
        ))}
      </ul>
      <WayToReady way={view.way} />
      <Dialog open={allowing !== null} title="Use with a limit" onClose={() => setAllowing(null)}>
        {allowing && workstation ? (
          <AllowLimitForm
            workstationId={workstation.id}
            rule={allowing.rule}
            what={allowing.text}
            onAllowed={() => {
              setAllowing(null);
              onChanged();
            }}
          />
        ) : null}
      </Dialog>
    </Panel>
  );
}

interface ReasonProps {
  clears: RoomView["clears"][number];
  reason: Finding;
  now: Timestamp;
  zone: string;
  onAllow: ((reason: Finding) => void) | null;
}

function Reason({ reason, clears, now, zone, onAllow }: ReasonProps) {
  const { shape, tone, word } = LOOKS[reason.severity];
  return (
    <li className={why.reason}>
      <span className={tones[`note-${tone}`]}>
        <Mark shape={shape} size={22} />
        <VisuallyHidden>{word}: </VisuallyHidden>
      </span>
      <div className={why.reasonText}>
        <p>{reason.text}</p>
        {reason.severity === "limits" ? <Allowed reason={reason} now={now} zone={zone} onAllow={onAllow} /> : null}
        <details className={why.source}>
          <summary>What clears it, and where this comes from</summary>
          <AnyOf actions={clears} />
          <p>
            {reason.citation}. Rule “{reason.rule.replaceAll("-", " ")}”, site rules version {reason.settingsVersion}.
          </p>
        </details>
      </div>
    </li>
  );
}

function Allowed({ reason, now, zone, onAllow }: Omit<ReasonProps, "clears">) {
  if (reason.allowedUntil)
    return <p className={styles.soft}>Allowed until {whenText(reason.allowedUntil, now, zone)}</p>;
  return (
    <>
      <p className={styles.soft}>Nobody has allowed this yet.</p>
      {onAllow ? <Button onClick={() => onAllow(reason)}>Allow use with this limit</Button> : null}
    </>
  );
}
