import { invalid, problem } from "@/app/_edge/problem";
import { refusalResponse } from "@/app/_edge/refusal";
import type { Actor } from "@/lib/auth/actor";
import { proveSigner, type SigningProof, signingDemand } from "@/lib/auth/signing";
import type { Command } from "@/lib/commands/command";
import { may } from "@/lib/domain/permission";
import { givenSignature } from "@/lib/schemas/access";

type Taken = { readonly ok: true; readonly value: SigningProof } | { readonly ok: false; readonly response: Response };

/**
 * The ceremony over HTTP. Without what is asked for, the answer is 428 and says what is: who signs, what the signature says, which
 * components. The screen then asks the person, and sends the same request again with them.
 */
export async function takeSignature(
  command: Command<never>,
  given: unknown,
  actor: Actor,
  device: string,
): Promise<Taken> {
  // Whoever may not give the command is told that, and is not asked for a secret first.
  if (!may(actor.roles, command.name))
    return refusedWith({
      refusal: "not-allowed",
      message: `${actor.name} may not ${command.name.replaceAll("-", " ")} in ${actor.facility.name}.`,
    });
  const parsed = givenSignature.nullish().safeParse(given);
  if (!parsed.success) return { ok: false, response: invalid(parsed.error, given) };
  const proof = await proveSigner(actor, parsed.data ?? null, device);
  if (proof.ok) return { ok: true, value: proof.value };
  if (proof.refusal !== "signature-required") return refusedWith(proof);
  const demand = await signingDemand(actor);
  return {
    ok: false,
    response: problem(428, proof.refusal, "Sign", proof.message, {
      signing: {
        name: actor.name,
        userId: actor.userId,
        meaning: command.meaning,
        asks: demand.ok ? demand.value : "two",
        hasPin: actor.session?.hasPin ?? false,
        hasPassword: actor.session?.hasPassword ?? false,
      },
    }),
  };
}

const refusedWith = (outcome: Parameters<typeof refusalResponse>[0]): Taken => ({
  ok: false,
  response: refusalResponse(outcome),
});
