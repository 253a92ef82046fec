"use client";

import { useRef, useState } from "react";
import { useWorkstations, withTag } from "@/app/_parts/use-workstations.client";
import { Button } from "@/app/_ui/button.client";
import { Notice } from "@/app/_ui/notice";
import { type CameraState, type NoCamera, useCamera } from "./camera.client";
import { readScanned } from "./scanned";
import styles from "./scanner.module.css";

const WHY: Record<NoCamera, { readonly title: string; readonly words: string }> = {
  "plain-http": {
    title: "No scanning over plain http",
    words: "Browsers give the camera only to pages that came over https. Whoever runs the server can set that up.",
  },
  "no-camera": { title: "No camera on this device", words: "Type the number instead." },
  "not-allowed": {
    title: "The camera was not allowed",
    words: "Allow it for this site in the browser’s settings, or type the number.",
  },
  "in-use": { title: "The camera is busy", words: "Close what else uses it, or type the number." },
  "no-reader": {
    title: "Scanning could not be loaded",
    words: "Type the number; scan again when the connection is back.",
  },
};

interface ScannerProps {
  /** A workstation on record whose code was read. */
  onFound: (workstation: { readonly id: string; readonly tag: string }) => void;
  /** The way without a camera. */
  onType: () => void;
}

/** The camera's picture until the code of a workstation is in it. A code that means nothing here is said, and it goes on looking. */
export function Scanner({ onFound, onType }: ScannerProps) {
  const video = useRef<HTMLVideoElement>(null);
  const [unknown, setUnknown] = useState<string | null>(null);
  const { data, isError } = useWorkstations(true);
  const isDone = useRef(false);
  const camera = useCamera(video, (text) => {
    if (!data || isDone.current) return;
    const scanned = readScanned(text);
    const found =
      scanned?.by === "id" ? data.find(({ id }) => id === scanned.id) : scanned && withTag(data, scanned.number);
    isDone.current = Boolean(found);
    if (found) onFound(found);
    else setUnknown(text);
  });
  const none = camera.state === "none" ? WHY[camera.why] : null;
  return (
    <div className={styles.scanner}>
      {none ? (
        <Notice tone="heed" title={none.title} announce="alert">
          <p>{none.words}</p>
        </Notice>
      ) : (
        <video ref={video} className={styles.picture} muted playsInline aria-label="What the camera sees" />
      )}
      <p role="status">{saidOf(camera, unknown)}</p>
      {isError ? (
        <Notice tone="heed" title="The workstations could not be read" announce="alert">
          <p>Try again when the connection is back.</p>
        </Notice>
      ) : null}
      <Button size="large" wide onClick={onType}>
        Type the number
      </Button>
    </div>
  );
}

const MOST_SAID = 40;

function saidOf({ state }: CameraState, unknown: string | null): string {
  if (state === "none") return "";
  if (state === "starting") return "Opening the camera …";
  if (unknown === null) return "Hold the code on the workstation before the camera.";
  return `No workstation on record has this code: ${unknown.slice(0, MOST_SAID)}${unknown.length > MOST_SAID ? "…" : ""}`;
}
