import { TabLinks } from "@/app/_ui/tab-links.client";

const PARTS = [
  { href: "/tasks", label: "Work" },
  { href: "/tasks/duty", label: "On duty" },
] as const;

export function TaskTabs() {
  return <TabLinks name="To do" links={PARTS} />;
}
