import type { Actor } from "@/lib/auth/actor";
import { attemptLimits } from "@/lib/auth/rate-limit";
import { done, type Outcome, refused } from "@/lib/domain/outcome";

/** Commands that compare a secret of the person: an open session must not be a way to guess it. */
const COMPARES_A_SECRET: ReadonlySet<string> = new Set(["set-password", "set-pin"]);

/** Counted as signing in is, before the secret is looked at; `right` takes the attempt back. */
export async function guessesHeld(
  command: string,
  actor: Actor,
  device: string,
): Promise<Outcome<{ right(): Promise<void> }, "too-many">> {
  if (!COMPARES_A_SECRET.has(command)) return done({ right: async () => undefined });
  const wait = await attemptLimits().attempt(actor.userId, device);
  if (wait > 0)
    return refused(
      "too-many",
      `Too many wrong attempts. Wait ${Math.ceil(wait / 60)} minutes, then try again.`,
      "current",
    );
  return done({ right: () => attemptLimits().succeeded(actor.userId, device) });
}
