import type { NextRequest } from "next/server";
import { serveRead } from "@/app/_edge/serve-read";
import { readEvent } from "@/lib/queries/events";

export async function GET(request: NextRequest, { params }: { params: Promise<{ id: string }> }): Promise<Response> {
  const { id } = await params;
  return serveRead(request, "event", (actor) => readEvent(actor, id));
}
