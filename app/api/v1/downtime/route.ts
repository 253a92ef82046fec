import type { NextRequest } from "next/server";
import { admit } from "@/app/_edge/admit";
import { downtimePdf } from "@/lib/exchange/downtime/pdf";
import { readDowntime } from "@/lib/queries/downtime";

/** The morning on paper, as one document to print or to keep beside the machine that prints. */
export async function GET(request: NextRequest): Promise<Response> {
  const admitted = await admit(request, "dear-read");
  if (!admitted.ok) return admitted.response;
  const view = await readDowntime(admitted.actor);
  const pdf = await downtimePdf(view);
  return new Response(new Uint8Array(pdf), {
    headers: {
      "content-type": "application/pdf",
      "content-disposition": `inline; filename="morning-${view.at.slice(0, 16).replace(":", "")}.pdf"`,
      "cache-control": "no-store",
    },
  });
}
