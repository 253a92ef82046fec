/** A number as people type it, with a point or a comma; NaN where it is none. */
export function typedNumber(text: string): number {
  const plain = text.trim().replace(",", ".");
  return /^-?\d+(\.\d+)?$/.test(plain) ? Number(plain) : Number.NaN;
}
