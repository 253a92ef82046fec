import type { Metadata } from "next";
import { requirePerson } from "@/app/_edge/page-actor";
import { whenRead } from "@/app/_parts/when-read";
import { readBoard } from "@/lib/queries/board";
import { BoardScreen } from "./board-screen.client";
import { BoardSkeleton } from "./board-skeleton";

export const metadata: Metadata = { title: "Rooms" };

/** Who it is comes first: a stranger is sent to the sign-in page before anything of the board is. */
export default async function BoardPage() {
  const actor = await requirePerson();
  return whenRead(
    readBoard(actor),
    (board) => <BoardScreen initial={board} />,
    <BoardSkeleton name={actor.facility.name} />,
  );
}
