import { command } from "@/lib/commands/command";
import { done, refused } from "@/lib/domain/outcome";
import {
  bindIdentityReply,
  bindIdentityRequest,
  unbindIdentityReply,
  unbindIdentityRequest,
} from "@/lib/schemas/access";
import { bindIdentity as bind, identities, unbindIdentity as unbind } from "@/lib/storage/identities";
import { endSessionsOf, listPeople } from "@/lib/storage/people";

const personIn = async (tx: Parameters<typeof listPeople>[0], facilityId: string, personId: string) =>
  (await listPeople(tx, facilityId)).find(({ id }) => id === personId) ?? null;

export const bindIdentity = command({
  name: "bind-identity",
  summary: "Say whom an issuer's subject stands for: they come in by that issuer from now on.",
  schema: bindIdentityRequest,
  reply: bindIdentityReply,
  locks: () => ({}),
  load: (tx, { personId }, { begun }) => personIn(tx, begun.scope.facilityId, personId),
  decide: (person) =>
    person ? done(person) : refused("not-found", "There is no such person in your organisation.", "personId"),
  apply: async (tx, person, { issuer, subject }, { begun, actor, now }) => {
    const { organisationId } = begun.scope;
    const identity = { issuer, subject, organisationId, personId: person.id, at: now, by: actor.personId };
    if (!(await bind(tx, identity)))
      return refused(
        "taken",
        "This subject of the issuer stands for somebody already. Take that away first.",
        "subject",
      );
    return {
      reply: { personId: person.id },
      note: {
        text: `${person.name} comes in by ${new URL(issuer).host} as ${subject}`,
        data: { personId: person.id, issuer, subject },
      },
    };
  },
});

export const unbindIdentity = command({
  name: "unbind-identity",
  summary: "Take an issuer's subject away from its person; their open sessions end.",
  schema: unbindIdentityRequest,
  reply: unbindIdentityReply,
  locks: () => ({}),
  load: async (tx, { issuer, subject }, { begun }) => {
    const bound = (await identities(tx)).find((one) => one.issuer === issuer && one.subject === subject);
    return bound ? personIn(tx, begun.scope.facilityId, bound.personId) : null;
  },
  decide: (person) =>
    person ? done(person) : refused("not-found", "This subject of the issuer stands for nobody here.", "subject"),
  apply: async (tx, person, { issuer, subject }, { actor, now }) => {
    if (!(await unbind(tx, issuer, subject)))
      return refused("already-done", "This was taken away in the meantime.", "subject");
    await endSessionsOf(tx, person.id, now, actor.sessionId);
    return {
      reply: { personId: person.id },
      note: {
        text: `${person.name} no longer comes in by ${new URL(issuer).host}`,
        data: { personId: person.id, issuer, subject },
      },
    };
  },
});
