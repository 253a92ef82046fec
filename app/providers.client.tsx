"use client";

import { QueryClient, QueryClientProvider } from "@tanstack/react-query";
import { type ReactNode, useState } from "react";
import { LiveProvider } from "@/app/_live/live-provider.client";
import { OfflineKeeper } from "@/app/_offline/offline-keeper.client";
import { mayRetry, ProblemError } from "@/app/_parts/api.client";
import { SessionProvider } from "@/app/_parts/session.client";
import { SessionEnded } from "@/app/_parts/session-ended.client";
import { SignDialog } from "@/app/_parts/sign-dialog.client";
import { SignInDialog } from "@/app/_parts/sign-in-dialog.client";
import type { SessionView } from "@/lib/schemas/set-up";
import { adoptOffsets, type ZoneOffsets } from "@/lib/units/time";

/** A refusal is an answer and is not asked again; a server not reached is asked twice more. */
function shouldRetry(failures: number, error: Error): boolean {
  if (error instanceof ProblemError && !mayRetry(error.problem)) return false;
  return failures < 2;
}

function newClient(): QueryClient {
  return new QueryClient({
    defaultOptions: { queries: { staleTime: 30_000, retry: shouldRetry, refetchOnWindowFocus: true } },
  });
}

interface ProvidersProps {
  session: SessionView | null;
  /** The server's offsets of the facility's zone: this device may know others. */
  offsets: ZoneOffsets | null;
  /** The page comes from the device's own store, and not from the server. */
  cutOff?: boolean;
  children: ReactNode;
}

export function Providers({ session, offsets, cutOff = false, children }: ProvidersProps) {
  const [client] = useState(newClient);
  // Before anything below tells a time, for the first time too.
  useState(() => (offsets && typeof window !== "undefined" ? adoptOffsets(offsets) : undefined));
  return (
    <QueryClientProvider client={client}>
      <SessionProvider session={session}>
        {session ? <LiveProvider facilityId={session.facility.id}>{children}</LiveProvider> : children}
        <OfflineKeeper cutOff={cutOff} />
        <SessionEnded />
        <SignInDialog />
        <SignDialog />
      </SessionProvider>
    </QueryClientProvider>
  );
}
