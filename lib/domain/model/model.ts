import type { ModelEvidence } from "@/lib/domain/evidence";

/** What somebody says about a model; what it asks of rules otherwise than the site is kept as it is. */
export type ModelAsked = Omit<ModelEvidence, "settings"> & {
  readonly modelId: string | null;
  readonly maker: string;
};
