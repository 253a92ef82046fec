import type { BoardSnapshot } from "./board-state";
import { runningHub } from "./running-hub";

/** The facility's board as it stands now, serialised once for everybody, with its ETag. No row in it is past its good-until. */
export function boardSnapshot(facilityId: string): Promise<BoardSnapshot> {
  return runningHub().snapshot(facilityId);
}
