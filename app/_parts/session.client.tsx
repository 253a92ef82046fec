"use client";

import { createContext, type ReactNode, useContext } from "react";
import type { SessionView } from "@/lib/schemas/set-up";
import type { CommandName } from "./command-types";

const SessionContext = createContext<SessionView | null>(null);

export function SessionProvider({ session, children }: { session: SessionView | null; children: ReactNode }) {
  return <SessionContext value={session}>{children}</SessionContext>;
}

/** Who is signed in, where, and what they may do; null on the pages before sign-in. */
export function useSession(): SessionView | null {
  return useContext(SessionContext);
}

/** The server decides; this only keeps a button from promising what the server would refuse. */
export function useMayDo(command: CommandName): boolean {
  return useContext(SessionContext)?.mayDo.includes(command) ?? false;
}
