import type { Rule } from "@/lib/domain/rule";
import { bandExamples, judgeBands, pipelineBands, pipelineRule } from "@/lib/domain/rules/bands";

/** A case can run without air where oxygen is there. */
export const airPipeline: Rule<typeof pipelineBands> = {
  ...pipelineRule("air"),
  id: "air-pipeline",
  inBrief: "air pipeline",
  what: "The air pipeline's pressure is inside its band; without it no air",
  severity: "limits",
  citation: pipelineBands.stopBelow.citation,
  allowedBy: ["charge-provider"],
  use: {
    first: "Tell the plant; take the air hose off if the pressure is too high.",
    differently: "No air: oxygen with an agent, or oxygen with nitrous oxide.",
    longest: "3-days",
  },
  judge: (context, bands) => judgeBands(context, "air", bands, { takesAway: ["no-air"] }),
  examples: bandExamples("air", "limits"),
};
