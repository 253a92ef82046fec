import type { NextRequest } from "next/server";
import { serveBody } from "@/app/_edge/serve-body";
import { done } from "@/lib/domain/outcome";
import { scoreRehearsal } from "@/lib/queries/rehearsal";
import { rehearsalAnswers } from "@/lib/schemas/rehearsal";

/** Answers come in a body, so it is a POST; nothing is written. */
export const POST = (request: NextRequest): Promise<Response> =>
  serveBody(request, rehearsalAnswers, async (input, actor) => done(await scoreRehearsal(actor, input)));
