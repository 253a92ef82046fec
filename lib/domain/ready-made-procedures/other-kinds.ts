import type { Procedure } from "@/lib/domain/procedure/model";
import { picked } from "@/lib/domain/ready-made-procedures/all-items";

/** The end of the list: what is left so that the morning finds it right. */
export const CLOSE_OUT: Procedure = {
  id: "close-out",
  name: "Close-out round",
  version: 1,
  kind: "close-out",
  citation: "common practice, no source",
  items: picked(["close-flows", "close-vaporizers", "absorbent-colour", "close-cylinder", "close-suction"]),
};

/** What can be looked at with a case running, by whoever takes over. */
export const PROVIDER_CHANGE: Procedure = {
  id: "provider-change",
  name: "Look at a change of provider",
  version: 1,
  kind: "provider-change",
  citation:
    "Association of Anaesthetists, Checking Anaesthetic Equipment 2012: confirmed at a change of anaesthetist; the items are common practice, no source",
  items: picked(["self-inflating-bag", "suction", "vaporizer-fill", "absorbent-co2"]),
};
