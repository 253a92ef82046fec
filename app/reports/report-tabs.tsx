import { TabLinks } from "@/app/_ui/tab-links.client";

const REPORTS = [
  { href: "/reports", label: "Checks done" },
  { href: "/reports/ready-by", label: "Ready by" },
  { href: "/reports/reasons", label: "Reasons" },
  { href: "/reports/shift", label: "Shift sheet" },
] as const;

export function ReportTabs() {
  return <TabLinks name="Reports" links={REPORTS} />;
}
