-- A site's own questions of a version, beside the whole document: readers need these few of every kind, and no more of it.
ALTER TABLE "procedure" ADD COLUMN "own" JSONB NOT NULL DEFAULT '[]';
ALTER TABLE "procedure" ADD COLUMN "draft_id" UUID;

-- Steps that the same user need not repeat on successive cases were left out of this check.
ALTER TABLE "fact"."check_run" ADD COLUMN "shortened" BOOLEAN NOT NULL DEFAULT false;

-- CreateTable
CREATE TABLE "procedure_draft" (
    "facility_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "document" JSONB NOT NULL,
    "base_id" UUID,
    "revision" INTEGER NOT NULL,
    "state" TEXT NOT NULL,
    "authors" UUID[],
    "begun_at" TIMESTAMPTZ(3) NOT NULL,
    "saved_by" UUID NOT NULL,
    "saved_at" TIMESTAMPTZ(3) NOT NULL,
    "in_force_on" DATE,
    "reason" TEXT,
    "proposed_by" UUID,
    "proposed_at" TIMESTAMPTZ(3),
    "decided_by" UUID,
    "decided_at" TIMESTAMPTZ(3),
    "decision_reason" TEXT,
    "procedure_id" UUID,

    CONSTRAINT "procedure_draft_pkey" PRIMARY KEY ("facility_id","id")
);

-- CreateIndex
CREATE INDEX "procedure_draft_facility_id_kind_saved_at_idx" ON "procedure_draft"("facility_id", "kind", "saved_at");

-- ---------------------------------------------------------------------------------------------------------------------
-- What the schema language cannot say.
-- ---------------------------------------------------------------------------------------------------------------------

ALTER TABLE public.procedure_draft
  ADD FOREIGN KEY (facility_id, base_id) REFERENCES public.procedure (facility_id, id),
  ADD FOREIGN KEY (facility_id, procedure_id) REFERENCES public.procedure (facility_id, id),
  ADD FOREIGN KEY (saved_by) REFERENCES public.person (id),
  ADD CONSTRAINT procedure_draft_state CHECK (state IN ('draft', 'proposed', 'approved', 'dropped')),
  ADD CONSTRAINT procedure_draft_proposed_whole CHECK (state <> 'proposed' OR num_nonnulls(in_force_on, reason, proposed_by, proposed_at) = 4),
  ADD CONSTRAINT procedure_draft_approved_whole CHECK (state <> 'approved' OR num_nonnulls(decided_by, decided_at, procedure_id) = 3),
  -- Whatever the application does: nobody approves what they wrote.
  ADD CONSTRAINT procedure_draft_by_two CHECK (state <> 'approved' OR NOT decided_by = ANY (authors));
-- One open draft for each kind of check: two would undo each other.
CREATE UNIQUE INDEX procedure_draft_open_once ON public.procedure_draft (facility_id, kind) WHERE state IN ('draft', 'proposed');

ALTER TABLE public.procedure_draft ENABLE ROW LEVEL SECURITY;
ALTER TABLE public.procedure_draft FORCE ROW LEVEL SECURITY;
CREATE POLICY by_facility ON public.procedure_draft
  USING (facility_id = public.current_facility()) WITH CHECK (facility_id = public.current_facility());
GRANT SELECT, INSERT ON public.procedure_draft TO yokeboard_app;
GRANT UPDATE (document, revision, state, authors, saved_by, saved_at, in_force_on, reason, proposed_by, proposed_at,
  decided_by, decided_at, decision_reason, procedure_id) ON public.procedure_draft TO yokeboard_app;
