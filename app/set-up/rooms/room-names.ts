const RANGE = /^(.*?)(\d+)\s*(?:to|-|–)\s*(.*?)(\d+)$/i;
/** More rooms than this are no corridor but a slip of the finger. */
const LONGEST = 100;

/**
 * The names that a line of text means: "OR 1 to OR 12", "HV 1-4, MRI". A zero in front is kept, so that 01 to 12 stays in order.
 * What is no range is a name as it stands.
 */
export function roomNames(text: string): string[] {
  return text
    .split(/[,;\n]/)
    .map((part) => part.trim())
    .filter(Boolean)
    .flatMap(rangeOf);
}

function rangeOf(part: string): string[] {
  const [, before = "", first = "", again = "", last = ""] = RANGE.exec(part) ?? [];
  const [from, to] = [Number(first), Number(last)];
  const sameStem = again === "" || again.trim().toLowerCase() === before.trim().toLowerCase();
  if (first === "" || !sameStem || to <= from || to - from >= LONGEST) return [part];
  const width = first.startsWith("0") ? first.length : 0;
  return Array.from({ length: to - from + 1 }, (_, at) => `${before}${String(from + at).padStart(width, "0")}`);
}
