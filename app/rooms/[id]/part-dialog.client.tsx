"use client";

import Link from "next/link";
import { useState } from "react";
import { type FitDone, FitDoneView } from "@/app/_parts/fit/fit-done";
import { useMayDo } from "@/app/_parts/session.client";
import { Button } from "@/app/_ui/button.client";
import { DefinitionList } from "@/app/_ui/definition-list";
import { Dialog } from "@/app/_ui/dialog.client";
import type { RoomView } from "@/lib/schemas/room";
import type { Timestamp } from "@/lib/units/time";
import { PartWorkView } from "./fit/part-work-view.client";
import { type OfferedWork, worksAt } from "./fit/works-at";
import type { PathNode } from "./gas-path-nodes";
import { datesAt } from "./part-dates";
import { PartRecords } from "./part-record";
import styles from "./room.module.css";

interface PartDialogProps {
  node: PathNode | null;
  view: RoomView;
  now: Timestamp;
  onClose: () => void;
  onChanged: () => void;
}

/** One place of the gas path: what may be done there, and its records. */
export function PartDialog({ node, view, now, onClose, onChanged }: PartDialogProps) {
  const [doing, setDoing] = useState<OfferedWork | null>(null);
  const [done, setDone] = useState<FitDone | null>(null);
  const close = () => {
    setDoing(null);
    setDone(null);
    onClose();
  };
  const title = doing?.title ?? (node ? placeTitle(node, view) : "");
  return (
    <Dialog open={node !== null} title={title} onClose={close}>
      {node && done ? <FitDoneView done={done} roomName={view.row.name} onClose={close} /> : null}
      {node && doing && !done ? (
        <>
          <PartWorkView
            work={doing.work}
            view={view}
            onDone={(what) => {
              setDone(what);
              onChanged();
            }}
          />
          <Button look="quiet" onClick={() => setDoing(null)}>
            Back to the records
          </Button>
        </>
      ) : null}
      {node && !doing ? (
        <>
          <Works node={node} view={view} onChoose={setDoing} />
          {node.parts.length === 0 ? <p>{node.value}</p> : null}
          <PartRecords node={node} now={now} zone={view.facility.timeZone} />
          <DefinitionList entries={datesAt(node, view)} />
          <p>
            <Link href={`/history?room=${view.row.roomId}`} prefetch={false} className={styles.onward}>
              History of {view.row.name}
            </Link>
          </p>
        </>
      ) : null}
    </Dialog>
  );
}

/** A mount is named by its agent in the picture; here its number and the vaporizer's tag stand beside it. */
function placeTitle({ id, title, position }: PathNode, { fitted }: RoomView): string {
  if (position === null || !id.startsWith("mount-")) return title;
  const on = fitted?.vaporizers.find(({ mount }) => mount === position);
  return on ? `${title} ${on.tag}, mount ${position}` : title;
}

function Works({ node, view, onChoose }: { node: PathNode; view: RoomView; onChoose: (work: OfferedWork) => void }) {
  const mayFit = useMayDo("fit-part");
  const mayRemove = useMayDo("remove-part");
  const maySwap = useMayDo("swap-cylinder");
  const allowed = ({ work }: OfferedWork): boolean =>
    work.kind === "cylinder" ? maySwap : work.kind === "remove" ? mayRemove : mayFit;
  const works = worksAt(node, view).filter(allowed);
  if (works.length === 0) return null;
  return (
    <div className={styles.buttons}>
      {works.map((work) => (
        <Button key={work.label} onClick={() => onChoose(work)}>
          {work.label}
        </Button>
      ))}
    </div>
  );
}
