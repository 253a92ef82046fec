import { hashPassword, passwordMatches } from "@/lib/auth/password";
import { command } from "@/lib/commands/command";
import { done, refused } from "@/lib/domain/outcome";
import {
  addPersonReply,
  addPersonRequest,
  changeRolesReply,
  changeRolesRequest,
  givePasswordReply,
  givePasswordRequest,
  setPasswordReply,
  setPasswordRequest,
} from "@/lib/schemas/set-up";
import {
  endSessionsOf,
  insertPerson,
  listPeople,
  lockRoles,
  passwordOf,
  replaceRoles,
  setActive,
  storePassword,
  userIdTaken,
} from "@/lib/storage/people";
import { timestampOf } from "@/lib/units/time";

const words = (roles: readonly string[]) => roles.map((role) => role.replaceAll("-", " ")).join(", ");

export const addPerson = command({
  name: "add-person",
  summary: "Add a person with roles in this facility and a first password.",
  schema: addPersonRequest,
  reply: addPersonReply,
  locks: () => ({}),
  load: async (tx, input) => ({ taken: await userIdTaken(tx, input.userId), hash: await hashPassword(input.password) }),
  decide: ({ taken, hash }, input) =>
    taken
      ? refused(
          "taken",
          `The user id ${input.userId} is taken, or was once: ids are never used again. Choose another.`,
          "userId",
        )
      : done(hash),
  apply: async (tx, hash, input, context) => {
    const { organisationId, facilityId } = context.begun.scope;
    const id = context.newId();
    const added = await insertPerson(tx, organisationId, {
      id,
      userId: input.userId,
      name: input.name,
      at: context.now,
    });
    if (!added)
      return refused("taken", `The user id ${input.userId} was taken in the meantime. Choose another.`, "userId");
    await storePassword(tx, id, hash, context.now);
    await replaceRoles(tx, facilityId, id, input.roles);
    return {
      reply: { personId: id },
      note: {
        text: `Added ${input.name} (${input.userId}): ${words(input.roles)}`,
        data: { personId: id, roles: input.roles },
      },
    };
  },
});

export const changeRoles = command({
  name: "change-roles",
  summary: "Change somebody's roles in this facility, or make them inactive; their open sessions end.",
  schema: changeRolesRequest,
  reply: changeRolesReply,
  locks: () => ({}),
  load: async (tx, input, context) => {
    await lockRoles(tx, context.begun.scope.facilityId);
    const people = await listPeople(tx, context.begun.scope.facilityId);
    return { person: people.find(({ id }) => id === input.personId) ?? null, people };
  },
  decide: ({ person, people }, input) => {
    if (!person) return refused("not-found", "There is no such person in your organisation.", "personId");
    const others = people.some(
      ({ id, active, roles }) => id !== input.personId && active && roles.includes("administrator"),
    );
    if (!others && !(input.active && input.roles.includes("administrator")))
      return refused(
        "not-allowed",
        "This is the last administrator here. Make somebody else administrator first.",
        "roles",
      );
    return done(person);
  },
  apply: async (tx, person, input, context) => {
    await replaceRoles(tx, context.begun.scope.facilityId, person.id, input.roles);
    await setActive(tx, person.id, input.active);
    await endSessionsOf(tx, person.id, context.now, context.actor.sessionId);
    const now = input.active ? words(input.roles) || "no role here" : "inactive";
    return {
      reply: { personId: person.id },
      note: {
        text: `Changed ${person.name} to: ${now}`,
        data: { personId: person.id, roles: input.roles, active: input.active },
      },
    };
  },
});

/** For who has forgotten it: a new first password, told in person, which they change themselves. Nobody stays signed in by the old one. */
export const givePassword = command({
  name: "give-password",
  summary: "Give somebody a new first password; their open sessions end.",
  schema: givePasswordRequest,
  reply: givePasswordReply,
  locks: () => ({}),
  load: async (tx, input, context) => ({
    person: (await listPeople(tx, context.begun.scope.facilityId)).find(({ id }) => id === input.personId) ?? null,
    hash: await hashPassword(input.password),
  }),
  decide: ({ person, hash }, _input, { actor }) => {
    if (!person) return refused("not-found", "There is no such person in your organisation.", "personId");
    if (person.id === actor.personId)
      return refused("not-allowed", "This is you. Change your own password under Password.", "personId");
    return done({ person, hash });
  },
  apply: async (tx, { person, hash }, _input, context) => {
    await storePassword(tx, person.id, hash, context.now);
    await endSessionsOf(tx, person.id, context.now, null);
    return {
      reply: { personId: person.id },
      note: { text: `Gave ${person.name} a new first password`, data: { personId: person.id } },
    };
  },
});

export const setPassword = command({
  name: "set-password",
  summary: "Change your own password; your other sessions end.",
  schema: setPasswordRequest,
  reply: setPasswordReply,
  locks: () => ({}),
  load: async (tx, input, context) => {
    const stored = await passwordOf(tx, context.actor.personId);
    return {
      matches: stored !== null && (await passwordMatches(stored, input.current)),
      hash: await hashPassword(input.next),
    };
  },
  decide: ({ matches, hash }) =>
    matches ? done(hash) : refused("invalid", "The current password is not right.", "current"),
  apply: async (tx, hash, _input, context) => {
    await storePassword(tx, context.actor.personId, hash, context.now);
    await endSessionsOf(tx, context.actor.personId, context.now, context.actor.sessionId);
    return { reply: { changedAt: timestampOf(context.now) }, note: { text: "Changed the own password" } };
  },
});
