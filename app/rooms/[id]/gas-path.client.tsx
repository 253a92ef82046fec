"use client";

import { useMemo, useState } from "react";
import { Choice } from "@/app/_ui/choice";
import { classNames } from "@/app/_ui/class-names";
import { Panel } from "@/app/_ui/panel";
import type { RoomView } from "@/lib/schemas/room";
import type { Timestamp } from "@/lib/units/time";
import { GasPathList, PlaceList } from "./gas-path-list";
import { type PathNode, pathNodes } from "./gas-path-nodes";
import { GasPathPicture } from "./gas-path-picture";
import { PartDialog } from "./part-dialog.client";
import { PictureKey } from "./picture-key";
import styles from "./room.module.css";

type Form = "picture" | "list";

interface GasPathProps {
  view: RoomView;
  now: Timestamp;
  onChanged: () => void;
}

/** What was found on the way of the gas, as a picture on a wide screen and as a list everywhere. */
export function GasPath({ view, now, onChanged }: GasPathProps) {
  const [form, setForm] = useState<Form>("picture");
  const [opened, setOpened] = useState<PathNode | null>(null);
  const nodes = useMemo(() => pathNodes(view), [view]);
  if (!view.row.workstation) return null;
  return (
    <Panel
      title="Gas path"
      aside={
        <div className={classNames(styles.wideOnly, styles.screenOnly)}>
          <Choice legend="Show the gas path as" quiet options={FORMS} value={form} onChange={setForm} />
        </div>
      }
    >
      <div className={form === "picture" ? styles.wideOnly : styles.never}>
        <div className={styles.pictureFrame}>
          <GasPathPicture nodes={nodes} scheme={view.facility.scheme} onOpen={setOpened} />
        </div>
        <PictureKey />
        <h3 className={styles.beside}>Beside the gas path</h3>
        <PlaceList nodes={nodes.filter((node) => node.zone === "beside")} onOpen={setOpened} />
      </div>
      <div className={form === "picture" ? styles.narrowOnly : undefined}>
        <GasPathList nodes={nodes} onOpen={setOpened} />
      </div>
      <PartDialog node={opened} view={view} now={now} onClose={() => setOpened(null)} onChanged={onChanged} />
    </Panel>
  );
}

const FORMS = [
  { value: "picture", label: "Picture" },
  { value: "list", label: "List" },
] as const;
