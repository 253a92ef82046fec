"use client";

import { useMemo, useState } from "react";
import { Choice } from "@/app/_ui/choice";
import { Dialog } from "@/app/_ui/dialog.client";
import { Panel } from "@/app/_ui/panel";
import type { RoomView } from "@/lib/schemas/room";
import type { Timestamp } from "@/lib/units/time";
import { GasPathList, PlaceList } from "./gas-path-list";
import { type PathNode, pathNodes } from "./gas-path-nodes";
import { GasPathPicture } from "./gas-path-picture";
import { PartRecords } from "./part-record";
import { PictureKey } from "./picture-key";
import styles from "./room.module.css";

type Form = "picture" | "list";

/** What was found on the way of the gas, as a picture on a wide screen and as a list everywhere. */
export function GasPath({ view, now }: { view: RoomView; now: Timestamp }) {
  const [form, setForm] = useState<Form>("picture");
  const [opened, setOpened] = useState<PathNode | null>(null);
  const nodes = useMemo(() => pathNodes(view), [view]);
  const zone = view.facility.timeZone;
  if (!view.row.workstation) return null;
  return (
    <Panel
      title="Gas path"
      aside={
        <div className={styles.wideOnly}>
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
      <Dialog open={opened !== null} title={opened?.title ?? ""} onClose={() => setOpened(null)}>
        {opened ? <PartRecords node={opened} now={now} zone={zone} /> : null}
      </Dialog>
    </Panel>
  );
}

const FORMS = [
  { value: "picture", label: "Picture" },
  { value: "list", label: "List" },
] as const;
