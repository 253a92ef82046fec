import type { NextRequest } from "next/server";
import { serveBody } from "@/app/_edge/serve-body";
import { done, refused } from "@/lib/domain/outcome";
import { may } from "@/lib/domain/permission";
import { previewImport } from "@/lib/queries/import-preview";
import { importRequest } from "@/lib/schemas/set-up";

export const POST = (request: NextRequest): Promise<Response> =>
  serveBody(request, importRequest, async ({ files }, actor) =>
    may(actor.roles, "import-department")
      ? done(await previewImport(actor, files))
      : refused("not-allowed", `${actor.name} may not import into ${actor.facility.name}.`),
  );
