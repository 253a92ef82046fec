import type { NextRequest } from "next/server";
import { admit } from "@/app/_edge/admit";
import { invalid } from "@/app/_edge/problem";
import { completionCsv } from "@/lib/exchange/completion-csv";
import { readCompletion } from "@/lib/queries/completion";
import { completionQuery } from "@/lib/schemas/report";

export async function GET(request: NextRequest): Promise<Response> {
  const admitted = await admit(request, "dear-read");
  if (!admitted.ok) return admitted.response;
  const { actor } = admitted;
  const given = Object.fromEntries(request.nextUrl.searchParams);
  const parsed = completionQuery.safeParse(given);
  if (!parsed.success) return invalid(parsed.error, given);
  const { from, to } = parsed.data;
  const csv = completionCsv(await readCompletion(actor, parsed.data), actor.facility.timeZone);
  return new Response(csv, {
    headers: {
      "content-type": "text/csv; charset=utf-8",
      "content-disposition": `attachment; filename="check-completion-${from}-to-${to}.csv"`,
      "cache-control": "no-store",
    },
  });
}
