/** What somebody says about a workstation. A new one is placed; one that is there is moved by a swap, and not here. */
export interface WorkstationAsked {
  readonly workstationId: string | null;
  readonly tag: string;
  readonly serial: string;
  readonly modelId: string;
  /** Where a new one stands, or one that is brought back; null leaves it where it is. */
  readonly place: { readonly roomId: string } | { readonly storeId: string } | null;
}
