import type { SiteWords } from "@/lib/domain/site/model";

/**
 * Texts are written in one set of words (anesthesia, suite, room, daily check, waste gas); this says them in the site's own.
 * As a template tag it leaves the values alone: what people named themselves stays as they wrote it.
 */
export interface Say {
  (text: string): string;
  (texts: TemplateStringsArray, ...values: readonly (string | number)[]): string;
}

interface Change {
  readonly from: RegExp;
  readonly to: (found: string) => string;
}

/** "Suites" for "suites", where the word found began so. */
const likeIt = (word: string) => (found: string) =>
  /^[A-Z]/.test(found) ? `${word.charAt(0).toUpperCase()}${word.slice(1)}` : word;

/** One word in one and in many. All of them take an s. */
const noun = (from: string, word: string): Change[] => [
  { from: new RegExp(`\\b${from}s\\b`, "gi"), to: likeIt(`${word}s`) },
  { from: new RegExp(`\\b${from}\\b`, "gi"), to: likeIt(word) },
];

function changesFor({ anesthesia, wasteGas, suite, room, check }: SiteWords): Change[] {
  return [
    ...(anesthesia === "anaesthesia" ? [{ from: /\banesthe/gi, to: likeIt("anaesthe") }] : []),
    { from: /\bwaste gas\b/gi, to: () => wasteGas },
    ...noun("daily check", check),
    ...(suite === "suite" ? [] : noun("suite", suite)),
    // The air and the temperature of a room are those of any room.
    ...(room === "theatre" ? [...noun("operating room", room), ...noun("room(?! air| temperature)", room)] : []),
  ];
}

/** How a site with these words says what is written here. */
export function sayIn(words: SiteWords): Say {
  const changes = changesFor(words);
  const said = (text: string) => changes.reduce((now, { from, to }) => now.replace(from, to), text);
  return (texts: string | TemplateStringsArray, ...values: readonly (string | number)[]) =>
    typeof texts === "string" ? said(texts) : texts.map((text, at) => `${said(text)}${values[at] ?? ""}`).join("");
}

/** A sentence with names in it that people gave: they stay as they are, whatever words are in them. */
export function sayAround(say: Say, text: string, names: readonly string[]): string {
  const kept = names.filter(Boolean).sort((left, right) => right.length - left.length);
  if (kept.length === 0) return say(text);
  const escaped = kept.map((name) => name.replace(/[.*+?^${}()|[\]\\]/g, "\\$&"));
  return text
    .split(new RegExp(`(${escaped.join("|")})`))
    .map((piece, at) => (at % 2 === 1 ? piece : say(piece)))
    .join("");
}
