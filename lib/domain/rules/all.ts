import type { Rule } from "@/lib/domain/rule";
import { absorbentCo2 } from "@/lib/domain/rules/absorbent/absorbent-co2";
import { absorbentColour } from "@/lib/domain/rules/absorbent/absorbent-colour";
import { absorbentDate } from "@/lib/domain/rules/absorbent/absorbent-date";
import { absorbentDry } from "@/lib/domain/rules/absorbent/absorbent-dry";
import { selfInflatingBag } from "@/lib/domain/rules/backup-ventilation/self-inflating-bag";
import { separateOxygen } from "@/lib/domain/rules/backup-ventilation/separate-oxygen";
import { apl } from "@/lib/domain/rules/breathing/apl";
import { circuit } from "@/lib/domain/rules/breathing/circuit";
import { outletSelector } from "@/lib/domain/rules/breathing/outlet-selector";
import { selfTest } from "@/lib/domain/rules/breathing/self-test";
import { valves } from "@/lib/domain/rules/breathing/valves";
import { ventilator } from "@/lib/domain/rules/breathing/ventilator";
import { countersign } from "@/lib/domain/rules/check/countersign";
import { failedThenPassed } from "@/lib/domain/rules/check/failed-then-passed";
import { notChecked } from "@/lib/domain/rules/check/not-checked";
import { procedureChanged } from "@/lib/domain/rules/check/procedure-changed";
import { providerChange } from "@/lib/domain/rules/check/provider-change";
import { providerMarkOwed } from "@/lib/domain/rules/check/provider-mark-owed";
import { recheckOwed } from "@/lib/domain/rules/check/recheck-owed";
import { repeatedFailures } from "@/lib/domain/rules/check/repeated-failures";
import { asFound } from "@/lib/domain/rules/close-out/as-found";
import { leftAtCloseOut } from "@/lib/domain/rules/close-out/left-at-close-out";
import { failedItem } from "@/lib/domain/rules/failed-item/failed-item";
import { finalState } from "@/lib/domain/rules/final-state/final-state";
import { agentMonitor } from "@/lib/domain/rules/function-lost/agent-monitor";
import { auxiliaryOxygen } from "@/lib/domain/rules/function-lost/auxiliary-oxygen";
import { battery } from "@/lib/domain/rules/function-lost/battery";
import { flowControls } from "@/lib/domain/rules/gas-mixing/flow-controls";
import { hypoxicGuard } from "@/lib/domain/rules/gas-mixing/hypoxic-guard";
import { faultReported } from "@/lib/domain/rules/hold/fault-reported";
import { held } from "@/lib/domain/rules/hold/held";
import { breathingLeak } from "@/lib/domain/rules/leak/breathing-leak";
import { lowPressureLeak } from "@/lib/domain/rules/leak/low-pressure-leak";
import { gasSampling } from "@/lib/domain/rules/monitoring/gas-sampling";
import { labelMissing } from "@/lib/domain/rules/monitoring/label-missing";
import { monitors } from "@/lib/domain/rules/monitoring/monitors";
import { nitrousOxideGasPhase } from "@/lib/domain/rules/nitrous-oxide/nitrous-oxide-gas-phase";
import { lowOxygenAlarm } from "@/lib/domain/rules/oxygen-sensor/low-oxygen-alarm";
import { oxygenAfterFlush } from "@/lib/domain/rules/oxygen-sensor/oxygen-after-flush";
import { oxygenDrift } from "@/lib/domain/rules/oxygen-sensor/oxygen-drift";
import { oxygenInAir } from "@/lib/domain/rules/oxygen-sensor/oxygen-in-air";
import { airPipeline } from "@/lib/domain/rules/pipeline/air-pipeline";
import { nitrousOxidePipeline } from "@/lib/domain/rules/pipeline/nitrous-oxide-pipeline";
import { oxygenPipeline } from "@/lib/domain/rules/pipeline/oxygen-pipeline";
import { pipelineIdentity } from "@/lib/domain/rules/pipeline/pipeline-identity";
import { mainsPower } from "@/lib/domain/rules/power/mains-power";
import { cylinderExpiry } from "@/lib/domain/rules/reserve-oxygen/cylinder-expiry";
import { cylinderRetest } from "@/lib/domain/rules/reserve-oxygen/cylinder-retest";
import { emptyCylinder } from "@/lib/domain/rules/reserve-oxygen/empty-cylinder";
import { reserveOxygenLow } from "@/lib/domain/rules/reserve-oxygen/reserve-oxygen-low";
import { reserveOxygenSecond } from "@/lib/domain/rules/reserve-oxygen/reserve-oxygen-second";
import { valveLeftOpen } from "@/lib/domain/rules/reserve-oxygen/valve-left-open";
import { yokeLeak } from "@/lib/domain/rules/reserve-oxygen/yoke-leak";
import { scavengingExtraction } from "@/lib/domain/rules/scavenging/scavenging-extraction";
import { scavengingRelief } from "@/lib/domain/rules/scavenging/scavenging-relief";
import { firstUserCheck } from "@/lib/domain/rules/service/first-user-check";
import { serviceLate } from "@/lib/domain/rules/service/service-late";
import { suction } from "@/lib/domain/rules/suction/suction";
import { suppliesUnderPar } from "@/lib/domain/rules/supplies-kept/supplies-under-par";
import { driveGas } from "@/lib/domain/rules/supply/drive-gas";
import { hoses } from "@/lib/domain/rules/supply/hoses";
import { oxygenFlush } from "@/lib/domain/rules/supply/oxygen-flush";
import { supplyFailureAlarm } from "@/lib/domain/rules/supply/supply-failure-alarm";
import { trendCrossing } from "@/lib/domain/rules/trend/trend-crossing";
import { vaporFreePreparation } from "@/lib/domain/rules/vapor-free/vapor-free-preparation";
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
  yokeLeak,
  separateOxygen,
  suction,
  scavengingRelief,
  supplyFailureAlarm,
  hypoxicGuard,
  oxygenFlush,
  hoses,
  flowControls,
  oxygenAfterFlush,
  oxygenInAir,
  lowOxygenAlarm,
  breathingLeak,
  circuit,
  apl,
  valves,
  lowPressureLeak,
  ventilator,
  selfTest,
  outletSelector,
  mainsPower,
  monitors,
  gasSampling,
  vaporizerInterlock,
  absorbentDry,
  absorbentCo2,
  absorbentColour,
  finalState,
  failedItem,
  faultReported,
  recallOpen,
  firstUserCheck,
  notChecked,
  recheckOwed,
  vaporFreePreparation,
  noUsableVaporizer,
  vaporizerLost,
  driveGas,
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
  cylinderExpiry,
  absorbentDate,
  vaporizerFill,
  oxygenDrift,
  trendCrossing,
  repeatedFailures,
  labelMissing,
  leftAtCloseOut,
  suppliesUnderPar,
  countersign,
  providerMarkOwed,
  cylinderRetest,
  failedThenPassed,
  asFound,
  procedureChanged,
  providerChange,
];
