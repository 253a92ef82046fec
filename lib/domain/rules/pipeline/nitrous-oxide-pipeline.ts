import type { Rule } from "@/lib/domain/rule";
import { bandExamples, judgeBands, pipelineBands, pipelineRule } from "@/lib/domain/rules/bands";

/** No case needs nitrous oxide to be safe: without its supply the room runs without it. */
export const nitrousOxidePipeline: Rule<typeof pipelineBands> = {
  ...pipelineRule("nitrous-oxide"),
  id: "nitrous-oxide-pipeline",
  inBrief: "nitrous oxide supply",
  what: "The nitrous oxide pipeline's pressure is inside its band; without it no nitrous oxide",
  severity: "limits",
  citation: pipelineBands.stopBelow.citation,
  allowedBy: ["charge-provider"],
  use: {
    first: "Tell the plant; take the nitrous oxide hose off if the pressure is too high.",
    differently: "No nitrous oxide from the wall.",
    longest: "10-days",
  },
  judge: (context, bands) => judgeBands(context, "nitrous-oxide", bands, { takesAway: ["no-nitrous-oxide"] }),
  examples: bandExamples("nitrous-oxide", "limits"),
};
