import { type Refused, refused } from "@/lib/calculations/calculated";
import type { ApplicationIdentifier } from "./application-identifiers";
import { shown } from "./check-digit";

export type FormatRefusal = "wrong-length" | "wrong-characters";

interface Component {
  readonly digits: boolean;
  readonly least: number;
  readonly most: number;
}

/** "n13+an..17" as its parts. */
function componentsOf(format: string): Component[] {
  return format.split("+").map((part) => {
    const digits = !part.startsWith("an");
    const length = part.slice(digits ? 1 : 2);
    const most = Number(length.replace("..", ""));
    return { digits, least: length.startsWith("..") ? 0 : most, most };
  });
}

/** The characters that a value may hold: GS1 General Specifications 7.11, character set 82 (from memory). */
const ALLOWED = /^[!"%&'()*+,\-./0-9:;<=>?A-Z_a-z]$/;

/** The reason why the value cannot belong to the identifier, or null. */
export function formatProblem(
  { ai, title, format }: ApplicationIdentifier,
  value: string,
): Refused<FormatRefusal> | null {
  const components = componentsOf(format);
  const most = components.reduce((sum, part) => sum + part.most, 0);
  const least = Math.max(
    1,
    components.reduce((sum, part) => sum + part.least, 0),
  );
  if (value.length < least || value.length > most) {
    const right = least === most ? `${most}` : `${least} to ${most}`;
    const message = `(${ai}) ${title} has ${right} characters; "${shown(value)}" has ${value.length}.`;
    return refused("wrong-length", message);
  }
  return badCharacter(ai, title, components, value);
}

function badCharacter(ai: string, title: string, components: readonly Component[], value: string) {
  let at = 0;
  for (const { digits, most } of components) {
    const wrong = [...value.slice(at, at + most)].find((one) => !(digits ? /^\d$/ : ALLOWED).test(one));
    if (wrong !== undefined) return wrongCharacter(ai, title, wrong, digits);
    at += most;
  }
  return null;
}

function wrongCharacter(ai: string, title: string, character: string, digits: boolean): Refused<"wrong-characters"> {
  const right = digits ? "digits only" : "letters, digits and ! \" % & ' ( ) * + , - . / : ; < = > ? _ only";
  return refused("wrong-characters", `(${ai}) ${title} holds "${shown(character)}"; it may hold ${right}.`);
}

/** Is this a value that an identifier not known here may have? */
export function unknownValueProblem(ai: string, value: string): Refused<FormatRefusal> | null {
  if (value.length === 0) return refused("wrong-length", `(${ai}) has no value.`);
  const wrong = [...value].find((one) => !ALLOWED.test(one));
  return wrong === undefined ? null : wrongCharacter(ai, "identifier that is not known", wrong, false);
}
