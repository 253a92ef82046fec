import type { NextRequest } from "next/server";
import { serveRead } from "@/app/_edge/serve-read";
import { readCheck } from "@/lib/queries/check";

export async function GET(request: NextRequest, { params }: { params: Promise<{ id: string }> }): Promise<Response> {
  const { id } = await params;
  return serveRead(request, "check", (actor) => readCheck(actor, id));
}
