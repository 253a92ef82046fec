import { Notice } from "@/app/_ui/notice";
import { type Instant, type Timestamp, timestampOf } from "@/lib/units/time";
import { clockText } from "./format";

/** A lost connection is never silent, and what was true then is never shown as true now. */
export function NotLive({ since, readAt, zone }: { since: Instant; readAt: Timestamp; zone: string }) {
  return (
    <Notice tone="wrong" title={`Not live since ${clockText(timestampOf(since), zone)}`} announce="alert">
      <p>
        The states are withdrawn. What was last known at {clockText(readAt, zone)} stands below in grey; go by the
        workstation itself. This page looks for the server by itself.
      </p>
    </Notice>
  );
}
