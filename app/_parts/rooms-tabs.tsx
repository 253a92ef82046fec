import { TabLinks } from "@/app/_ui/tab-links.client";

const VIEWS = [
  { href: "/", label: "Now" },
  { href: "/events", label: "Events" },
  { href: "/allowed", label: "Allowed" },
  { href: "/moments", label: "Earlier" },
  { href: "/what-if", label: "What if" },
] as const;

/** The rooms in time: as they are, what happened to many of them, what is allowed and until when, as they were, as they might be. */
export function RoomsTabs() {
  return <TabLinks name="Rooms in time" links={VIEWS} />;
}
