import type { NextRequest } from "next/server";
import { decodedSegment } from "@/app/_edge/segment";
import { serveRead } from "@/app/_edge/serve-read";
import { readTask } from "@/lib/queries/task";

export async function GET(request: NextRequest, { params }: { params: Promise<{ key: string }> }): Promise<Response> {
  const key = decodedSegment((await params).key);
  return serveRead(request, "open task", async (actor) => (key === null ? null : readTask(actor, key)));
}
