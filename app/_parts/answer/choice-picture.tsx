import { COLOUR_SHARES, FILL_SHARES } from "@/lib/domain/choices";
import type { ItemId } from "@/lib/domain/items";
import styles from "./fields.module.css";

const TOP = 6;
const HEIGHT = 34;

/** Shares are drawn: how far a canister has changed colour, how full a sight glass is. The words beside it say the same. */
export function ChoicePicture({ item, choice }: { item: ItemId; choice: string }) {
  if (item === "absorbent-colour") return <Canister share={COLOUR_SHARES.get(choice) ?? 0} />;
  if (item === "vaporizer-fill") return <SightGlass share={FILL_SHARES.get(choice) ?? 0} />;
  return null;
}

export const isDrawn = (item: ItemId): boolean => item === "absorbent-colour" || item === "vaporizer-fill";

/** A canister from the side, spent from the top down. */
function Canister({ share }: { share: number }) {
  return (
    <svg className={styles.picture} viewBox="0 0 34 46" aria-hidden="true">
      <rect className={styles.granules} x="4" y={TOP} width="26" height={HEIGHT} />
      <rect className={styles.spent} x="4" y={TOP} width="26" height={HEIGHT * share} />
      <path className={styles.wall} d="M4 6v34h26V6M1.500 6h31M1.500 40h31M12 6V2h10v4" />
    </svg>
  );
}

/** A sight glass, filled from the bottom, with its least and most marks. */
function SightGlass({ share }: { share: number }) {
  return (
    <svg className={styles.picture} viewBox="0 0 34 46" aria-hidden="true">
      <rect className={styles.liquid} x="10" y={TOP + HEIGHT * (1 - share)} width="14" height={HEIGHT * share} />
      <path className={styles.wall} d="M10 6h14v34H10zM5 36h5M5 10h5" />
    </svg>
  );
}
