import { command } from "@/lib/commands/command";
import { decideAccess } from "@/lib/domain/access/decide";
import type { AccessSettings } from "@/lib/domain/access/model";
import { refused } from "@/lib/domain/outcome";
import { setAccessReply, setAccessRequest } from "@/lib/schemas/access";
import { accessSettings, putAccessSettings } from "@/lib/storage/access";

const SIGNING_WORDS: Readonly<Record<AccessSettings["signing"], string>> = {
  "two-then-one": "user id and PIN first, then the PIN",
  one: "the PIN each time",
  none: "a tap",
};

/** How people come in and sign. It decides what every later signature is worth, so it is a signature itself. */
export const setAccess = command({
  name: "set-access",
  meaning: "approved",
  summary: "Change what a signature asks for, when screens lock, and which roles an issuer's claims give.",
  schema: setAccessRequest,
  reply: setAccessReply,
  locks: () => ({}),
  load: (tx, _input, { begun }) => accessSettings(tx, begun.scope.facilityId),
  decide: (known, { seenVersion, ...asked }) => {
    if (known.version !== seenVersion)
      return refused(
        "moved-on",
        "Somebody has changed these settings since you opened them. Look again.",
        "seenVersion",
      );
    return decideAccess(asked);
  },
  apply: async (tx, settings, { seenVersion }, { begun, actor, now }) => {
    const change = { seen: seenVersion, settings, by: actor.personId, at: now };
    if (!(await putAccessSettings(tx, begun.scope.facilityId, change)))
      return refused("moved-on", "Somebody has changed these settings in the meantime. Look again.", "seenVersion");
    const { mapping } = settings;
    return {
      shown: JSON.stringify(settings),
      reply: { version: seenVersion + 1 },
      note: {
        text: `Changed who gets in: signing asks for ${SIGNING_WORDS[settings.signing]}, screens lock after ${settings.idleMinutes} minutes`,
        details: mapping?.gives.map(({ value, roles }) => `${mapping.claim} ${value} gives: ${roles.join(", ")}`) ?? [
          "Roles are given by an administrator.",
        ],
        data: { ...settings },
      },
    };
  },
});
