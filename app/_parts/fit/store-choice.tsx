import { Choice } from "@/app/_ui/choice";
import type { SparePartsView } from "@/lib/schemas/moves";

interface StoreChoiceProps {
  tag: string;
  stores: SparePartsView["stores"];
  storeId: string | null;
  onChange: (storeId: string) => void;
}

/** Where the part that comes off is put. */
export function StoreChoice({ tag, stores, storeId, onChange }: StoreChoiceProps) {
  if (stores.length === 0) return null;
  return (
    <Choice
      legend={`${tag} goes to`}
      options={stores.map(({ id, name }) => ({ value: id, label: name }))}
      value={storeId}
      onChange={onChange}
    />
  );
}
