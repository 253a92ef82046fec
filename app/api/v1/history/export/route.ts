import type { NextRequest } from "next/server";
import { admit } from "@/app/_edge/admit";
import { invalid } from "@/app/_edge/problem";
import { scopeOf } from "@/lib/auth/actor";
import { takeHead } from "@/lib/jobs/tree-heads";
import { appHeads } from "@/lib/jobs/tree-heads-timer";
import { systemClock } from "@/lib/live/clock";
import { exportHistory } from "@/lib/queries/history-export";
import { exportQuery } from "@/lib/schemas/history-export";

/** The record with everything that proves it, as a file; `npm run verify` reads it without this server. */
export async function GET(request: NextRequest): Promise<Response> {
  const admitted = await admit(request, "dear-read");
  if (!admitted.ok) return admitted.response;
  const given = Object.fromEntries(request.nextUrl.searchParams);
  const parsed = exportQuery.safeParse(given);
  if (!parsed.success) return invalid(parsed.error, given);
  const { actor } = admitted;
  const head = await takeHead(
    appHeads(() => systemClock().now()),
    scopeOf(actor),
  );
  const parts = exportHistory(actor, parsed.data);
  const body = new ReadableStream<Uint8Array>({
    async pull(controller) {
      const { done, value } = await parts.next();
      if (done) controller.close();
      else controller.enqueue(Buffer.from(value, "utf8"));
    },
    cancel: async () => {
      await parts.return(undefined);
    },
  });
  return new Response(body, {
    headers: {
      "content-type": "application/json; charset=utf-8",
      "content-disposition": `attachment; filename="history-${head.at.slice(0, 10)}.json"`,
      "cache-control": "no-store",
    },
  });
}
