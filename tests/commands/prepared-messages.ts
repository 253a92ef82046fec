import { type Actor, scopeOf } from "@/lib/auth/actor";
import { addChannel } from "@/lib/commands/channels";
import { escalateTask } from "@/lib/commands/escalations";
import { readTasks } from "@/lib/queries/tasks";
import { endEscalation, escalationsOfOpenTasks } from "@/lib/storage/escalations";
import { instant } from "@/lib/units/time";
import { readingOf } from "@/tests/support/room-work";
import type { Scene } from "./prepared-inputs";

let counted = 0;

async function aTask({ department, helper }: Scene): Promise<string> {
  const { tasks } = await readTasks(helper, readingOf(department));
  const [first] = tasks;
  if (!first) throw new Error("there is no task to be asked about");
  const { facilityId } = scopeOf(helper);
  await department.database.inScope(scopeOf(helper), async (tx) => {
    for (const { id } of await escalationsOfOpenTasks(tx, facilityId))
      await endEscalation(tx, facilityId, id, "over", instant(department.clock.now()));
  });
  return first.key;
}

async function somebodyElse({ department }: Scene): Promise<Actor> {
  counted += 1;
  return department.person(`Ole Other${"abcdefghijklmnopqrstuvwxyz"[counted % 26]} ${counted}`, ["charge-provider"]);
}

/** The one who gives the command is asked by the helper. */
async function askedOf(scene: Scene): Promise<string> {
  const { department, helper, actor } = scene;
  const asking = actor.personId === helper.personId ? await somebodyElse(scene) : helper;
  const input = { key: await aTask(scene), personId: actor.personId, reason: "nobody has it" };
  return (await department.must(escalateTask, input, asking)).escalationId;
}

async function ownChannel({ department, actor }: Scene): Promise<string> {
  counted += 1;
  const mail = { kind: "mail", to: `own.${counted}@quillhaven.example` } as const;
  return (await department.must(addChannel, mail, actor)).channelId;
}

export const PREPARE_MESSAGES = {
  "escalate-task": async (scene: Scene) => ({
    key: await aTask(scene),
    personId: (await somebodyElse(scene)).personId,
    reason: "no cylinder in any store",
  }),
  "acknowledge-escalation": async (scene: Scene) => ({ escalationId: await askedOf(scene) }),
  "pass-on-escalation": async (scene: Scene) => ({
    escalationId: await askedOf(scene),
    personId: (await somebodyElse(scene)).personId,
  }),
  "add-channel": async () => {
    counted += 1;
    return { kind: "webhook", to: `https://pager.example/${counted}` };
  },
  "remove-channel": async (scene: Scene) => ({ channelId: await ownChannel(scene) }),
  "test-channel": async (scene: Scene) => ({ channelId: await ownChannel(scene) }),
  "choose-summaries": async (scene: Scene) => {
    await ownChannel(scene);
    return { morning: "06:20", week: null };
  },
};
