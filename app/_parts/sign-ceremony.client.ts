"use client";

import type { Problem } from "./api.client";

/** What the server asks of whoever is about to sign. */
export interface SigningAsked {
  readonly name: string;
  readonly userId: string;
  readonly meaning: "performed" | "confirmed" | "approved" | "released";
  readonly asks: "two" | "one";
  readonly hasPin: boolean;
  readonly hasPassword: boolean;
}

export interface GivenSignature {
  readonly userId?: string;
  readonly secret: { readonly kind: "pin" | "password"; readonly value: string };
}

/** One attempt: null when it is signed, or the sentence of what was wrong. */
export type TrySigning = (given: GivenSignature) => Promise<string | null>;
type Ask = (asked: SigningAsked, attempt: TrySigning) => Promise<void>;

let ask: Ask | null = null;

/** Whoever mounts the dialog registers it; a command that is a signature waits for it. */
export function registerSigning(next: Ask): () => void {
  ask = next;
  return () => {
    if (ask === next) ask = null;
  };
}

/** Resolves once it is signed, or the person has closed the dialog. */
export const askToSign = (asked: SigningAsked, attempt: TrySigning): Promise<void> =>
  ask ? ask(asked, attempt) : Promise.resolve();

/** What a refusal says of the signature that is missing; null for every other refusal. */
export function signingIn(problem: Problem): SigningAsked | null {
  return problem.status === 428 && problem.signing ? problem.signing : null;
}

/** A refusal after which the person may try once more in the same dialog. */
export const mayTryAgain = (problem: Problem): boolean =>
  problem.status === 428 || problem.type.endsWith(":signature-wrong") || problem.type.endsWith(":too-many");
