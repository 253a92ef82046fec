import type { NextRequest } from "next/server";
import { serveBody } from "@/app/_edge/serve-body";
import { saveDraft } from "@/lib/commands/save-draft";
import { appSurroundings } from "@/lib/commands/surroundings";
import { systemClock } from "@/lib/live/clock";
import { saveDraftRequest } from "@/lib/schemas/check";

export const serveDraft = (request: NextRequest): Promise<Response> =>
  serveBody(request, saveDraftRequest, (input, actor) => saveDraft(appSurroundings(systemClock()), input, actor));
