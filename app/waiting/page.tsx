import type { Metadata } from "next";
import { requirePerson } from "@/app/_edge/page-actor";
import { WaitingList } from "@/app/_offline/waiting-list.client";
import { Page } from "@/app/_ui/page";

export const metadata: Metadata = { title: "Waiting to be sent" };

/** What this device has not been able to send yet. */
export default async function WaitingPage() {
  await requirePerson("/waiting");
  return (
    <Page>
      <h1>Waiting on this device</h1>
      <WaitingList />
    </Page>
  );
}
