"use client";

import { useState } from "react";
import { type Problem, postJson } from "@/app/_parts/api.client";
import { ProblemNotice } from "@/app/_parts/problem-notice";
import { newRequestId } from "@/app/_parts/request-id";
import { SelectField } from "@/app/_ui/field";
import type { SessionView } from "@/lib/schemas/set-up";

/** People who work at several facilities choose which one they look at; everything on screen belongs to one facility. */
export function FacilitySwitch({ session }: { session: SessionView }) {
  const [problem, setProblem] = useState<Problem | null>(null);
  if (session.facilities.length < 2) return null;
  const change = async (facilityId: string) => {
    const reply = await postJson("/api/v1/session", { facilityId }, { key: newRequestId() });
    if (reply.ok) window.location.assign("/");
    else setProblem(reply.problem);
  };
  return (
    <>
      <SelectField label="Facility" value={session.facility.id} onChange={(event) => change(event.target.value)}>
        {session.facilities.map(({ id, name }) => (
          <option key={id} value={id}>
            {name}
          </option>
        ))}
      </SelectField>
      <ProblemNotice problem={problem} />
    </>
  );
}
