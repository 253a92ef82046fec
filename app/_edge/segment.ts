/** One part of an address as it was meant; null when its encoding is broken. */
export function decodedSegment(segment: string): string | null {
  try {
    return decodeURIComponent(segment);
  } catch {
    return null;
  }
}
