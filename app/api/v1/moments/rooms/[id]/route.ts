import type { NextRequest } from "next/server";
import { serveOutcome } from "@/app/_edge/serve-outcome";
import { readPastRoom } from "@/lib/queries/as-of";
import { momentQuery } from "@/lib/schemas/as-of";

export async function GET(request: NextRequest, { params }: { params: Promise<{ id: string }> }): Promise<Response> {
  const { id } = await params;
  return serveOutcome(request, momentQuery, (actor, { at }) => readPastRoom(actor, id, at));
}
