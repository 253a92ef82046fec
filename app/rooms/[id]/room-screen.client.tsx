"use client";

import { useQuery } from "@tanstack/react-query";
import { useState } from "react";
import { useLive, useOnChange } from "@/app/_live/use-live.client";
import { useServerNow } from "@/app/_live/use-server-now.client";
import { viewOrThrow } from "@/app/_parts/api.client";
import { NotLive } from "@/app/_parts/not-live";
import { classNames } from "@/app/_ui/class-names";
import { Page } from "@/app/_ui/page";
import type { RoomView } from "@/lib/schemas/room";
import { instant, instantOf, timestampOf } from "@/lib/units/time";
import { Faults } from "./faults.client";
import { Fitted } from "./fitted";
import { GasPath } from "./gas-path.client";
import { OtherChecks } from "./other-checks.client";
import { ProviderChange } from "./provider-change.client";
import { mayStart, ProviderConfirm } from "./provider-confirm.client";
import { ReserveOxygen } from "./reserve-oxygen";
import styles from "./room.module.css";
import { RoomActions } from "./room-actions.client";
import { RoomHead } from "./room-head";
import { SwapDialog } from "./swap/swap-dialog.client";
import { Tasks } from "./tasks.client";
import { Why } from "./why.client";

/** One room: how it stands, why, what clears it, and what may be done here. */
export function RoomScreen({ initial }: { initial: RoomView }) {
  const { roomId, workstation } = initial.row;
  const { data: view, refetch } = useQuery({
    queryKey: ["room", roomId],
    queryFn: () => viewOrThrow<RoomView>(`/api/v1/rooms/${roomId}`),
    initialData: initial,
  });
  useOnChange(workstation ? [roomId, workstation.id] : [roomId], () => void refetch());
  const [swapping, setSwapping] = useState(false);
  const live = useLive();
  const ends = view.row.goodUntil === null ? [] : [instantOf(view.row.goodUntil)];
  const now = instant(useServerNow(instantOf(view.at), ends));
  const overtaken = ends.some((end) => end <= now);
  const changed = () => void refetch();
  const confirmFirst = mayStart(view);
  const known = live.state === "live";
  const current = known && !overtaken;
  return (
    <Page>
      {known ? null : <NotLive since={instant(live.since)} readAt={view.at} zone={view.facility.timeZone} />}
      <RoomHead view={view} lastKnown={current ? null : view.at} onSwap={() => setSwapping(true)} onChanged={changed} />
      <div className={classNames(styles.layout, !current && styles.lastKnown)}>
        <div className={styles.side}>
          <ProviderChange view={view} onChanged={changed} />
          {confirmFirst ? <ProviderConfirm view={view} onChanged={changed} /> : null}
          <Why view={view} now={timestampOf(now)} onChanged={changed} />
          <Faults view={view} now={timestampOf(now)} onChanged={changed} />
          <Tasks view={view} now={timestampOf(now)} onChanged={changed} />
          <OtherChecks view={view} onChanged={changed} />
          {confirmFirst ? null : <ProviderConfirm view={view} onChanged={changed} />}
          <div className={styles.screenOnly}>
            <RoomActions view={view} onSwap={() => setSwapping(true)} onChanged={changed} />
          </div>
        </div>
        <div className={styles.main}>
          <GasPath view={view} now={timestampOf(now)} onChanged={changed} />
          <ReserveOxygen view={view} />
          <Fitted view={view} />
        </div>
      </div>
      <SwapDialog open={swapping} view={view} onClose={() => setSwapping(false)} onChanged={changed} />
    </Page>
  );
}
