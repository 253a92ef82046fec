import type { RoomRecord } from "@/lib/domain/department/model";

/** A room with what hangs on it. */
export interface RoomKnown extends RoomRecord {
  readonly retired: boolean;
  readonly inUse: boolean;
  /** The tag of the workstation that stands in it. */
  readonly workstation: string | null;
}

export interface StoreKnown {
  readonly id: string;
  readonly name: string;
  /** Where it lies on the walk; null where nobody said. */
  readonly suiteId: string | null;
  readonly walkingOrder: number | null;
}

/** A part on a workstation. */
export interface PartKnown {
  readonly kind: "cylinder" | "vaporizer" | "absorbent" | "oxygen-sensor";
  readonly itemId: string;
  readonly position: string;
  readonly name: string;
  readonly gas: string | null;
  readonly agent: string | null;
}

export interface WorkstationKnown {
  readonly id: string;
  readonly tag: string;
  readonly serial: string;
  readonly modelId: string;
  readonly roomId: string | null;
  readonly storeId: string | null;
  readonly retired: boolean;
  readonly parts: readonly PartKnown[];
}

/** What somebody asks a room to be; without an id it is a new one. */
export type RoomAsked = Omit<RoomRecord, "id"> & { readonly roomId: string | null };

export type PlaceAsked =
  | { readonly kind: "suite"; readonly placeId: string | null; readonly name: string; readonly walkingOrder: number }
  | { readonly kind: "zone"; readonly placeId: string | null; readonly name: string }
  | {
      readonly kind: "store";
      readonly placeId: string | null;
      readonly name: string;
      readonly suiteId: string | null;
      readonly walkingOrder: number | null;
    };
