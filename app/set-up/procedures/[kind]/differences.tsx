import { Notice } from "@/app/_ui/notice";
import { Panel } from "@/app/_ui/panel";
import type { DraftView } from "@/lib/schemas/procedure";

/** What the next version changes against the newest one, and what nobody would look at any more. */
export function Differences({
  draft: { added, removed, reworded, reordered, renamed, warnings, declinedBecause },
}: {
  draft: DraftView;
}) {
  const lines = [
    { what: "New", items: added },
    { what: "Taken out", items: removed },
    { what: "Changed", items: reworded },
    { what: "In another order", items: reordered ? ["the items that stay"] : [] },
    { what: "Name or source", items: renamed ? ["in other words"] : [] },
  ].filter(({ items }) => items.length > 0);
  return (
    <Panel title="What changes" aside="as it was saved">
      {declinedBecause ? <Notice tone="heed" title={`Declined: ${declinedBecause}`} /> : null}
      {lines.length === 0 ? <p>Nothing yet.</p> : null}
      {lines.map(({ what, items }) => (
        <p key={what}>
          <strong>{what}:</strong> {items.join("; ")}
        </p>
      ))}
      {warnings.map((warning) => (
        <Notice key={warning} tone="heed" title={warning} />
      ))}
    </Panel>
  );
}
