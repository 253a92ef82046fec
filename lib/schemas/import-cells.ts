import { z } from "zod";
import { ITEM_IDS, type ItemId } from "@/lib/domain/items";
import { nearest } from "@/lib/domain/nearest";
import { GASES, type Gas } from "@/lib/domain/vocabulary";
import { password, userId } from "@/lib/schemas/set-up";
import { type LocalDate, type LocalTime, localDate, localTime } from "@/lib/units/time";

/** A cell: text as it stands in the file, or the value it means. A refusal says what would be right. */
export type Cell<Value> = z.ZodType<Value, string>;

/** What a cell's function gives back when the text is not right. */
class Wrong {
  constructor(readonly message: string) {}
}

const cell = <Value>(read: (text: string) => Value | Wrong): Cell<Value> =>
  z.string().transform((text, context): Value => {
    const value = read(text);
    if (!(value instanceof Wrong)) return value;
    context.addIssue({ code: "custom", message: value.message });
    return z.NEVER;
  });

/** Words of the trade are written with spaces by people and with hyphens by the code; letter case says nothing. */
const plain = (text: string): string => text.toLowerCase().replace(/[\s_-]+/g, "-");
const spaced = (text: string): string => text.replaceAll("-", " ");
const choices = (words: readonly string[]): string =>
  words.length < 2 ? words.join("") : `${words.slice(0, -1).join(", ")} or ${words.at(-1)}`;

const piecesOf = (text: string): string[] =>
  text
    .split("|")
    .map((piece) => piece.trim())
    .filter((piece) => piece !== "");

export const text = (most: number): Cell<string> =>
  cell((given) => {
    if (given.length > most) return new Wrong(`is longer than ${most} characters; shorten it.`);
    return [...given].every((character) => character >= " ")
      ? given
      : new Wrong("holds a line break or control character; write it on one line.");
  });

export function oneOf<const Word extends string>(words: readonly Word[]): Cell<Word> {
  return cell(
    (given) =>
      words.find((word) => plain(word) === plain(given)) ??
      new Wrong(`is not known here; write ${choices(words.map(spaced))}.`),
  );
}

/** Several words with a bar between them, kept in one order so that two files that mean the same are the same. */
export function manyOf<const Word extends string>(words: readonly Word[]): Cell<readonly Word[]> {
  return cell((given) => {
    const pieces = piecesOf(given);
    const wrong = pieces.find((piece) => !words.some((word) => plain(word) === plain(piece)));
    if (wrong !== undefined)
      return new Wrong(
        `"${wrong}" is not known here; write any of ${choices(words.map(spaced))}, with | between them.`,
      );
    return words.filter((word) => pieces.some((piece) => plain(word) === plain(piece)));
  });
}

export const yesNo: Cell<boolean> = cell((given) => {
  const word = given.toLowerCase();
  return word === "yes" || word === "no" ? word === "yes" : new Wrong("must be yes or no.");
});

/** Decimal point only: with a comma nobody can tell four point eight from forty-eight hundred. */
export const number = (least: number, most: number): Cell<number> =>
  cell((given) => {
    if (/^-?\d{1,3}(,\d{3})+(\.\d+)?$/.test(given)) {
      return new Wrong(
        `${given} has a comma; write ${given.replaceAll(",", "")}, or ${given.replace(",", ".")} if the comma was meant as a decimal point.`,
      );
    }
    if (/^-?\d+,\d+$/.test(given)) return new Wrong(`${given} has a decimal comma; write ${given.replace(",", ".")}.`);
    if (!/^-?\d+(\.\d+)?$/.test(given))
      return new Wrong(`is not a number; write digits alone, with a decimal point where needed, such as 4.8.`);
    const value = Number(given);
    return value >= least && value <= most ? value : new Wrong(`must be from ${least} to ${most}.`);
  });

export const wholeNumber = (least: number, most: number): Cell<number> =>
  number(least, most).refine((value) => Number.isInteger(value), "must be a whole number.");

export const date: Cell<LocalDate> = cell((given) => {
  try {
    return localDate(given);
  } catch {
    return new Wrong("is not a date; write it as YYYY-MM-DD, such as 2027-03-31.");
  }
});

export const time: Cell<LocalTime> = cell((given) => {
  try {
    return localTime(given);
  } catch {
    return new Wrong("is not a time of day; write it as HH:MM, such as 07:15.");
  }
});

/** A number of mounts, or their names. */
export const mounts: Cell<readonly string[]> = cell((given) => {
  if (!/^\d+$/.test(given)) return distinct(piecesOf(given), "mount");
  const count = Number(given);
  return count <= 6
    ? Array.from({ length: count }, (_, index) => String(index + 1))
    : new Wrong("is more vaporizer mounts than any workstation has; write 0 to 6, or their names with | between them.");
});

/** "1:oxygen|2:nitrous oxide": each yoke's position and its gas. */
export const yokes: Cell<readonly { readonly position: string; readonly gas: Gas }[]> = cell((given) => {
  const pairs = piecesOf(given).map((piece) => {
    const [position = "", gas = "", ...more] = piece.split(":").map((part) => part.trim());
    return { position, gas: more.length > 0 ? undefined : GASES.find((known) => known === plain(gas)), piece };
  });
  const wrong = pairs.find(({ position, gas }) => position === "" || gas === undefined);
  if (wrong)
    return new Wrong(
      `"${wrong.piece}" is not a yoke; write its position, a colon and its gas, such as 1:oxygen|2:nitrous oxide.`,
    );
  const positions = distinct(
    pairs.map(({ position }) => position),
    "yoke",
  );
  return positions instanceof Wrong
    ? positions
    : pairs.flatMap(({ position, gas }) => (gas ? [{ position, gas }] : []));
});

function distinct(names: readonly string[], what: string): readonly string[] | Wrong {
  const twice = names.find((name, index) => names.indexOf(name) !== index);
  return twice === undefined ? names : new Wrong(`names ${what} ${twice} twice; give each its own name.`);
}

export const itemIds: Cell<readonly ItemId[]> = cell((given) => {
  const pieces = piecesOf(given);
  const wrong = pieces.find((piece) => !ITEM_IDS.some((item) => item === plain(piece)));
  if (wrong === undefined) return ITEM_IDS.filter((item) => pieces.some((piece) => plain(piece) === item));
  const meant = nearest(wrong, ITEM_IDS);
  return new Wrong(
    `"${wrong}" is not an item of a check${meant ? `; did you mean ${meant}?` : "; docs/examples lists them."}`,
  );
});

export const accountName: Cell<string> = userId;
export const firstPassword: Cell<string> = password;
