/** A swap as somebody asked for it, with what they saw. */
export interface SwapAsked {
  readonly outgoing: string | null;
  readonly incoming: string;
  readonly outgoingTo: { readonly store: string } | "exchange" | null;
  readonly storeKnown: boolean;
  readonly acceptUnchecked: boolean;
}

/** Where each goes. */
export interface SwapPlan {
  /** The room the incoming one left, when the two change places. */
  readonly exchangedWith: string | null;
  readonly toStore: string | null;
}
