import type { LocalDate } from "@/lib/units/time";
import { applicationIdentifier } from "./application-identifiers";
import { type RawElement, splitElementString } from "./split-string";

/** No identifier has a longer value. */
const LONGEST_VALUE = 90;

type Read = (element: RawElement, seenOn: LocalDate) => object;

/** Dates and numbers with a check digit: a run of digits is one of these by chance seldom enough to be worth saying. */
const TELLING = /^(00|01|02|1[1-7]|41\d)$/;

/**
 * Values of open length that end in what reads as further elements: a lot "AB117270228" may be lot AB1 and an expiry, with the
 * separator lost. Only said, never guessed: a lot may really read so.
 */
export function swallowed(elements: readonly RawElement[], seenOn: LocalDate, read: Read): string[] {
  const present = new Set(elements.map(({ ai }) => ai));
  return elements
    .filter(({ openEnded, value }) => openEnded && value.length <= LONGEST_VALUE)
    .flatMap(({ ai, value }) => {
      const at = hiddenAt(value, present, seenOn, read);
      if (at === null) return [];
      const title = applicationIdentifier(ai)?.title ?? "value";
      return [
        `(${ai}) ${title} reads "${value}"; its end, "${value.slice(at)}", reads like a further element. A separator may be missing: compare the label.`,
      ];
    });
}

function hiddenAt(value: string, present: ReadonlySet<string>, seenOn: LocalDate, read: Read): number | null {
  for (let at = 1; at < value.length - 3; at += 1) {
    const rest = splitElementString(value.slice(at));
    const [first] = rest.ok ? rest.elements : [];
    if (!(rest.ok && first && TELLING.test(first.ai)) || present.has(first.ai)) continue;
    const readable = rest.elements.every(
      (element) => applicationIdentifier(element.ai) && !("refusal" in read(element, seenOn)),
    );
    if (readable) return at;
  }
  return null;
}
