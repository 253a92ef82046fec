/** Insertions, deletions and replacements that turn one text into the other (Levenshtein 1966), letter case aside. */
export function editDistance(left: string, right: string): number {
  const [from, to] = [left.toLowerCase(), right.toLowerCase()];
  let row = Array.from({ length: to.length + 1 }, (_, column) => column);
  for (let i = 1; i <= from.length; i += 1) {
    const next = [i];
    for (let j = 1; j <= to.length; j += 1) {
      const replaced = (row[j - 1] ?? 0) + (from[i - 1] === to[j - 1] ? 0 : 1);
      next.push(Math.min(replaced, (row[j] ?? 0) + 1, (next[j - 1] ?? 0) + 1));
    }
    row = next;
  }
  return row[to.length] ?? 0;
}

/** Asked for one text against a whole department; more candidates than this would make a wrong file slow to refuse. */
const MOST_COMPARED = 2_000;

/** The known text that was most likely meant, or null when none is close: at most a third of the letters may differ. */
export function nearest(text: string, known: readonly string[]): string | null {
  const most = Math.max(1, Math.floor(text.length / 3));
  let best: { readonly text: string; readonly distance: number } | null = null;
  for (const candidate of known.slice(0, MOST_COMPARED)) {
    if (Math.abs(candidate.length - text.length) > most) continue;
    const distance = editDistance(text, candidate);
    if (distance <= most && (best === null || distance < best.distance)) best = { text: candidate, distance };
  }
  return best?.text ?? null;
}
