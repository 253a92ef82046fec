-- Readiness in time: events that touch many rooms, allowances that can be taken back, vapor-free preparations that were asked for, and
-- what a list and a service plan said when, so that any past moment can be judged again.

-- AlterTable
ALTER TABLE "fact"."limit_allowance" ADD COLUMN "bound_to" TEXT,
ADD COLUMN "revoked_at" TIMESTAMPTZ(3),
ADD COLUMN "revoked_by" UUID,
ADD COLUMN "revoke_reason" TEXT;

-- CreateTable
CREATE TABLE "fact"."department_event" (
    "facility_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "zone_id" UUID,
    "model_id" UUID,
    "gas" TEXT,
    "reading" JSONB,
    "drill" BOOLEAN NOT NULL,
    "note" TEXT,
    "rooms" UUID[],
    "at" TIMESTAMPTZ(3) NOT NULL,
    "by" UUID NOT NULL,
    "role" TEXT NOT NULL,
    "ended_at" TIMESTAMPTZ(3),
    "ended_by" UUID,
    "end_reason" TEXT,

    CONSTRAINT "department_event_pkey" PRIMARY KEY ("facility_id","id")
);

-- CreateTable
CREATE TABLE "fact"."vapor_free_request" (
    "facility_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "room_id" UUID NOT NULL,
    "date" DATE NOT NULL,
    "needed_at" TIMESTAMPTZ(3) NOT NULL,
    "note" TEXT,
    "by" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "withdrawn_at" TIMESTAMPTZ(3),
    "withdrawn_by" UUID,

    CONSTRAINT "vapor_free_request_pkey" PRIMARY KEY ("facility_id","id")
);

-- CreateTable
CREATE TABLE "fact"."list_version" (
    "facility_id" UUID NOT NULL,
    "room_id" UUID NOT NULL,
    "date" DATE NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,
    "removed" BOOLEAN NOT NULL,
    "first_case" TEXT,
    "ends_at" TEXT,
    "needs" TEXT[],
    "set_up_minutes" INTEGER NOT NULL,

    CONSTRAINT "list_version_pkey" PRIMARY KEY ("facility_id","room_id","date","recorded_at")
);

-- CreateTable
CREATE TABLE "fact"."service_version" (
    "facility_id" UUID NOT NULL,
    "workstation_id" UUID NOT NULL,
    "plan" TEXT NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,
    "due" DATE NOT NULL,
    "window_from" DATE NOT NULL,
    "window_to" DATE NOT NULL,

    CONSTRAINT "service_version_pkey" PRIMARY KEY ("facility_id","workstation_id","plan","recorded_at")
);

-- CreateIndex
CREATE INDEX "department_event_facility_id_at_idx" ON "fact"."department_event"("facility_id", "at");

-- CreateIndex
CREATE INDEX "vapor_free_request_facility_id_room_id_date_idx" ON "fact"."vapor_free_request"("facility_id", "room_id", "date");

-- ---------------------------------------------------------------------------------------------------------------------
-- What the schema language cannot say.
-- ---------------------------------------------------------------------------------------------------------------------

CREATE INDEX department_event_open ON fact.department_event (facility_id) WHERE ended_at IS NULL;
ALTER TABLE fact.department_event
  ADD FOREIGN KEY (facility_id, zone_id) REFERENCES public.pipeline_zone (facility_id, id),
  ADD FOREIGN KEY (model_id) REFERENCES public.workstation_model (id),
  ADD CONSTRAINT department_event_kind CHECK (kind IN ('pipeline-low', 'pipeline-high', 'pipeline-restored', 'power', 'recall')),
  -- A recall is about a model; everything else about what lies behind one zone valve.
  ADD CONSTRAINT department_event_scope CHECK ((kind = 'recall') = (model_id IS NOT NULL) AND (kind = 'recall') = (zone_id IS NULL)),
  ADD CONSTRAINT department_event_gas CHECK ((kind LIKE 'pipeline-%') = (gas IS NOT NULL)),
  ADD CONSTRAINT department_event_end CHECK ((ended_at IS NULL) = (ended_by IS NULL));
ALTER TABLE fact.vapor_free_request
  ADD FOREIGN KEY (facility_id, room_id) REFERENCES public.room (facility_id, id);
ALTER TABLE fact.list_version
  ADD FOREIGN KEY (facility_id, room_id) REFERENCES public.room (facility_id, id);
ALTER TABLE fact.service_version
  ADD FOREIGN KEY (facility_id, workstation_id) REFERENCES public.workstation (facility_id, id);

DO $$
DECLARE t regclass;
BEGIN
  FOREACH t IN ARRAY ARRAY['fact.department_event', 'fact.vapor_free_request', 'fact.list_version', 'fact.service_version']::regclass[]
  LOOP
    EXECUTE format('ALTER TABLE %s ENABLE ROW LEVEL SECURITY', t);
    EXECUTE format('ALTER TABLE %s FORCE ROW LEVEL SECURITY', t);
    EXECUTE format('CREATE POLICY by_facility ON %s USING (facility_id = public.current_facility()) WITH CHECK (facility_id = public.current_facility())', t);
  END LOOP;
END $$;

GRANT SELECT, INSERT ON fact.department_event, fact.vapor_free_request, fact.list_version, fact.service_version TO yokeboard_app;
GRANT UPDATE (ended_at, ended_by, end_reason) ON fact.department_event TO yokeboard_app;
GRANT UPDATE (withdrawn_at, withdrawn_by) ON fact.vapor_free_request TO yokeboard_app;
GRANT UPDATE (revoked_at, revoked_by, revoke_reason) ON fact.limit_allowance TO yokeboard_app;
