"use client";

import { useSyncExternalStore } from "react";
import type { Entry } from "./device-store.client";
import { outbox } from "./outbox.client";
import { sender, type Trouble } from "./sender.client";

const NONE: readonly Entry[] = [];
const watchNothing = () => () => undefined;
const inBrowser = typeof window !== "undefined";

/** All that waits on this device. */
export const useOutbox = (): readonly Entry[] =>
  useSyncExternalStore(
    inBrowser ? outbox().watch : watchNothing,
    () => outbox().entries(),
    () => NONE,
  );

export const useKeeps = (): boolean =>
  useSyncExternalStore(
    inBrowser ? outbox().watch : watchNothing,
    () => outbox().keeps(),
    () => true,
  );

/** Has the device's store been read? */
export const useIsRead = (): boolean =>
  useSyncExternalStore(
    inBrowser ? outbox().watch : watchNothing,
    () => outbox().isRead(),
    () => false,
  );

export const useTrouble = (): Trouble =>
  useSyncExternalStore(
    inBrowser ? sender().watch : watchNothing,
    () => sender().trouble(),
    () => null,
  );
