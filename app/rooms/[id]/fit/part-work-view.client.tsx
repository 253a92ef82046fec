"use client";

import { useQuery } from "@tanstack/react-query";
import { viewOrThrow } from "@/app/_parts/api.client";
import type { FitDone } from "@/app/_parts/fit/fit-done";
import { FitForm } from "@/app/_parts/fit/fit-form.client";
import type { PartWork } from "@/app/_parts/fit/part-work";
import styles from "@/app/_parts/plates.module.css";
import { SwapCylinderForm } from "@/app/_parts/swap-cylinder/swap-cylinder-form.client";
import { Button } from "@/app/_ui/button.client";
import { Notice } from "@/app/_ui/notice";
import type { SparePartsView } from "@/lib/schemas/moves";
import type { RoomView } from "@/lib/schemas/room";
import { fitPlace } from "./fit-place";
import { RemoveForm } from "./remove-form.client";

interface WorkViewProps {
  work: PartWork;
  view: RoomView;
  onDone: (done: FitDone) => void;
}

/** The form of one piece of work, once it is known what could go on. */
export function PartWorkView({ work, view, onDone }: WorkViewProps) {
  const { roomId } = view.row;
  const { data, error, refetch } = useQuery({
    queryKey: ["spare-parts", roomId],
    queryFn: () => viewOrThrow<SparePartsView>(`/api/v1/rooms/${roomId}/spare-parts`),
    staleTime: 0,
    gcTime: 0,
  });
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
  if (!data) {
    return (
      <div className={styles.looking} role="status">
        <p>Looking what is in store …</p>
        <div className={styles.bone} />
        <div className={styles.boneButton} />
      </div>
    );
  }
  const again = () => void refetch();
  if (work.kind === "remove") {
    return <RemoveForm work={work} view={view} parts={data} onDone={onDone} onRefused={again} />;
  }
  if (work.kind !== "cylinder") {
    return <FitForm work={work} place={fitPlace(work, view)} parts={data} onDone={onDone} onRefused={again} />;
  }
  const yoke = data.yokes.find(({ position }) => position === work.position);
  if (!yoke) return <Notice tone="heed" title="This workstation has no such yoke by now." />;
  return (
    <SwapCylinderForm
      workstationId={data.workstationId}
      swap={yoke}
      onSwapped={(serial, owes) =>
        onDone({
          fitted: serial,
          takenOff: yoke.fitted?.serial ?? null,
          place: `on yoke ${yoke.position}`,
          recheckTaskKey: owes,
        })
      }
    />
  );
}
