"use client";

import Link from "next/link";
import { useState } from "react";
import { AllowLimitForm } from "@/app/_parts/allow-limit-form.client";
import { whenText } from "@/app/_parts/format";
import type { MarkShape } from "@/app/_parts/mark-shapes";
import { MarkedWord, type Tone } from "@/app/_parts/readiness-mark";
import { ReasonForm } from "@/app/_parts/reason-form.client";
import { useMayDo, useSession } from "@/app/_parts/session.client";
import { useCommand } from "@/app/_parts/use-command.client";
import { ROLE_WORDS, rolesInWords } from "@/app/_parts/words";
import { Button } from "@/app/_ui/button.client";
import { Dialog } from "@/app/_ui/dialog.client";
import type { AllowedLimit } from "@/lib/schemas/allowances";
import styles from "./allowed.module.css";

type Standing = AllowedLimit["standing"];

/** Each standing has a word and a shape. */
const LOOK: Readonly<Record<Standing, { shape: MarkShape; tone: Tone; word: string }>> = {
  allowed: { shape: "half-seated", tone: "limit", word: "Allowed" },
  waits: { shape: "open-pins", tone: "due", word: "Waits for a second person" },
  "not-allowed": { shape: "open-pins", tone: "due", word: "Not allowed yet" },
  ended: { shape: "barred", tone: "stop", word: "Time is over: next case stopped" },
  cleared: { shape: "seated", tone: "go", word: "Cleared meanwhile" },
};

interface LimitLineProps {
  limit: AllowedLimit;
  now: string;
  zone: string;
  onChanged: () => void;
}

export function LimitLine({ limit, now, zone, onChanged }: LimitLineProps) {
  const { shape, tone, word } = LOOK[limit.standing];
  const { room, workstation } = limit;
  return (
    <li className={styles.limit}>
      <div className={styles.head}>
        {room ? (
          <Link href={`/rooms/${room.id}`} prefetch={false} className={styles.name}>
            {room.name}
          </Link>
        ) : (
          <span className={styles.name}>{workstation.tag}</span>
        )}
        <MarkedWord shape={shape} tone={tone} size={22}>
          {limit.standing === "allowed" && limit.until ? `${word} until ${whenText(limit.until, now, zone)}` : word}
        </MarkedWord>
      </div>
      <p>
        <strong>{limit.what}</strong>
        {room ? <span className={styles.soft}> · {workstation.tag}</span> : null}
      </p>
      <Terms limit={limit} />
      <Actions limit={limit} onChanged={onChanged} />
    </li>
  );
}

function Terms({ limit }: { limit: AllowedLimit }) {
  const by = limit.by.map(({ name, role }) => `${name}, ${ROLE_WORDS[role]}`).join("; ");
  return (
    <ul className={styles.terms}>
      {limit.measures ? <li>Meanwhile: {limit.measures}</li> : null}
      {by ? <li>Allowed by {by}</li> : null}
      {limit.stillNeeds.length > 0 ? <li>Still needs: {rolesInWords(limit.stillNeeds, "and")}</li> : null}
      {limit.standing === "not-allowed" ? (
        <>
          <li>To decide: {rolesInWords(limit.mayAllow, limit.mayAllow.length > 1 ? "and" : "or")}</li>
          {limit.first ? <li>First: {limit.first}</li> : null}
          {limit.differently ? <li>Then: {limit.differently}</li> : null}
        </>
      ) : null}
    </ul>
  );
}

function Actions({ limit, onChanged }: { limit: AllowedLimit; onChanged: () => void }) {
  const mayAllow = useMayDo("allow-limit");
  const mayRevoke = useMayDo("revoke-allowance");
  const [open, setOpen] = useState<"allow" | "revoke" | null>(null);
  const close = () => setOpen(null);
  const done = () => {
    close();
    onChanged();
  };
  const where = limit.room?.name ?? limit.workstation.tag;
  // Who may is the rule's own: another limit of the same command is for somebody else.
  const isMine = useSession()?.roles.some((role) => limit.mayAllow.includes(role)) ?? false;
  const toAllow = isMine && mayAllow && (limit.standing === "not-allowed" || limit.standing === "waits");
  const toRevoke = isMine && mayRevoke && (limit.standing === "allowed" || limit.standing === "waits");
  return (
    <>
      <div className={styles.buttons}>
        {toAllow ? <Button onClick={() => setOpen("allow")}>Allow it in {where}</Button> : null}
        {toRevoke ? (
          <Button look="quiet" onClick={() => setOpen("revoke")}>
            Take it back in {where}
          </Button>
        ) : null}
      </div>
      <Dialog open={open === "allow"} title={`Allow use with a limit: ${where}`} onClose={close}>
        <AllowLimitForm workstationId={limit.workstation.id} rule={limit.rule} what={limit.what} onAllowed={done} />
      </Dialog>
      <Dialog open={open === "revoke"} title={`Take back what was allowed: ${where}`} onClose={close}>
        <Revoke limit={limit} onRevoked={done} />
      </Dialog>
    </>
  );
}

function Revoke({ limit, onRevoked }: { limit: AllowedLimit; onRevoked: () => void }) {
  const revoke = useCommand("revoke-allowance");
  return (
    <ReasonForm
      label="Why it no longer holds"
      action="Take it back"
      busy={revoke.busy}
      problem={revoke.problem}
      onSubmit={async (reason) => {
        const reply = await revoke.send({ workstationId: limit.workstation.id, rule: limit.rule, reason });
        if (reply?.ok) onRevoked();
      }}
    />
  );
}
