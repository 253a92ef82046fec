type Progress = (done: number, total: number, what: string) => void;

/** Says how far a long work is, in steps a person can follow: every tenth part, not every row. */
export function progressLine(tell: (line: string) => void, title: string): Progress {
  let told = -1;
  return (done, total, what) => {
    const tenth = total > 0 ? Math.floor((10 * done) / total) : 0;
    if (tenth === told) return;
    told = tenth;
    tell(`${title}: ${tenth * 10} % (${what})`);
  };
}
