import { z } from "zod";
import { IDLE_MINUTES, SIGNING_POLICIES } from "@/lib/domain/access/model";
import { id, role, timestamp, words } from "@/lib/schemas/common";

/** What travels beside the input of a command that is a signature; it is compared and never kept. */
export const givenSignature = z.strictObject({
  userId: z.string().max(80, "must be at most 80 characters").optional(),
  secret: z
    .strictObject({ kind: z.enum(["pin", "password"]), value: z.string().min(1, "must not be empty").max(200) })
    .optional(),
});

export const setPinRequest = z.strictObject({
  /** The present password or PIN; not needed within ten minutes of coming in by an issuer. */
  current: z.strictObject({ kind: z.enum(["pin", "password"]), value: z.string().max(200) }).nullable(),
  pin: z.string().regex(/^\d{6,12}$/, "must be 6 to 12 digits"),
});
export const setPinReply = z.strictObject({ changedAt: timestamp });
export const clearPinRequest = z.strictObject({ personId: id });
export const clearPinReply = z.strictObject({ personId: id });

const claimText = (most: number) => words(most).refine((text) => !text.includes("\n"), "must be one line");
export const roleMapping = z.strictObject({
  claim: claimText(120),
  gives: z
    .array(z.strictObject({ value: claimText(200), roles: z.array(role).min(1, "must hold at least one role") }))
    .min(1, "must hold at least one line")
    .max(100, "must hold at most 100 lines"),
});

export const setAccessRequest = z.strictObject({
  seenVersion: z.int().nonnegative(),
  signing: z.enum(SIGNING_POLICIES),
  idleMinutes: z
    .int()
    .min(IDLE_MINUTES.least, `must be at least ${IDLE_MINUTES.least}`)
    .max(IDLE_MINUTES.most, `must be at most ${IDLE_MINUTES.most}`),
  mapping: roleMapping.nullable(),
});
export const setAccessReply = z.strictObject({ version: z.int() });

const issuer = z.url("must be an address such as https://id.example.org").max(300);
const subject = claimText(255);
export const bindIdentityRequest = z.strictObject({ personId: id, issuer, subject });
export const bindIdentityReply = z.strictObject({ personId: id });
export const unbindIdentityRequest = z.strictObject({ issuer, subject });
export const unbindIdentityReply = z.strictObject({ personId: id });

/** A prefix that scanners of leaked secrets can look for, then 240 bits. */
export const API_TOKEN = /^yb_[A-Za-z0-9_-]{40}$/;
/** Whoever issues a token draws it, so that it is never in an answer that is kept; only its hash is stored. */
export const issueTokenRequest = z.strictObject({
  name: words(80),
  token: z.string().regex(API_TOKEN, "must be yb_ and 40 letters, digits, hyphens or underscores, drawn at random"),
  reads: z.boolean(),
  commands: z.array(z.string().max(60)).max(100),
  days: z.int().min(1, "must be at least 1 day").max(366, "must be at most 366 days"),
});
export const issueTokenReply = z.strictObject({ tokenId: id, endsAt: timestamp });
export const revokeTokenRequest = z.strictObject({ tokenId: id });
export const revokeTokenReply = z.strictObject({ tokenId: id });

export const accessView = z.strictObject({
  version: z.int(),
  signing: z.enum(SIGNING_POLICIES),
  idleMinutes: z.int(),
  mapping: roleMapping.nullable(),
  /** The issuer this server signs people in by; null without one. */
  issuer: z.strictObject({ name: z.string(), address: z.string() }).nullable(),
  identities: z.array(
    z.strictObject({
      issuer: z.string(),
      subject: z.string(),
      person: z.string(),
      userId: z.string(),
      boundAt: timestamp,
    }),
  ),
  people: z.array(z.strictObject({ id, name: z.string(), userId: z.string() })),
  tokens: z.array(
    z.strictObject({
      id,
      name: z.string(),
      reads: z.boolean(),
      commands: z.array(z.string()),
      person: z.strictObject({ id, name: z.string() }),
      createdAt: timestamp,
      endsAt: timestamp,
      revokedAt: timestamp.nullable(),
      lastUsedAt: timestamp.nullable(),
    }),
  ),
  /** The commands that a token can be issued for. */
  commands: z.array(z.string()),
  at: timestamp,
});

export const lockRequest = z.strictObject({});
export const lockReply = z.strictObject({ locked: z.boolean() });
export const unlockRequest = z.strictObject({
  secret: z.strictObject({ kind: z.enum(["pin", "password"]), value: z.string().min(1, "must not be empty").max(200) }),
});
export const onDeviceView = z.strictObject({
  people: z.array(
    z.strictObject({
      userId: z.string(),
      name: z.string(),
      facility: z.string(),
      hasPin: z.boolean(),
      here: z.boolean(),
    }),
  ),
});
export type OnDeviceView = z.infer<typeof onDeviceView>;
