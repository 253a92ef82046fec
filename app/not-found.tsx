import { Said } from "@/app/_parts/said.client";
import { LinkButton } from "@/app/_ui/link-button";
import { Page, PageHeading } from "@/app/_ui/page";

export default function NotFound() {
  return (
    <Page narrow>
      <PageHeading title="There is nothing at this address" />
      <p>
        <Said>The room, check or task may belong to another facility, or the address was cut short.</Said>
      </p>
      <p>
        <LinkButton href="/">To the rooms</LinkButton>
      </p>
    </Page>
  );
}
