import { LinkButton } from "@/app/_ui/link-button";
import { Page, PageHeading } from "@/app/_ui/page";

/** A task disappears when its reason does; somebody who comes late to it should not read "not found". */
export function TaskDone() {
  return (
    <Page narrow>
      <PageHeading
        title="Nothing left to do here"
        sub="This task is done, or its reason has gone since the list was read."
      />
      <div>
        <LinkButton href="/tasks" look="primary" size="large">
          To do
        </LinkButton>
      </div>
    </Page>
  );
}
