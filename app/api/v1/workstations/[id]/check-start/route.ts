import type { NextRequest } from "next/server";
import { serveRead } from "@/app/_edge/serve-read";
import { readCheckStart } from "@/lib/queries/check";

/** What a device keeps so that a check of this workstation can begin while no server is reached. */
export async function GET(request: NextRequest, { params }: { params: Promise<{ id: string }> }): Promise<Response> {
  const { id } = await params;
  return serveRead(request, "workstation", (actor) => readCheckStart(actor, id));
}
