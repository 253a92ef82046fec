"use client";

import { Said } from "@/app/_parts/said.client";
import { Button } from "@/app/_ui/button.client";
import { LinkButton } from "@/app/_ui/link-button";
import { Page, PageHeading } from "@/app/_ui/page";

/** The rooms cannot be shown: no state is left standing, and what still works is named. */
export default function BoardError({ error, reset }: { error: Error & { digest?: string }; reset: () => void }) {
  return (
    <Page narrow>
      <PageHeading title={<Said>The rooms could not be read</Said>} />
      <p role="alert">
        No state is known here now. Go by the workstation itself, and by the last printed morning. Nothing that was
        confirmed is lost.
      </p>
      {error.digest ? <p>To find it in the log: {error.digest}</p> : null}
      <p>
        <Button look="primary" onClick={reset}>
          Read them again
        </Button>{" "}
        <LinkButton href="/tasks">To do</LinkButton>
      </p>
    </Page>
  );
}
