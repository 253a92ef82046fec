import type { Actor } from "@/lib/auth/actor";
import { declineProcedure } from "@/lib/commands/decline-procedure";
import { draftProcedure, dropProcedure, proposeProcedure } from "@/lib/commands/propose-procedure";
import type { CommandName } from "@/lib/domain/permission";
import { readProcedures } from "@/lib/queries/procedures";
import type { ProceduresView } from "@/lib/schemas/procedure";
import { readingOf } from "@/tests/support/room-work";
import type { SmallDepartment } from "@/tests/support/small-department";

interface Scene {
  readonly department: SmallDepartment;
  readonly helper: Actor;
}

export async function kindOf({ department, helper }: Scene, kind: ProceduresView["kinds"][number]["kind"]) {
  const { kinds } = await readProcedures(helper, readingOf(department));
  const found = kinds.find((one) => one.kind === kind);
  if (!found) throw new Error(`no ${kind} among the procedures`);
  return found;
}

/** No draft of a kind is open: what stood open is given up. */
async function withoutDraft(scene: Scene): Promise<void> {
  const { department } = scene;
  const { draft } = await kindOf(scene, "each-case");
  if (draft === null) return;
  const { id: draftId, revision, state } = draft;
  if (state === "proposed")
    await department.must(declineProcedure, { draftId, reason: "Begun anew." }, department.admin);
  await department.must(dropProcedure, { draftId, revision }, department.admin);
}

/** A draft from another ready-made list than the one in force, of an author who approves nothing here. */
async function begun(scene: Scene) {
  await withoutDraft(scene);
  const { inForce } = await kindOf(scene, "each-case");
  const from = inForce?.name === "Check between cases" ? "each-case-fda-1993" : "each-case-iso";
  return scene.department.must(draftProcedure, { kind: "each-case", from }, scene.department.admin);
}

async function proposal(scene: Scene) {
  const { today } = await readProcedures(scene.helper, readingOf(scene.department));
  return { ...(await begun(scene)), inForceOn: today, reason: "Between cases we follow this list." };
}

async function proposed(scene: Scene) {
  const input = await proposal(scene);
  await scene.department.must(proposeProcedure, input, scene.department.admin);
  return input;
}

/** The inputs of the commands about procedures, each for a department as it stands. */
export const PREPARE_PROCEDURES = {
  "draft-procedure": async (scene: Scene) => {
    await withoutDraft(scene);
    return { kind: "each-case", from: null };
  },
  "save-procedure": async (scene: Scene) => {
    const { draftId, revision } = await begun(scene);
    const { draft } = await kindOf(scene, "each-case");
    return { draftId, revision, text: { ...draft?.text, name: "Between our cases" } };
  },
  "propose-procedure": proposal,
  "drop-procedure": begun,
  "approve-procedure": async (scene: Scene) => {
    const { draftId, revision } = await proposed(scene);
    return { draftId, revision };
  },
  "decline-procedure": async (scene: Scene) => ({
    draftId: (await proposed(scene)).draftId,
    reason: "Not before the new year.",
  }),
} satisfies Partial<Record<CommandName, (scene: Scene) => Promise<unknown>>>;
