import { z } from "zod";
import { ITEM_IDS, isOwnItem, OWN_ITEM_LONGEST, type OwnItemId } from "@/lib/domain/items";
import { GASES, NEEDS, ROLES, SCHEMES } from "@/lib/domain/vocabulary";
import { PRESSURE_UNITS } from "@/lib/units/pressure";
import { UNITS } from "@/lib/units/quantity";

/** The small pieces every schema is made of; each message says what would be right. */
export const id = z.uuid("must be an id (UUID)");
export const timestamp = z.iso.datetime({ offset: true, error: "must be an instant such as 2026-11-25T06:10:00Z" });
export const date = z.iso.date("must be a date such as 2026-11-25");
export const timeOfDay = z.string().regex(/^([01]\d|2[0-3]):[0-5]\d$/, "must be a time of day such as 07:15");

/** Can a record hold it? Not the character of code 0, and not half of a character: the database and the canonical text refuse both. */
export const isStorable = (text: string): boolean => !text.includes("\u0000") && !/\p{Cs}/u.test(text);

/** One line of somebody's own words. Control characters would let a line forge another in an export. */
export const words = (most: number) =>
  z
    .string()
    .trim()
    .min(1, "must not be empty")
    .max(most, `must be at most ${most} characters`)
    // biome's control-character rule does not like them in a pattern, so the code points are compared.
    .refine(
      (text) => [...text].every((character) => character >= " " || character === "\n"),
      "must not hold control characters",
    )
    .refine(isStorable, "must not hold half of a character");

export const quantity = z.strictObject({ value: z.number(), unit: z.enum(UNITS) });
export const pressureUnit = z.enum(PRESSURE_UNITS);
export const scheme = z.enum(SCHEMES);
export const gas = z.enum(GASES);
export const need = z.enum(NEEDS);
export const role = z.enum(ROLES);
export const ownItemId = z
  .string()
  .max(OWN_ITEM_LONGEST)
  .regex(/^own-(workstation|room)-[a-z0-9]+(-[a-z0-9]+)*$/, "must be the id of an own question, such as own-room-clock")
  .refine((item): item is OwnItemId => isOwnItem(item), "must be the id of an own question, such as own-room-clock");
/** An item of the list, or a question that a site added. */
export const itemId = z.union([z.enum(ITEM_IDS), ownItemId]);

export const subject = z.strictObject({
  kind: z.enum(["workstation", "room", "cylinder", "vaporizer", "absorbent", "oxygen-sensor", "pipeline"]),
  id: z.string().min(1).max(64),
});

const note = words(500).optional();
/** The person was asked about a reading far from its history, and confirmed it. */
const sure = z.literal(true, "must be true, or left out").optional();
export const answer = z.discriminatedUnion("kind", [
  z.strictObject({ kind: z.literal("pass"), passed: z.boolean(), note }),
  z.strictObject({ kind: z.literal("number"), reading: quantity, sure, note }),
  z.strictObject({
    kind: z.literal("gauge"),
    reading: quantity,
    openWhenRead: z.boolean(),
    shutAgain: z.boolean(),
    sure,
    note,
  }),
  z.strictObject({ kind: z.literal("choice"), choice: words(60), note }),
  z.strictObject({ kind: z.literal("timed"), seconds: z.number().min(0).max(3600), held: z.boolean(), note }),
]);

export const person = z.strictObject({ id, name: z.string() });

/** A rule as the list of rules names it. */
export const ruleId = z
  .string()
  .max(80)
  .regex(/^[a-z0-9]+(-[a-z0-9]+)*$/, "must be the id of a rule, such as suction");
