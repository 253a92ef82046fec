"use client";

import { Button } from "@/app/_ui/button.client";
import { LinkButton } from "@/app/_ui/link-button";
import { Page, PageHeading } from "@/app/_ui/page";

/** A fault of ours. Nothing of its inside is shown; the digest finds it in the server's log. */
export default function ErrorPage({ error, reset }: { error: Error & { digest?: string }; reset: () => void }) {
  return (
    <Page narrow>
      <PageHeading title="This page could not be shown" />
      <p role="alert">
        The fault is on our side. Nothing that was confirmed is lost. While it lasts, go by the workstation itself and
        by paper.
      </p>
      {error.digest ? <p>To find it in the log: {error.digest}</p> : null}
      <p>
        <Button look="primary" onClick={reset}>
          Try again
        </Button>{" "}
        <LinkButton href="/">To the rooms</LinkButton>
      </p>
    </Page>
  );
}
