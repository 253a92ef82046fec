import { hashPassword, passwordMatches } from "@/lib/auth/password";
import { command } from "@/lib/commands/command";
import { done, refused } from "@/lib/domain/outcome";
import { decidePin } from "@/lib/domain/signature/decide";
import { clearPinReply, clearPinRequest, setPinReply, setPinRequest } from "@/lib/schemas/access";
import { pinOf, storePin } from "@/lib/storage/access";
import { listPeople, passwordOf } from "@/lib/storage/people";
import { MINUTE, timestampOf } from "@/lib/units/time";

/** Somebody whom only an issuer knows has just been asked there; for so long that stands for a password. */
const FRESH_ENTRY = 10 * MINUTE;

export const setPin = command({
  name: "set-pin",
  summary: "Choose the PIN that you sign, unlock and switch with.",
  schema: setPinRequest,
  reply: setPinReply,
  locks: () => ({}),
  load: async (tx, { current, pin }, { actor }) => {
    const kept = current && (await (current.kind === "pin" ? pinOf : passwordOf)(tx, actor.personId));
    const fresh = actor.session?.method === "issuer" && Date.now() - actor.session.createdAt <= FRESH_ENTRY;
    const proved = current ? kept !== null && (await passwordMatches(kept, current.value)) : fresh;
    return { proved, byEntry: current === null, hash: await hashPassword(pin) };
  },
  decide: ({ proved, byEntry, hash }, { pin }) => {
    if (!proved)
      return refused(
        "invalid",
        byEntry
          ? "Without a password or a PIN this is done within ten minutes of coming in by your organisation's sign-in. Sign in again."
          : "The present password or PIN is not right.",
        "current",
      );
    const good = decidePin(pin);
    return good.ok ? done(hash) : good;
  },
  apply: async (tx, hash, _input, { actor, now }) => {
    await storePin(tx, actor.personId, hash, now);
    return { reply: { changedAt: timestampOf(now) }, note: { text: "Changed the own PIN" } };
  },
});

/** Takes a forgotten PIN away; nobody gives one to somebody else. */
export const clearPin = command({
  name: "clear-pin",
  summary: "Take somebody's PIN away; they choose another with their password.",
  schema: clearPinRequest,
  reply: clearPinReply,
  locks: () => ({}),
  load: async (tx, { personId }, { begun }) =>
    (await listPeople(tx, begun.scope.facilityId)).find(({ id }) => id === personId) ?? null,
  decide: (person) =>
    person ? done(person) : refused("not-found", "There is no such person in your organisation.", "personId"),
  apply: async (tx, person, _input, { now }) => {
    await storePin(tx, person.id, null, now);
    return {
      reply: { personId: person.id },
      note: { text: `Took the PIN of ${person.name} away`, data: { personId: person.id } },
    };
  },
});
