import { longDayText } from "@/app/_parts/format";
import { Notice } from "@/app/_ui/notice";
import { dateIn, type Instant, timeIn } from "@/lib/units/time";

/** Nobody may take what was for what is. */
export function PastNotice({ at, zone }: { at: Instant; zone: string }) {
  return (
    <Notice tone="heed" title={`The past: ${longDayText(dateIn(zone, at))}, ${timeIn(zone, at)}`}>
      <p>So it was known then. Nothing here says how a room stands now.</p>
    </Notice>
  );
}
