/**
 * The order in which people read room names: letters without regard to case, numbers by their value, so that 2 stands before 10.
 * Of two names that read the same, always the same one comes first.
 */
export function naturalOrder(left: string, right: string): number {
  const [ours, theirs] = [piecesOf(left), piecesOf(right)];
  for (let place = 0; place < Math.min(ours.length, theirs.length); place += 1) {
    const order = comparePieces(ours[place] ?? "", theirs[place] ?? "");
    if (order !== 0) return order;
  }
  return ours.length - theirs.length || compareText(left, right);
}

const piecesOf = (name: string): string[] => name.toLowerCase().match(/\d+|\D+/g) ?? [];

function comparePieces(left: string, right: string): number {
  const bothNumbers = /^\d/.test(left) && /^\d/.test(right);
  return bothNumbers ? Number(left) - Number(right) || left.length - right.length : compareText(left, right);
}

const compareText = (left: string, right: string): number => (left < right ? -1 : left > right ? 1 : 0);
