"use client";

import type { ReactNode } from "react";
import type { Problem } from "@/app/_parts/api.client";
import { ProblemNotice } from "@/app/_parts/problem-notice";
import { Button } from "@/app/_ui/button.client";
import { FormActions } from "@/app/_ui/form";
import { Notice } from "@/app/_ui/notice";

export interface SavedProps {
  problem: Problem | null;
  busy: boolean;
  /** What has just been saved, in words. */
  saved: string | null;
  label: string;
  /** Further buttons beside the one that saves. */
  children?: ReactNode;
}

/** The end of every form here: what went wrong, what was saved, and the button. */
export function Saved({ problem, busy, saved, label, children }: SavedProps) {
  return (
    <>
      <ProblemNotice problem={problem} />
      {saved ? <Notice tone="done" title={saved} announce="status" /> : null}
      <FormActions>
        <Button type="submit" look="primary" busy={busy}>
          {label}
        </Button>
        {children}
      </FormActions>
    </>
  );
}
