import type { Rule } from "@/lib/domain/rule";
import { bandExamples, judgeBands, pipelineBands, pipelineRule } from "@/lib/domain/rules/bands";

/** Too little starves the machine; too much breaks its regulators and cannot be explained until the plant has been looked at. */
export const oxygenPipeline: Rule<typeof pipelineBands> = {
  ...pipelineRule("oxygen"),
  id: "oxygen-pipeline",
  inBrief: "oxygen pipeline",
  what: "The oxygen pipeline's pressure is inside its band",
  severity: "stops",
  citation: pipelineBands.stopBelow.citation,
  allowedBy: [],
  judge: (context, bands) => judgeBands(context, "oxygen", bands, {}),
  examples: bandExamples("oxygen", "stops"),
};
