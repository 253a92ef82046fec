import { type Context, command } from "@/lib/commands/command";
import { done, refused } from "@/lib/domain/outcome";
import {
  addChannelReply,
  addChannelRequest,
  channelRequest,
  chooseSummariesReply,
  chooseSummariesRequest,
  removeChannelReply,
  testChannelReply,
} from "@/lib/schemas/messages";
import { channelsOf, endChannel, insertChannel, replaceSummaries } from "@/lib/storage/channels";
import type { Tx } from "@/lib/storage/client";
import { insertMessage } from "@/lib/storage/messages";
import { timestampOf } from "@/lib/units/time";

const KIND_NAMES = { push: "push messages on a device", webhook: "a webhook", mail: "mail" } as const;

const own = (tx: Tx, _input: unknown, { begun, actor }: Context) =>
  channelsOf(tx, begun.scope.facilityId, actor.personId);

const MOST_CHANNELS = 12;

/** Addresses are personal: they stand in no history entry. */
export const addChannel = command({
  name: "add-channel",
  summary: "Add a way by which you are reached: push on this device, a webhook or mail.",
  schema: addChannelRequest,
  reply: addChannelReply,
  locks: () => ({}),
  load: own,
  decide: (channels) =>
    channels.length >= MOST_CHANNELS
      ? refused("too-many", `You have ${channels.length} ways already. Remove one first.`)
      : done(null),
  apply: async (tx, _decided, input, context) => {
    const { facilityId } = context.begun.scope;
    const channelId = context.newId();
    const address: Record<string, string> =
      input.kind === "push" ? { to: input.to, p256dh: input.p256dh, auth: input.auth } : { to: input.to };
    const label = input.kind === "push" ? input.label : input.kind === "mail" ? input.to : new URL(input.to).host;
    const channel = {
      id: channelId,
      personId: context.actor.personId,
      kind: input.kind,
      address,
      label,
      at: context.now,
    };
    if (!(await insertChannel(tx, facilityId, channel)))
      return refused("already-done", "You are reached by this address already.", "to");
    return {
      reply: { channelId },
      note: { text: `Is reached by ${KIND_NAMES[input.kind]}`, data: { channelId, kind: input.kind } },
    };
  },
});

function ofMine(channels: Awaited<ReturnType<typeof own>>, channelId: string) {
  const found = channels.find(({ id }) => id === channelId);
  return found ? done(found) : refused("not-found", "You have no such way of being reached.", "channelId");
}

export const removeChannel = command({
  name: "remove-channel",
  summary: "Remove a way by which you are reached; what still waits to go by it is dropped.",
  schema: channelRequest,
  reply: removeChannelReply,
  locks: () => ({}),
  load: own,
  decide: (channels, { channelId }) => ofMine(channels, channelId),
  apply: async (tx, { id, kind }, _input, context) => {
    await endChannel(tx, context.begun.scope.facilityId, id, context.now);
    return {
      reply: { channelId: id, endedAt: timestampOf(context.now) },
      note: { text: `Is no longer reached by ${KIND_NAMES[kind]}`, data: { channelId: id, kind } },
    };
  },
});

export const testChannel = command({
  name: "test-channel",
  summary: "Send yourself a test message by one way.",
  schema: channelRequest,
  reply: testChannelReply,
  locks: () => ({}),
  load: own,
  decide: (channels, { channelId }) => ofMine(channels, channelId),
  apply: async (tx, { id, kind }, _input, context) => {
    const messageId = context.newId();
    const message = {
      id: messageId,
      personId: context.actor.personId,
      kind: "test",
      about: messageId,
      title: "A test message",
      body: `Messages of ${context.begun.facility.name} reach you by this way.`,
      path: "/messages",
      at: context.now,
    } as const;
    await insertMessage(tx, context.begun.scope.facilityId, message, { channelId: id });
    return {
      reply: { channelId: id, messageId },
      note: { text: `Sent a test message by ${KIND_NAMES[kind]}`, data: { channelId: id, kind } },
    };
  },
});

export const chooseSummaries = command({
  name: "choose-summaries",
  summary: "Choose which summaries you get by mail, and at what time of day.",
  schema: chooseSummariesRequest,
  reply: chooseSummariesReply,
  locks: () => ({}),
  load: own,
  decide: (channels, { morning, week }) =>
    (morning !== null || week !== null) && !channels.some(({ kind }) => kind === "mail")
      ? refused(
          "does-not-fit",
          "Summaries go by mail. Add your mail address first.",
          morning === null ? "week" : "morning",
        )
      : done(null),
  apply: async (tx, _decided, choices, context) => {
    await replaceSummaries(tx, context.begun.scope.facilityId, context.actor.personId, choices);
    const said = (["morning", "week"] as const).flatMap((kind) =>
      choices[kind] ? [`${kind} at ${choices[kind]}`] : [],
    );
    return {
      reply: choices,
      note: { text: `Summaries by mail: ${said.join(", ") || "none"}`, data: { ...choices } },
    };
  },
});
