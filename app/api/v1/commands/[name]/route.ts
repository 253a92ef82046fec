import type { NextRequest } from "next/server";
import { serveCommand } from "@/app/_edge/serve-command";
import { serveDraft } from "@/app/_edge/serve-draft";
import { serveNewFacility } from "@/app/_edge/serve-new-facility";

export async function POST(request: NextRequest, { params }: { params: Promise<{ name: string }> }): Promise<Response> {
  const { name } = await params;
  if (name === "save-draft") return serveDraft(request);
  if (name === "add-facility") return serveNewFacility(request);
  return serveCommand(request, name);
}
