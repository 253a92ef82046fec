import type { NextRequest } from "next/server";
import { serveRead } from "@/app/_edge/serve-read";
import { readSpares } from "@/lib/queries/spares";

export async function GET(request: NextRequest, { params }: { params: Promise<{ id: string }> }): Promise<Response> {
  const { id } = await params;
  return serveRead(request, "room", (actor) => readSpares(actor, id));
}
