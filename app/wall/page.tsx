import type { Metadata } from "next";
import { redirect } from "next/navigation";
import { wallViewer } from "@/app/_edge/wall-viewer";
import { WordsProvider } from "@/app/_parts/say.client";
import { offsetsToday } from "@/app/_shell/offsets-today";
import { readWall } from "@/lib/queries/wall";
import { readWordsOf } from "@/lib/queries/words";
import { WallScreen } from "./wall-screen.client";

export const metadata: Metadata = { title: "Wall" };

interface WallPageProps {
  searchParams: Promise<{ look?: string | string[] }>;
}

/** The board for a screen on a corridor's wall. `?look=dark` or `?look=light` fixes what else follows the system. */
export default async function WallPage({ searchParams }: WallPageProps) {
  const { look } = await searchParams;
  const viewer = await wallViewer();
  if (!viewer) redirect("/sign-in?next=%2Fwall");
  const wall = await readWall(viewer);
  return (
    <WordsProvider words={await readWordsOf(viewer, wall.facility.scheme)}>
      <WallScreen
        initial={wall}
        offsets={offsetsToday(wall.facility.timeZone, wall.at)}
        look={look === "dark" || look === "light" ? look : "system"}
      />
    </WordsProvider>
  );
}
