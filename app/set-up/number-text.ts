/** What was typed as a number; what is none goes to the server as it is, which says what would be right. */
export function typedNumber(text: string): number {
  const trimmed = text.trim();
  return trimmed === "" ? Number.NaN : Number(trimmed.replace(",", "."));
}

export const typedOrNull = (text: string): number | null => (text.trim() === "" ? null : typedNumber(text));
