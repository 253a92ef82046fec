import type { Policy } from "@/lib/domain/rule";
import { actionMinutes } from "@/lib/domain/rules/policy/action-minutes";
import { checkMarks } from "@/lib/domain/rules/policy/check-marks";
import { checkValidity } from "@/lib/domain/rules/policy/check-validity";
import { endurance } from "@/lib/domain/rules/policy/endurance";
import { escalation } from "@/lib/domain/rules/policy/escalation";
import { morning } from "@/lib/domain/rules/policy/morning";
import { procedureChange } from "@/lib/domain/rules/policy/procedure-change";

/** The site settings that no finding comes from. */
export const POLICIES: readonly Policy[] = [
  checkValidity,
  checkMarks,
  procedureChange,
  morning,
  actionMinutes,
  endurance,
  escalation,
];
