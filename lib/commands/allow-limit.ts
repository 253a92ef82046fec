import { placeName, workstationAtHand } from "@/lib/commands/at-hand";
import { command } from "@/lib/commands/command";
import { allowedUntil, decideAllow } from "@/lib/domain/allowance";
import { checkDayAt } from "@/lib/domain/check-day";
import { judge } from "@/lib/domain/judge";
import { done, refused } from "@/lib/domain/outcome";
import { checkClock } from "@/lib/domain/rules/policy/check-validity";
import { allowLimitReply, allowLimitRequest } from "@/lib/schemas/task";
import { insertAllowance } from "@/lib/storage/holds";
import { instantOf, timestampOf } from "@/lib/units/time";

/** Allows use with a limit for a time, with what is done meanwhile. Some limits need two people. */
export const allowLimit = command({
  name: "allow-limit",
  meaning: "approved",
  summary: "Allow use with a limit for this list or some days; a stop is never allowed away.",
  schema: allowLimitRequest,
  reply: allowLimitReply,
  locks: ({ workstationId }) => ({ workstations: [workstationId] }),
  load: (_tx, input, _context, holders) => workstationAtHand(input.workstationId, holders),
  decide: (holder, input, { actor, begun, now }) => {
    const workstation = holder?.evidence.workstation;
    if (!holder || !workstation)
      return refused("not-found", "There is no workstation with this id in your facility.", "workstationId");
    const judgement = judge(holder.evidence);
    const allowing = decideAllow(
      judgement,
      workstation.allowed,
      input.rule,
      begun.roles,
      input.allowFor,
      actor.personId,
    );
    if (!allowing.ok) return allowing;
    const listEnd = holder.evidence.room?.list?.end ?? null;
    const ends = listEnd === null ? checkDayAt(checkClock(begun), now).to : instantOf(listEnd);
    const until = allowedUntil(input.allowFor, now, ends);
    if (until <= now) return refused("moved-on", "Today's list has ended; allow it for a day or more.", "allowFor");
    const shown = judgement.reasons
      .filter(({ rule }) => rule === input.rule)
      .map(({ text, subject }) => [text, subject]);
    return done({ ...allowing.value, until, shown, where: placeName(holder) });
  },
  apply: async (tx, { role, stillNeeds, until, shown, where }, input, context) => {
    await insertAllowance(tx, context.begun.scope.facilityId, {
      id: context.newId(),
      workstationId: input.workstationId,
      rule: input.rule,
      personId: context.actor.personId,
      role,
      measures: input.measures,
      at: context.now,
      until,
      boundTo: context.digest(
        JSON.stringify([input.workstationId, input.rule, shown, input.measures, timestampOf(until)]),
      ),
    });
    const waits =
      stillNeeds.length > 0 ? `; still needs: ${stillNeeds.map((one) => one.replaceAll("-", " ")).join(", ")}` : "";
    return {
      reply: { workstationId: input.workstationId, until: timestampOf(until), stillNeeds: [...stillNeeds] },
      note: {
        text: `Allowed ${where} with a limit (${input.rule.replaceAll("-", " ")}): ${input.measures}${waits}`,
        data: {
          workstationId: input.workstationId,
          rule: input.rule,
          role,
          until: timestampOf(until),
          measures: input.measures,
        },
      },
    };
  },
});
