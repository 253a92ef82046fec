import type { Rule } from "@/lib/domain/rule";
import { absorbentCo2 } from "@/lib/domain/rules/absorbent/absorbent-co2";
import { absorbentColour } from "@/lib/domain/rules/absorbent/absorbent-colour";
import { selfInflatingBag } from "@/lib/domain/rules/backup-ventilation/self-inflating-bag";
import { separateOxygen } from "@/lib/domain/rules/backup-ventilation/separate-oxygen";
import { notChecked } from "@/lib/domain/rules/check/not-checked";
import { providerMarkOwed } from "@/lib/domain/rules/check/provider-mark-owed";
import { recheckOwed } from "@/lib/domain/rules/check/recheck-owed";
import { failedItem } from "@/lib/domain/rules/failed-item/failed-item";
import { finalState } from "@/lib/domain/rules/final-state/final-state";
import { agentMonitor } from "@/lib/domain/rules/function-lost/agent-monitor";
import { auxiliaryOxygen } from "@/lib/domain/rules/function-lost/auxiliary-oxygen";
import { battery } from "@/lib/domain/rules/function-lost/battery";
import { hypoxicGuard } from "@/lib/domain/rules/gas-mixing/hypoxic-guard";
import { faultReported } from "@/lib/domain/rules/hold/fault-reported";
import { held } from "@/lib/domain/rules/hold/held";
import { breathingLeak } from "@/lib/domain/rules/leak/breathing-leak";
import { lowPressureLeak } from "@/lib/domain/rules/leak/low-pressure-leak";
import { nitrousOxideGasPhase } from "@/lib/domain/rules/nitrous-oxide/nitrous-oxide-gas-phase";
import { lowOxygenAlarm } from "@/lib/domain/rules/oxygen-sensor/low-oxygen-alarm";
import { oxygenAfterFlush } from "@/lib/domain/rules/oxygen-sensor/oxygen-after-flush";
import { oxygenDrift } from "@/lib/domain/rules/oxygen-sensor/oxygen-drift";
import { oxygenInAir } from "@/lib/domain/rules/oxygen-sensor/oxygen-in-air";
import { airPipeline } from "@/lib/domain/rules/pipeline/air-pipeline";
import { nitrousOxidePipeline } from "@/lib/domain/rules/pipeline/nitrous-oxide-pipeline";
import { oxygenPipeline } from "@/lib/domain/rules/pipeline/oxygen-pipeline";
import { pipelineIdentity } from "@/lib/domain/rules/pipeline/pipeline-identity";
import { emptyCylinder } from "@/lib/domain/rules/reserve-oxygen/empty-cylinder";
import { reserveOxygenLow } from "@/lib/domain/rules/reserve-oxygen/reserve-oxygen-low";
import { reserveOxygenSecond } from "@/lib/domain/rules/reserve-oxygen/reserve-oxygen-second";
import { valveLeftOpen } from "@/lib/domain/rules/reserve-oxygen/valve-left-open";
import { scavengingExtraction } from "@/lib/domain/rules/scavenging/scavenging-extraction";
import { scavengingRelief } from "@/lib/domain/rules/scavenging/scavenging-relief";
import { firstUserCheck } from "@/lib/domain/rules/service/first-user-check";
import { serviceLate } from "@/lib/domain/rules/service/service-late";
import { suction } from "@/lib/domain/rules/suction/suction";
import { noUsableVaporizer } from "@/lib/domain/rules/vaporizer/no-usable-vaporizer";
import { vaporizerFill } from "@/lib/domain/rules/vaporizer/vaporizer-fill";
import { vaporizerInterlock } from "@/lib/domain/rules/vaporizer/vaporizer-interlock";
import { vaporizerLost } from "@/lib/domain/rules/vaporizer/vaporizer-lost";
import { noWorkstation } from "@/lib/domain/rules/workstation-state/no-workstation";
import { recallOpen } from "@/lib/domain/rules/workstation-state/recall-open";
import { withdrawn } from "@/lib/domain/rules/workstation-state/withdrawn";

/** Every rule, in order of consequence: of two reasons of the same severity the one further up is told first. */
export const RULES: readonly Rule[] = [
  noWorkstation,
  withdrawn,
  held,
  selfInflatingBag,
  pipelineIdentity,
  oxygenPipeline,
  reserveOxygenLow,
  separateOxygen,
  suction,
  scavengingRelief,
  hypoxicGuard,
  oxygenAfterFlush,
  oxygenInAir,
  lowOxygenAlarm,
  breathingLeak,
  lowPressureLeak,
  vaporizerInterlock,
  absorbentCo2,
  absorbentColour,
  finalState,
  failedItem,
  faultReported,
  recallOpen,
  firstUserCheck,
  notChecked,
  recheckOwed,
  noUsableVaporizer,
  vaporizerLost,
  agentMonitor,
  scavengingExtraction,
  nitrousOxidePipeline,
  airPipeline,
  auxiliaryOxygen,
  battery,
  serviceLate,
  emptyCylinder,
  reserveOxygenSecond,
  nitrousOxideGasPhase,
  valveLeftOpen,
  vaporizerFill,
  oxygenDrift,
  providerMarkOwed,
];
