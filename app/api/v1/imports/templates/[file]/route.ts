import { notFound } from "@/app/_edge/problem";
import { importTemplate } from "@/lib/exchange/import-template";
import { IMPORT_FILES, type ImportFile } from "@/lib/schemas/set-up";

const isImportFile = (name: string): name is ImportFile => (IMPORT_FILES as readonly string[]).includes(name);

/** A template to fill in: the header and two example rows. Nothing in it is anybody's data. */
export async function GET(_request: Request, { params }: { params: Promise<{ file: string }> }): Promise<Response> {
  const name = (await params).file.replace(/\.csv$/, "");
  if (!isImportFile(name)) return notFound("template");
  return new Response(importTemplate(name), {
    headers: { "content-type": "text/csv; charset=utf-8", "content-disposition": `attachment; filename="${name}.csv"` },
  });
}
