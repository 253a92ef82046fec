import type { Metadata } from "next";
import { OfflineApp } from "@/app/_offline/offline-app.client";

export const metadata: Metadata = { title: "No connection" };

/** What a device shows while the server is not reached. It holds nothing of anybody: the device fills it from its own store. */
export default function OfflinePage() {
  return <OfflineApp />;
}
