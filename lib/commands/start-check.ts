import type { z } from "zod";
import { placeName, workstationAtHand } from "@/lib/commands/at-hand";
import { command } from "@/lib/commands/command";
import { signedAs } from "@/lib/domain/check/model";
import { checkDayAt } from "@/lib/domain/check-day";
import { done, refused } from "@/lib/domain/outcome";
import { mayShorten } from "@/lib/domain/procedure-shortening";
import { checkClock } from "@/lib/domain/rules/policy/check-validity";
import { startCheckReply, startCheckRequest } from "@/lib/schemas/check";
import { findCheck, insertCheck, openChecks } from "@/lib/storage/checks";
import type { Holder } from "@/lib/storage/evidence";
import { procedureInForce } from "@/lib/storage/procedures";

interface Decided {
  /** The open check to go on with, or null for a new one. */
  readonly resume: string | null;
  readonly holder: Holder;
  /** The version in force, which the check keeps whatever comes into force while it is open. */
  readonly procedureId: string;
  readonly shortened: boolean;
}

type Startable = z.infer<typeof startCheckRequest>["kind"];

const WORDS: Readonly<Record<Startable, string>> = {
  daily: "daily check",
  "first-user": "first-user check",
  "each-case": "check before a case",
  "provider-change": "check at a change of provider",
  "close-out": "close-out",
};

/** The first user after service does the whole daily check. */
const followedBy = (kind: Startable): Startable => (kind === "first-user" ? "daily" : kind);

/** Opens a check on a workstation, or goes on with the one of its kind that this person has open there today. */
export const startCheck = command({
  name: "start-check",
  summary: "Open a check of a workstation, or go on with your own open one of the same kind.",
  schema: startCheckRequest,
  reply: startCheckReply,
  locks: ({ workstationId }) => ({ workstations: [workstationId] }),
  load: async (tx, input, context, holders) => {
    const holder = await workstationAtHand(input.workstationId, holders);
    const since = checkDayAt(checkClock(context.begun), context.now).from;
    const mine = await openChecks(
      tx,
      context.begun.scope.facilityId,
      input.workstationId,
      context.actor.personId,
      input.kind,
      since,
    );
    const open = mine[0] ? await findCheck(tx, context.begun.scope.facilityId, mine[0]) : null;
    const version = await procedureInForce(tx, context.begun.scope.facilityId, followedBy(input.kind), context.now);
    return { holder, open, version, since };
  },
  decide: ({ holder, open, version, since }, input, { actor }) => {
    if (!holder?.evidence.workstation)
      return refused("not-found", "There is no workstation with this id in your facility.", "workstationId");
    if (!version)
      return refused(
        "not-found",
        `No procedure for a ${WORDS[input.kind]} is in force here; a manager can put one in force.`,
        "kind",
      );
    const goesOn = open && open.kind === input.kind && !signedAs(open, "performed");
    const shortened =
      input.whole !== true &&
      version.document.items.some(({ sameUserMaySkip }) => sameUserMaySkip) &&
      mayShorten(holder.evidence, actor.personId, since);
    return done<Decided>({ resume: goesOn ? open.id : null, holder, procedureId: version.id, shortened });
  },
  apply: async (tx, { resume, holder, procedureId, shortened }, input, context) => {
    const where = placeName(holder);
    if (resume)
      return {
        reply: { checkId: resume, resumed: true },
        note: { text: `Went on with the check of ${where}`, data: { checkId: resume } },
      };
    const id = context.newId();
    await insertCheck(tx, context.begun.scope.facilityId, {
      id,
      procedureId,
      shortened,
      kind: input.kind,
      workstationId: input.workstationId,
      roomId: holder.evidence.room?.id ?? null,
      startedAt: context.now,
      startedBy: context.actor.personId,
      taskKey: null,
    });
    return {
      reply: { checkId: id, resumed: false },
      note: {
        text: `Started the ${WORDS[input.kind]} of ${where}${shortened ? ", shortened for the same user" : ""}`,
        data: { checkId: id, workstationId: input.workstationId, procedureId, shortened },
      },
    };
  },
});
