"use client";

import { useEffect } from "react";
import { useSession } from "@/app/_parts/session.client";
import { serverSaid } from "./device-clock.client";
import { keep } from "./device-store.client";
import { sender } from "./sender.client";
import { keepStarts } from "./starts.client";

/** What a page needs first comes first. */
const PAUSE_BEFORE_STARTS = 4_000;

/** On every page of a signed-in person: sends what waits, and keeps what it takes to go on without a connection. */
export function OfflineKeeper({ cutOff = false }: { cutOff?: boolean }) {
  const session = useSession();
  const personId = session?.person.id;
  const facilityId = session?.facility.id;
  useEffect(() => {
    if (!session || cutOff) return;
    serverSaid(session.at);
    keep("known", session, "session").catch(() => undefined);
  }, [session, cutOff]);
  useEffect(
    () => (personId && facilityId ? sender().start({ id: personId, facilityId }) : undefined),
    [personId, facilityId],
  );
  const checks = session?.mayDo.includes("start-check") ?? false;
  useEffect(() => {
    if (!facilityId || !checks || cutOff || !mayWork()) return;
    registerWorker();
    const timer = setTimeout(() => keepStarts(facilityId).catch(() => undefined), PAUSE_BEFORE_STARTS);
    return () => clearTimeout(timer);
  }, [facilityId, checks, cutOff]);
  return null;
}

/** A browser allows a page to work without a connection only over https or on the machine itself. */
export const mayWork = (): boolean => "serviceWorker" in navigator && window.isSecureContext;

function registerWorker(): void {
  navigator.serviceWorker.register("/service-worker.js").catch(() => undefined);
}
