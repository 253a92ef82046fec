import type { Metadata } from "next";
import { PageHeading } from "@/app/_ui/page";
import { ImportView } from "./import-view.client";

export const metadata: Metadata = { title: "Import" };

/** A department from CSV files: all of it or nothing, and safe to repeat. */
export default function ImportPage() {
  return (
    <>
      <PageHeading
        title="Import the department"
        sub="Any of the thirteen files, in any number. Everything is looked at first; nothing is changed until every row is right."
      />
      <ImportView />
    </>
  );
}
