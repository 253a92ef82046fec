import type { Metadata } from "next";
import { requirePerson } from "@/app/_edge/page-actor";
import { readBoard } from "@/lib/queries/board";
import { BoardScreen } from "./board-screen.client";

export const metadata: Metadata = { title: "Rooms" };

export default async function BoardPage() {
  const actor = await requirePerson();
  return <BoardScreen initial={await readBoard(actor)} />;
}
