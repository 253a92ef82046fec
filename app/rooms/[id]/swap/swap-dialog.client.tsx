"use client";

import { useQuery } from "@tanstack/react-query";
import { useState } from "react";
import { viewOrThrow } from "@/app/_parts/api.client";
import styles from "@/app/_parts/plates.module.css";
import { Button } from "@/app/_ui/button.client";
import { Dialog } from "@/app/_ui/dialog.client";
import { Notice } from "@/app/_ui/notice";
import type { SparesView } from "@/lib/schemas/moves";
import type { RoomView } from "@/lib/schemas/room";
import { ExchangeForm } from "./exchange-form.client";
import { SwapDone, type Swapped } from "./swap-done";
import { SwapForm } from "./swap-form.client";

export interface SwapDialogProps {
  open: boolean;
  view: RoomView;
  onClose: () => void;
  onChanged: () => void;
}

/** Another workstation for this room: the nearest checked spare first, or that of another room. */
export function SwapDialog({ open, view, onClose, onChanged }: SwapDialogProps) {
  const [swapped, setSwapped] = useState<Swapped | null>(null);
  const { name, workstation } = view.row;
  const close = () => {
    setSwapped(null);
    onClose();
  };
  const title = swapped
    ? `${swapped.incomingTag} is in ${name}`
    : workstation
      ? `Swap ${workstation.tag} out of ${name}`
      : `Bring a workstation into ${name}`;
  return (
    <Dialog open={open} title={title} onClose={close}>
      {swapped ? (
        <SwapDone swapped={swapped} onClose={close} />
      ) : (
        <SwapChoice
          view={view}
          onSwapped={(done) => {
            setSwapped(done);
            onChanged();
          }}
        />
      )}
    </Dialog>
  );
}

function SwapChoice({ view, onSwapped }: { view: RoomView; onSwapped: (swapped: Swapped) => void }) {
  const [exchanging, setExchanging] = useState(false);
  const { roomId, workstation } = view.row;
  const { data, error, refetch } = useQuery({
    queryKey: ["spares", roomId],
    queryFn: () => viewOrThrow<SparesView>(`/api/v1/rooms/${roomId}/spares`),
    staleTime: 0,
    gcTime: 0,
  });
  if (exchanging) return <ExchangeForm view={view} onSwapped={onSwapped} onBack={() => setExchanging(false)} />;
  if (error && !data) {
    return (
      <>
        <Notice tone="wrong" title="The spares could not be read" announce="alert">
          <p>{error.message}</p>
        </Notice>
        <Button size="large" onClick={() => void refetch()}>
          Try again
        </Button>
      </>
    );
  }
  if (!data) return <Looking />;
  return (
    <>
      <SwapForm spares={data} onSwapped={onSwapped} onRefused={() => void refetch()} />
      {workstation ? (
        <Button look="quiet" onClick={() => setExchanging(true)}>
          Exchange with another room instead
        </Button>
      ) : null}
    </>
  );
}

/** As tall as what comes, so that no button moves under a thumb. */
function Looking() {
  return (
    <div className={styles.looking} role="status">
      <p>Looking for the nearest checked spare …</p>
      <div className={styles.bone} />
      <div className={styles.bone} />
      <div className={styles.boneButton} />
    </div>
  );
}
