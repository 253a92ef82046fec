"use client";

import { useEffect, useState } from "react";
import { ProblemNotice } from "@/app/_parts/problem-notice";
import { useCommand } from "@/app/_parts/use-command.client";
import { Button } from "@/app/_ui/button.client";
import { Notice } from "@/app/_ui/notice";

/** Why this device cannot take push messages; null when it can. */
function whyNot(pushKey: string | null): string | null {
  if (pushKey === null) return "This server has no key for push messages.";
  if (!window.isSecureContext) return "Push messages need https: ask your administrator for the secure address.";
  if (!("serviceWorker" in navigator) || !("PushManager" in window)) return "This browser takes no push messages.";
  if (Notification.permission === "denied") return "Messages of this site are blocked in the browser's settings.";
  return null;
}

/** Adds the device in hand. The browser asks its person first. */
export function PushHere({ pushKey, onChanged }: { pushKey: string | null; onChanged: () => void }) {
  const [reason, setReason] = useState<string | null | undefined>(undefined);
  const [failed, setFailed] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  const { send, problem } = useCommand("add-channel");
  useEffect(() => setReason(whyNot(pushKey)), [pushKey]);
  const add = async () => {
    setBusy(true);
    setFailed(null);
    try {
      const subscription = await subscribed(pushKey ?? "");
      const reply = await send({ kind: "push", ...subscription, label: deviceName() });
      if (reply?.ok) onChanged();
    } catch {
      setFailed("The browser did not give this device an address for messages. Nothing was added.");
    } finally {
      setBusy(false);
    }
  };
  if (reason === undefined) return null;
  if (reason !== null) return <Notice title={`No push on this device. ${reason}`} />;
  return (
    <>
      <div>
        <Button size="large" busy={busy} onClick={add}>
          Push on this device
        </Button>
      </div>
      {failed ? <Notice tone="wrong" title={failed} announce="alert" /> : null}
      <ProblemNotice problem={problem} />
    </>
  );
}

async function subscribed(pushKey: string): Promise<{ to: string; p256dh: string; auth: string }> {
  const { pushManager } = await navigator.serviceWorker.ready;
  const made = await pushManager.subscribe({ userVisibleOnly: true, applicationServerKey: pushKey });
  const { endpoint, keys } = made.toJSON();
  if (!endpoint || !keys?.p256dh || !keys.auth) throw new Error("a subscription without keys");
  return { to: endpoint, p256dh: keys.p256dh, auth: keys.auth };
}

/** Enough to tell one's own devices apart in a list. */
function deviceName(): string {
  const kind = /Android|iPhone|iPad|Windows|Macintosh|Linux/.exec(navigator.userAgent)?.[0] ?? "Device";
  return `${kind === "Macintosh" ? "Mac" : kind}, added here`;
}
