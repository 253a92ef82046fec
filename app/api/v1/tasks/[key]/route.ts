import type { NextRequest } from "next/server";
import { serveRead } from "@/app/_edge/serve-read";
import { readTask } from "@/lib/queries/task";

export async function GET(request: NextRequest, { params }: { params: Promise<{ key: string }> }): Promise<Response> {
  const { key } = await params;
  return serveRead(request, "open task", (actor) => readTask(actor, decodeURIComponent(key)));
}
