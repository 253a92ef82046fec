import { decoyHash, passwordMatches } from "@/lib/auth/password";
import { attemptLimits, pinLimits } from "@/lib/auth/rate-limit";
import { done, type Outcome, refused } from "@/lib/domain/outcome";
import { pinOf } from "@/lib/storage/access";
import type { Database, Scope } from "@/lib/storage/client";
import { passwordOf } from "@/lib/storage/people";

export interface GivenSecret {
  readonly kind: "pin" | "password";
  readonly value: string;
}

const minutes = (seconds: number): string => {
  const whole = Math.ceil(seconds / 60);
  return whole === 1 ? "a minute" : `${whole} minutes`;
};

/**
 * Is this the person's own PIN or password? Counted before it is looked at, in the same counters as signing in: whoever is locked out
 * there is locked out here, and goes on saving. The secret is compared outside of any transaction, because that is slow on purpose.
 */
export async function secretMatches(
  who: Scope & { readonly personId: string; readonly userId: string },
  secret: GivenSecret,
  device: string,
  database: Database,
): Promise<Outcome<null, "signature-wrong" | "too-many">> {
  const limits = secret.kind === "pin" ? pinLimits() : attemptLimits();
  const wait = await limits.attempt(who.userId, device);
  if (wait > 0)
    return refused(
      "too-many",
      `Too many wrong attempts. Wait ${minutes(wait)}${secret.kind === "pin" ? ", or give your password" : ""}. What you save is saved meanwhile; only signing waits.`,
    );
  const kept = await database.inScope(who, (tx) =>
    secret.kind === "pin" ? pinOf(tx, who.personId) : passwordOf(tx, who.personId),
  );
  if (!(await passwordMatches(kept ?? (await decoyHash()), secret.value)) || kept === null)
    return refused(
      "signature-wrong",
      secret.kind === "pin" ? "This PIN is not yours." : "This password is not yours.",
      "signature.secret",
    );
  await limits.succeeded(who.userId, device);
  return done(null);
}
