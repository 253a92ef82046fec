import { z } from "zod";
import { id } from "@/lib/schemas/common";

/** The channel on which every instance hears of every other one's commands. */
export const CHANNEL = "yokeboard";

const change = z.object({
  facility: id,
  sequence: z.int(),
  command: z.string(),
  holders: z.array(z.object({ kind: z.enum(["room", "workstation"]), id })).default([]),
  /** Too many holders for one payload (PostgreSQL carries 8,000 bytes), or something that every room shows. */
  all: z.boolean().default(false),
});
const beat = z.object({ beat: z.string(), n: z.int() });
const sessionEnded = z.object({ session: id });

export type Change = z.infer<typeof change>;
export interface Notice {
  change: Change | null;
  beat: z.infer<typeof beat> | null;
  /** A session that was ended by somebody: its person must see nothing from now on. */
  endedSession: string | null;
}

/** What one payload says; null if it is none of ours (an older or newer instance may send what this one does not know). */
export function parseNotice(payload: string): Notice | null {
  const body = jsonOf(payload);
  const notice: Notice = {
    change: change.safeParse(body).data ?? null,
    beat: beat.safeParse(body).data ?? null,
    endedSession: sessionEnded.safeParse(body).data?.session ?? null,
  };
  return notice.change || notice.beat || notice.endedSession ? notice : null;
}

function jsonOf(payload: string): unknown {
  try {
    return JSON.parse(payload);
  } catch {
    return null;
  }
}
