/** What is known of a token that was issued. */
export interface TokenKnown {
  readonly id: string;
  readonly name: string;
  readonly revokedAt: string | null;
}

export interface TokenAsked {
  readonly name: string;
  readonly reads: boolean;
  readonly commands: readonly string[];
}
