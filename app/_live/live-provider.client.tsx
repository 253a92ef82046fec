"use client";

import { useQueryClient } from "@tanstack/react-query";
import { createContext, type ReactNode, useContext, useEffect, useState } from "react";
import { BoardKeeper } from "./board-keeper.client";
import { LiveStore } from "./live-store.client";

interface Live {
  readonly store: LiveStore;
  readonly keeper: BoardKeeper;
}

const LiveContext = createContext<Live | null>(null);

/** Keeps this tab live for one facility. Stands inside the QueryClientProvider, around every page of a signed-in person. */
export function LiveProvider({ facilityId, children }: { facilityId: string; children: ReactNode }) {
  return (
    <FacilityLive key={facilityId} facilityId={facilityId}>
      {children}
    </FacilityLive>
  );
}

function FacilityLive({ facilityId, children }: { facilityId: string; children: ReactNode }) {
  const queries = useQueryClient();
  const [live] = useState<Live>(() => {
    const store = new LiveStore(facilityId);
    return { store, keeper: new BoardKeeper(store, queries, facilityId) };
  });
  useEffect(() => {
    live.store.start();
    const stopKeeping = live.keeper.start();
    return () => {
      stopKeeping();
      live.store.stop();
    };
  }, [live]);
  return <LiveContext value={live}>{children}</LiveContext>;
}

export function useLiveContext(): Live {
  const live = useContext(LiveContext);
  if (!live) throw new Error("live hooks work inside <LiveProvider> only");
  return live;
}
