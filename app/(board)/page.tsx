import { setTimeout as pause } from "node:timers/promises";
import type { Metadata } from "next";
import { Suspense } from "react";
import { requirePerson } from "@/app/_edge/page-actor";
import { readBoard } from "@/lib/queries/board";
import type { Board } from "@/lib/schemas/board";
import { BoardScreen } from "./board-screen.client";
import { BoardSkeleton } from "./board-skeleton";

export const metadata: Metadata = { title: "Rooms" };

/** A board that is read sooner than this comes at once: empty places that are filled in the next moment would only flicker. */
const WORTH_WAITING_MS = 200;

/** Who it is comes first: a stranger is sent to the sign-in page before anything of the board is. */
export default async function BoardPage() {
  const actor = await requirePerson();
  const reading = readBoard(actor);
  const early = await Promise.race([reading, pause(WORTH_WAITING_MS, null)]);
  if (early) return <BoardScreen initial={early} />;
  return (
    <Suspense fallback={<BoardSkeleton name={actor.facility.name} />}>
      <Later reading={reading} />
    </Suspense>
  );
}

async function Later({ reading }: { reading: Promise<Board> }) {
  return <BoardScreen initial={await reading} />;
}
