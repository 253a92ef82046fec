/** Something the person at the command line can put right: its message is shown as it stands, without a stack. */
export class Problem extends Error {
  override readonly name = "Problem";
}
