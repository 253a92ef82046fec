import type { NodeTone, PartView } from "./gas-path-nodes";

export const TONE_WORDS: Record<NodeTone, string> = {
  stop: "not in order",
  limit: "limits use",
  due: "to check",
  work: "work due",
  go: "in order",
  none: "",
};

export const STANDING_WORDS: Record<PartView["standing"], string> = {
  failing: "not in order",
  owed: "to check",
  passing: "in order",
  noted: "noted",
};
