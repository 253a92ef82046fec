import type { Metadata } from "next";
import { Notice } from "@/app/_ui/notice";
import { Page, PageHeading } from "@/app/_ui/page";

export const metadata: Metadata = { title: "Wall" };

/** Where a screen lands whose code does not hold. */
export default function WallEnterPage() {
  return (
    <Page narrow>
      <PageHeading title="This screen is not registered" />
      <Notice tone="heed" title="Its link does not hold, or was revoked.">
        <p>Somebody who sets up the facility registers it under Set-up, Walls, and opens the new link here once.</p>
      </Notice>
    </Page>
  );
}
