/** A screen on a wall: it reads the board of its facility and nothing else. */
export interface DeviceKnown {
  readonly id: string;
  readonly name: string;
  readonly revoked: boolean;
}
