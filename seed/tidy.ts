import { liftHold } from "@/lib/commands/hold";
import { endCase } from "@/lib/commands/occupancy";
import type { Severity } from "@/lib/domain/judgement";
import { type Instant, later, MINUTE } from "@/lib/units/time";
import type { Doing } from "./agenda";
import { deliver } from "./delivery";
import { chanceFrom } from "./random";
import { mendRoom } from "./rounds";
import type { Story } from "./working-day";

const EVERYTHING: readonly Severity[] = ["stops", "limits", "owed", "due"];

/**
 * The night shift ends what the day before left open, whoever left it: cases nobody ended, holds, work to do.
 * A demonstration that somebody has played with so comes to a fresh morning, and the way there is in the history too.
 */
export async function* tidyUp(story: Story, from: Instant): Doing {
  const { department, condition, charge } = story;
  const [technician] = department.inRole("technician");
  if (!technician) return;
  await deliver(story, from);
  const chance = chanceFrom(`night ${from}`);
  let now = from;
  const open = new Set((await department.openWork(from)).map(({ holderId }) => holderId));
  for (const holder of await department.holders(from)) {
    const { room, workstation } = holder.evidence;
    if (room?.occupancy.state === "in-use") {
      await department.does(charge, now, endCase, { roomId: room.id });
      now = later(now, MINUTE);
    }
    for (const { id } of workstation?.holds ?? []) {
      const reason = "Looked at in the evening, nothing found";
      await department.does(charge, now, liftHold, { workstationId: workstation?.id ?? "", holdId: id, reason });
      now = later(now, MINUTE);
    }
    if (open.has(holder.id) && holder.procedure) {
      now = yield* mendRoom({ department, condition, chance }, technician, holder, now, EVERYTHING);
    }
  }
}
