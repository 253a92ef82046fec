import { signInRequired } from "@/app/_edge/problem";
import { wallViewer } from "@/app/_edge/wall-viewer";
import { readWall } from "@/lib/queries/wall";

export const dynamic = "force-dynamic";

/** Every room of the facility as a wall shows it: no names, nobody's own words. */
export async function GET(): Promise<Response> {
  const viewer = await wallViewer();
  if (!viewer) return signInRequired();
  return Response.json(await readWall(viewer), { headers: { "cache-control": "no-store" } });
}
