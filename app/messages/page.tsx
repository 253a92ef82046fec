import type { Metadata } from "next";
import { requirePerson } from "@/app/_edge/page-actor";
import { readMessages } from "@/lib/queries/messages";
import { MessagesScreen } from "./messages-screen.client";

export const metadata: Metadata = { title: "Messages" };

/** What this person was asked to see to, and how they are reached. */
export default async function MessagesPage() {
  return <MessagesScreen initial={await readMessages(await requirePerson("/messages"))} />;
}
