
CREATE SCHEMA IF NOT EXISTS "derived";


CREATE SCHEMA IF NOT EXISTS "fact";


CREATE SCHEMA IF NOT EXISTS "history";


CREATE SCHEMA IF NOT EXISTS "public";

-- CreateTable
CREATE TABLE "derived"."readiness" (
    "facility_id" UUID NOT NULL,
    "holder_kind" TEXT NOT NULL,
    "holder_id" UUID NOT NULL,
    "workstation_id" UUID,
    "state" TEXT NOT NULL,
    "judgement" JSONB NOT NULL,
    "summary" JSONB NOT NULL,
    "good_until" TIMESTAMPTZ(3),
    "judged_at" TIMESTAMPTZ(3) NOT NULL,
    "settings_version" INTEGER NOT NULL,
    "engine_version" INTEGER NOT NULL,

    CONSTRAINT "readiness_pkey" PRIMARY KEY ("facility_id","holder_kind","holder_id")
);

-- CreateTable
CREATE TABLE "derived"."readiness_change" (
    "facility_id" UUID NOT NULL,
    "id" BIGSERIAL NOT NULL,
    "holder_kind" TEXT NOT NULL,
    "holder_id" UUID NOT NULL,
    "state" TEXT NOT NULL,
    "judgement" JSONB NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "cause" TEXT NOT NULL,
    "settings_version" INTEGER NOT NULL,
    "engine_version" INTEGER NOT NULL,

    CONSTRAINT "readiness_change_pkey" PRIMARY KEY ("facility_id","id")
);

-- CreateTable
CREATE TABLE "derived"."task" (
    "facility_id" UUID NOT NULL,
    "id" UUID NOT NULL DEFAULT gen_random_uuid(),
    "key" TEXT NOT NULL,
    "holder_kind" TEXT NOT NULL,
    "holder_id" UUID NOT NULL,
    "workstation_id" UUID,
    "document" JSONB NOT NULL,
    "opened_at" TIMESTAMPTZ(3) NOT NULL,
    "closed_at" TIMESTAMPTZ(3),

    CONSTRAINT "task_pkey" PRIMARY KEY ("facility_id","id")
);

-- CreateTable
CREATE TABLE "derived"."latest_observation" (
    "facility_id" UUID NOT NULL,
    "keeper_id" UUID NOT NULL,
    "item" TEXT NOT NULL,
    "subject_id" TEXT NOT NULL,
    "verdict" TEXT NOT NULL,
    "observation_id" UUID NOT NULL,
    "observed_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "latest_observation_pkey" PRIMARY KEY ("facility_id","keeper_id","item","subject_id","verdict")
);

-- CreateTable
CREATE TABLE "workstation" (
    "facility_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "tag" TEXT NOT NULL,
    "serial" TEXT NOT NULL,
    "model_id" UUID NOT NULL,
    "retired_at" TIMESTAMPTZ(3),

    CONSTRAINT "workstation_pkey" PRIMARY KEY ("facility_id","id")
);

-- CreateTable
CREATE TABLE "cylinder" (
    "facility_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "serial" TEXT NOT NULL,
    "gas" TEXT NOT NULL,
    "scheme" TEXT NOT NULL,
    "size" TEXT NOT NULL,
    "water_capacity_l" DOUBLE PRECISION NOT NULL,
    "rated_contents_l" DOUBLE PRECISION NOT NULL,
    "rated_pressure" DOUBLE PRECISION NOT NULL,
    "rated_pressure_unit" TEXT NOT NULL,
    "expiry" DATE,
    "retest_due" DATE,
    "store_id" UUID,
    "contents" TEXT NOT NULL,

    CONSTRAINT "cylinder_pkey" PRIMARY KEY ("facility_id","id")
);

-- CreateTable
CREATE TABLE "vaporizer" (
    "facility_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "tag" TEXT NOT NULL,
    "agent" TEXT NOT NULL,
    "filler" TEXT NOT NULL,
    "calibration_due" DATE,
    "calibration_window_to" DATE,
    "store_id" UUID,

    CONSTRAINT "vaporizer_pkey" PRIMARY KEY ("facility_id","id")
);

-- CreateTable
CREATE TABLE "absorbent" (
    "facility_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "tag" TEXT NOT NULL,
    "product" TEXT NOT NULL,
    "indicator" BOOLEAN NOT NULL,
    "reverts" BOOLEAN NOT NULL,
    "strong_base" BOOLEAN NOT NULL,
    "litres_per_100g" DOUBLE PRECISION NOT NULL,
    "mass_g" DOUBLE PRECISION NOT NULL,
    "store_id" UUID,

    CONSTRAINT "absorbent_pkey" PRIMARY KEY ("facility_id","id")
);

-- CreateTable
CREATE TABLE "oxygen_sensor" (
    "facility_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "tag" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "store_id" UUID,

    CONSTRAINT "oxygen_sensor_pkey" PRIMARY KEY ("facility_id","id")
);

-- CreateTable
CREATE TABLE "service_plan" (
    "facility_id" UUID NOT NULL,
    "workstation_id" UUID NOT NULL,
    "plan" TEXT NOT NULL,
    "due" DATE NOT NULL,
    "window_from" DATE NOT NULL,
    "window_to" DATE NOT NULL,

    CONSTRAINT "service_plan_pkey" PRIMARY KEY ("facility_id","workstation_id","plan")
);

-- CreateTable
CREATE TABLE "facility" (
    "id" UUID NOT NULL,
    "organisation_id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "time_zone" TEXT NOT NULL,
    "scheme" TEXT NOT NULL,
    "pressure_unit" TEXT NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "facility_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "facility_settings" (
    "facility_id" UUID NOT NULL,
    "version" INTEGER NOT NULL,
    "document" JSONB NOT NULL,
    "changed_at" TIMESTAMPTZ(3) NOT NULL,
    "changed_by" UUID,

    CONSTRAINT "facility_settings_pkey" PRIMARY KEY ("facility_id")
);

-- CreateTable
CREATE TABLE "person_role" (
    "facility_id" UUID NOT NULL,
    "person_id" UUID NOT NULL,
    "role" TEXT NOT NULL,

    CONSTRAINT "person_role_pkey" PRIMARY KEY ("facility_id","person_id","role")
);

-- CreateTable
CREATE TABLE "suite" (
    "facility_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "walking_order" INTEGER NOT NULL,

    CONSTRAINT "suite_pkey" PRIMARY KEY ("facility_id","id")
);

-- CreateTable
CREATE TABLE "pipeline_zone" (
    "facility_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "name" TEXT NOT NULL,

    CONSTRAINT "pipeline_zone_pkey" PRIMARY KEY ("facility_id","id")
);

-- CreateTable
CREATE TABLE "store" (
    "facility_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "name" TEXT NOT NULL,

    CONSTRAINT "store_pkey" PRIMARY KEY ("facility_id","id")
);

-- CreateTable
CREATE TABLE "room" (
    "facility_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "suite_id" UUID NOT NULL,
    "zone_id" UUID,
    "piped" TEXT[],
    "vacuum" BOOLEAN NOT NULL,
    "waste_gas" TEXT NOT NULL,
    "walking_order" INTEGER NOT NULL,

    CONSTRAINT "room_pkey" PRIMARY KEY ("facility_id","id")
);

-- CreateTable
CREATE TABLE "day_list" (
    "facility_id" UUID NOT NULL,
    "room_id" UUID NOT NULL,
    "date" DATE NOT NULL,
    "first_case" TEXT,
    "ends_at" TEXT,
    "needs" TEXT[],
    "set_up_minutes" INTEGER NOT NULL,

    CONSTRAINT "day_list_pkey" PRIMARY KEY ("facility_id","room_id","date")
);

-- CreateTable
CREATE TABLE "procedure" (
    "facility_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "version" INTEGER NOT NULL,
    "kind" TEXT NOT NULL,
    "document" JSONB NOT NULL,
    "in_force_from" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "procedure_pkey" PRIMARY KEY ("facility_id","id")
);

-- CreateTable
CREATE TABLE "receipt" (
    "facility_id" UUID NOT NULL,
    "key" TEXT NOT NULL,
    "digest" TEXT NOT NULL,
    "reply" JSONB NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "receipt_pkey" PRIMARY KEY ("facility_id","key")
);

-- CreateTable
CREATE TABLE "fact"."placement" (
    "facility_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "workstation_id" UUID NOT NULL,
    "room_id" UUID,
    "store_id" UUID,
    "from" TIMESTAMPTZ(3) NOT NULL,
    "to" TIMESTAMPTZ(3),

    CONSTRAINT "placement_pkey" PRIMARY KEY ("facility_id","id")
);

-- CreateTable
CREATE TABLE "fact"."fitting" (
    "facility_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "item_kind" TEXT NOT NULL,
    "item_id" UUID NOT NULL,
    "workstation_id" UUID NOT NULL,
    "position" TEXT NOT NULL,
    "from" TIMESTAMPTZ(3) NOT NULL,
    "to" TIMESTAMPTZ(3),

    CONSTRAINT "fitting_pkey" PRIMARY KEY ("facility_id","id")
);

-- CreateTable
CREATE TABLE "fact"."occupancy" (
    "facility_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "room_id" UUID NOT NULL,
    "state" TEXT NOT NULL,
    "confirmed" BOOLEAN NOT NULL,
    "by" UUID NOT NULL,
    "from" TIMESTAMPTZ(3) NOT NULL,
    "to" TIMESTAMPTZ(3),

    CONSTRAINT "occupancy_pkey" PRIMARY KEY ("facility_id","id")
);

-- CreateTable
CREATE TABLE "fact"."check_run" (
    "facility_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "procedure_id" UUID,
    "kind" TEXT NOT NULL,
    "workstation_id" UUID NOT NULL,
    "room_id" UUID,
    "started_at" TIMESTAMPTZ(3) NOT NULL,
    "started_by" UUID NOT NULL,
    "task_key" TEXT,

    CONSTRAINT "check_run_pkey" PRIMARY KEY ("facility_id","id")
);

-- CreateTable
CREATE TABLE "fact"."observation" (
    "facility_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "check_id" UUID,
    "item" TEXT NOT NULL,
    "subject_kind" TEXT NOT NULL,
    "subject_id" TEXT NOT NULL,
    "workstation_id" UUID,
    "room_id" UUID,
    "answer" JSONB NOT NULL,
    "verdict" TEXT NOT NULL,
    "makers_verdict" TEXT,
    "observed_at" TIMESTAMPTZ(3) NOT NULL,
    "known" JSONB NOT NULL,
    "observed_by" UUID NOT NULL,
    "observed_role" TEXT NOT NULL,
    "recorded_at" TIMESTAMPTZ(3) NOT NULL,
    "recorded_by" UUID NOT NULL,
    "supersedes" UUID,

    CONSTRAINT "observation_pkey" PRIMARY KEY ("facility_id","id")
);

-- CreateTable
CREATE TABLE "fact"."signature" (
    "facility_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "check_id" UUID NOT NULL,
    "person_id" UUID NOT NULL,
    "role" TEXT NOT NULL,
    "meaning" TEXT NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "bound_to" TEXT NOT NULL,

    CONSTRAINT "signature_pkey" PRIMARY KEY ("facility_id","id")
);

-- CreateTable
CREATE TABLE "fact"."equipment_event" (
    "facility_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "subject_kind" TEXT NOT NULL,
    "subject_id" TEXT NOT NULL,
    "workstation_id" UUID,
    "room_id" UUID,
    "zone_id" UUID,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "by" UUID NOT NULL,

    CONSTRAINT "equipment_event_pkey" PRIMARY KEY ("facility_id","id")
);

-- CreateTable
CREATE TABLE "fact"."hold" (
    "facility_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "workstation_id" UUID NOT NULL,
    "reason" TEXT NOT NULL,
    "by" UUID NOT NULL,
    "role" TEXT NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "lifted_at" TIMESTAMPTZ(3),
    "lifted_by" UUID,
    "lift_reason" TEXT,

    CONSTRAINT "hold_pkey" PRIMARY KEY ("facility_id","id")
);

-- CreateTable
CREATE TABLE "fact"."fault_report" (
    "facility_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "workstation_id" UUID NOT NULL,
    "text" TEXT NOT NULL,
    "would_not_use" BOOLEAN NOT NULL,
    "by" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "looked_at" TIMESTAMPTZ(3),
    "looked_at_by" UUID,
    "conclusion" TEXT,

    CONSTRAINT "fault_report_pkey" PRIMARY KEY ("facility_id","id")
);

-- CreateTable
CREATE TABLE "fact"."claim" (
    "facility_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "task_key" TEXT NOT NULL,
    "person_id" UUID NOT NULL,
    "from" TIMESTAMPTZ(3) NOT NULL,
    "to" TIMESTAMPTZ(3),
    "outcome" TEXT,

    CONSTRAINT "claim_pkey" PRIMARY KEY ("facility_id","id")
);

-- CreateTable
CREATE TABLE "check_draft" (
    "facility_id" UUID NOT NULL,
    "check_id" UUID NOT NULL,
    "person_id" UUID NOT NULL,
    "answers" JSONB NOT NULL,
    "updated_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "check_draft_pkey" PRIMARY KEY ("facility_id","check_id","person_id")
);

-- CreateTable
CREATE TABLE "fact"."limit_allowance" (
    "facility_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "workstation_id" UUID NOT NULL,
    "rule" TEXT NOT NULL,
    "person_id" UUID NOT NULL,
    "role" TEXT NOT NULL,
    "measures" TEXT NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "until" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "limit_allowance_pkey" PRIMARY KEY ("facility_id","id")
);

-- CreateTable
CREATE TABLE "history"."leaf" (
    "facility_id" UUID NOT NULL,
    "sequence" BIGINT NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "body" TEXT NOT NULL,
    "hash" BYTEA NOT NULL,

    CONSTRAINT "leaf_pkey" PRIMARY KEY ("facility_id","sequence")
);

-- CreateTable
CREATE TABLE "history"."frontier" (
    "facility_id" UUID NOT NULL,
    "size" BIGINT NOT NULL,
    "last_at" TIMESTAMPTZ(3) NOT NULL,
    "nodes" BYTEA[],

    CONSTRAINT "frontier_pkey" PRIMARY KEY ("facility_id")
);

-- CreateTable
CREATE TABLE "organisation" (
    "id" UUID NOT NULL,
    "name" TEXT NOT NULL,

    CONSTRAINT "organisation_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "person" (
    "id" UUID NOT NULL,
    "organisation_id" UUID NOT NULL,
    "user_id" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "active" BOOLEAN NOT NULL DEFAULT true,
    "created_at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "person_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "session" (
    "id" UUID NOT NULL,
    "organisation_id" UUID NOT NULL,
    "person_id" UUID NOT NULL,
    "facility_id" UUID NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL,
    "expires_at" TIMESTAMPTZ(3) NOT NULL,
    "ended_at" TIMESTAMPTZ(3),

    CONSTRAINT "session_pkey" PRIMARY KEY ("id")
);

-- CreateTable
CREATE TABLE "workstation_model" (
    "id" UUID NOT NULL,
    "organisation_id" UUID NOT NULL,
    "maker" TEXT NOT NULL,
    "name" TEXT NOT NULL,
    "document" JSONB NOT NULL,

    CONSTRAINT "workstation_model_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "readiness_facility_id_good_until_idx" ON "derived"."readiness"("facility_id", "good_until");

-- CreateIndex
CREATE INDEX "readiness_change_facility_id_holder_id_at_idx" ON "derived"."readiness_change"("facility_id", "holder_id", "at");

-- CreateIndex
CREATE UNIQUE INDEX "workstation_facility_id_tag_key" ON "workstation"("facility_id", "tag");

-- CreateIndex
CREATE UNIQUE INDEX "cylinder_facility_id_serial_key" ON "cylinder"("facility_id", "serial");

-- CreateIndex
CREATE UNIQUE INDEX "vaporizer_facility_id_tag_key" ON "vaporizer"("facility_id", "tag");

-- CreateIndex
CREATE UNIQUE INDEX "absorbent_facility_id_tag_key" ON "absorbent"("facility_id", "tag");

-- CreateIndex
CREATE UNIQUE INDEX "oxygen_sensor_facility_id_tag_key" ON "oxygen_sensor"("facility_id", "tag");

-- CreateIndex
CREATE UNIQUE INDEX "facility_organisation_id_name_key" ON "facility"("organisation_id", "name");

-- CreateIndex
CREATE UNIQUE INDEX "suite_facility_id_name_key" ON "suite"("facility_id", "name");

-- CreateIndex
CREATE UNIQUE INDEX "pipeline_zone_facility_id_name_key" ON "pipeline_zone"("facility_id", "name");

-- CreateIndex
CREATE UNIQUE INDEX "store_facility_id_name_key" ON "store"("facility_id", "name");

-- CreateIndex
CREATE UNIQUE INDEX "room_facility_id_name_key" ON "room"("facility_id", "name");

-- CreateIndex
CREATE UNIQUE INDEX "procedure_facility_id_kind_version_key" ON "procedure"("facility_id", "kind", "version");

-- CreateIndex
CREATE INDEX "check_run_facility_id_workstation_id_started_at_idx" ON "fact"."check_run"("facility_id", "workstation_id", "started_at");

-- CreateIndex
CREATE INDEX "observation_facility_id_workstation_id_observed_at_idx" ON "fact"."observation"("facility_id", "workstation_id", "observed_at");

-- CreateIndex
CREATE INDEX "observation_facility_id_room_id_observed_at_idx" ON "fact"."observation"("facility_id", "room_id", "observed_at");

-- CreateIndex
CREATE UNIQUE INDEX "signature_facility_id_check_id_meaning_key" ON "fact"."signature"("facility_id", "check_id", "meaning");

-- CreateIndex
CREATE INDEX "equipment_event_facility_id_workstation_id_at_idx" ON "fact"."equipment_event"("facility_id", "workstation_id", "at");

-- CreateIndex
CREATE INDEX "limit_allowance_facility_id_workstation_id_until_idx" ON "fact"."limit_allowance"("facility_id", "workstation_id", "until");

-- CreateIndex
CREATE UNIQUE INDEX "person_user_id_key" ON "person"("user_id");

-- CreateIndex
CREATE INDEX "session_person_id_idx" ON "session"("person_id");

-- CreateIndex
CREATE UNIQUE INDEX "workstation_model_organisation_id_name_key" ON "workstation_model"("organisation_id", "name");

-- ---------------------------------------------------------------------------------------------------------------------
-- What the schema language cannot say: keys across facilities, intervals, row-level security, grants, and the few functions.
-- Two roles: yokeboard_owner migrates, yokeboard_app runs. The application never owns a table and never bypasses a policy.
-- ---------------------------------------------------------------------------------------------------------------------

CREATE EXTENSION IF NOT EXISTS btree_gist WITH SCHEMA public;

-- Passwords live where the application's role cannot read; the functions below are the only way in.
CREATE TABLE public.person_secret (
    person_id uuid PRIMARY KEY REFERENCES public.person (id),
    password_hash text NOT NULL,
    changed_at timestamptz(3) NOT NULL
);

-- Counters of the rate limiter (its library keeps its own shape).
CREATE TABLE public.rate_limit (
    key varchar(255) PRIMARY KEY,
    points integer NOT NULL DEFAULT 0,
    expire bigint
);

-- Keys. Facility leads each, so that tables can one day be spread by facility.
ALTER TABLE public.person ADD FOREIGN KEY (organisation_id) REFERENCES public.organisation (id);
ALTER TABLE public.facility ADD FOREIGN KEY (organisation_id) REFERENCES public.organisation (id);
ALTER TABLE public.session ADD FOREIGN KEY (person_id) REFERENCES public.person (id);
ALTER TABLE public.workstation_model ADD FOREIGN KEY (organisation_id) REFERENCES public.organisation (id);
ALTER TABLE public.facility_settings ADD FOREIGN KEY (facility_id) REFERENCES public.facility (id);
ALTER TABLE public.person_role ADD FOREIGN KEY (facility_id) REFERENCES public.facility (id);
ALTER TABLE public.person_role ADD FOREIGN KEY (person_id) REFERENCES public.person (id);
ALTER TABLE public.room ADD FOREIGN KEY (facility_id, suite_id) REFERENCES public.suite (facility_id, id);
ALTER TABLE public.room ADD FOREIGN KEY (facility_id, zone_id) REFERENCES public.pipeline_zone (facility_id, id);
ALTER TABLE public.day_list ADD FOREIGN KEY (facility_id, room_id) REFERENCES public.room (facility_id, id);
ALTER TABLE public.workstation ADD FOREIGN KEY (model_id) REFERENCES public.workstation_model (id);
ALTER TABLE public.cylinder ADD FOREIGN KEY (facility_id, store_id) REFERENCES public.store (facility_id, id);
ALTER TABLE public.vaporizer ADD FOREIGN KEY (facility_id, store_id) REFERENCES public.store (facility_id, id);
ALTER TABLE public.absorbent ADD FOREIGN KEY (facility_id, store_id) REFERENCES public.store (facility_id, id);
ALTER TABLE public.oxygen_sensor ADD FOREIGN KEY (facility_id, store_id) REFERENCES public.store (facility_id, id);
ALTER TABLE public.service_plan ADD FOREIGN KEY (facility_id, workstation_id) REFERENCES public.workstation (facility_id, id);
ALTER TABLE fact.placement ADD FOREIGN KEY (facility_id, workstation_id) REFERENCES public.workstation (facility_id, id);
ALTER TABLE fact.placement ADD FOREIGN KEY (facility_id, room_id) REFERENCES public.room (facility_id, id);
ALTER TABLE fact.placement ADD FOREIGN KEY (facility_id, store_id) REFERENCES public.store (facility_id, id);
ALTER TABLE fact.fitting ADD FOREIGN KEY (facility_id, workstation_id) REFERENCES public.workstation (facility_id, id);
ALTER TABLE fact.occupancy ADD FOREIGN KEY (facility_id, room_id) REFERENCES public.room (facility_id, id);
ALTER TABLE fact.check_run ADD FOREIGN KEY (facility_id, workstation_id) REFERENCES public.workstation (facility_id, id);
ALTER TABLE fact.observation ADD FOREIGN KEY (facility_id, check_id) REFERENCES fact.check_run (facility_id, id);
ALTER TABLE fact.signature ADD FOREIGN KEY (facility_id, check_id) REFERENCES fact.check_run (facility_id, id);
ALTER TABLE fact.hold ADD FOREIGN KEY (facility_id, workstation_id) REFERENCES public.workstation (facility_id, id);
ALTER TABLE fact.limit_allowance ADD FOREIGN KEY (facility_id, workstation_id) REFERENCES public.workstation (facility_id, id);
ALTER TABLE fact.fault_report ADD FOREIGN KEY (facility_id, workstation_id) REFERENCES public.workstation (facility_id, id);

-- Intervals: one place at a time, one workstation a room, one thing a yoke or mount, one state a room, one holder a task.
ALTER TABLE fact.placement
  ADD CONSTRAINT placement_somewhere CHECK (num_nonnulls(room_id, store_id) = 1),
  ADD CONSTRAINT placement_forward CHECK ("to" IS NULL OR "to" >= "from"),
  ADD CONSTRAINT workstation_in_one_place EXCLUDE USING gist (facility_id WITH =, workstation_id WITH =, tstzrange("from", "to") WITH &&),
  ADD CONSTRAINT room_holds_one_workstation EXCLUDE USING gist (facility_id WITH =, room_id WITH =, tstzrange("from", "to") WITH &&) WHERE (room_id IS NOT NULL);
ALTER TABLE fact.fitting
  ADD CONSTRAINT fitting_kind CHECK (item_kind IN ('cylinder', 'vaporizer', 'absorbent', 'oxygen-sensor')),
  ADD CONSTRAINT fitting_forward CHECK ("to" IS NULL OR "to" >= "from"),
  ADD CONSTRAINT item_fitted_once EXCLUDE USING gist (facility_id WITH =, item_id WITH =, tstzrange("from", "to") WITH &&),
  ADD CONSTRAINT position_holds_one EXCLUDE USING gist (facility_id WITH =, workstation_id WITH =, item_kind WITH =, position WITH =, tstzrange("from", "to") WITH &&);
ALTER TABLE fact.occupancy
  ADD CONSTRAINT occupancy_state CHECK (state IN ('in-use', 'closed')),
  ADD CONSTRAINT occupancy_forward CHECK ("to" IS NULL OR "to" >= "from"),
  ADD CONSTRAINT room_in_one_state EXCLUDE USING gist (facility_id WITH =, room_id WITH =, tstzrange("from", "to") WITH &&);
ALTER TABLE fact.claim
  ADD CONSTRAINT task_claimed_once EXCLUDE USING gist (facility_id WITH =, task_key WITH =, tstzrange("from", "to") WITH &&);
CREATE UNIQUE INDEX task_open_once ON derived.task (facility_id, key) WHERE closed_at IS NULL;
CREATE INDEX fitting_now ON fact.fitting (facility_id, workstation_id) WHERE "to" IS NULL;
CREATE INDEX placement_now ON fact.placement (facility_id, workstation_id) WHERE "to" IS NULL;
CREATE INDEX placement_room_now ON fact.placement (facility_id, room_id) WHERE "to" IS NULL;
CREATE INDEX hold_open ON fact.hold (facility_id, workstation_id) WHERE lifted_at IS NULL;
CREATE INDEX fault_open ON fact.fault_report (facility_id, workstation_id) WHERE looked_at IS NULL;
CREATE INDEX claim_open ON fact.claim (facility_id, task_key) WHERE "to" IS NULL;
CREATE INDEX occupancy_open ON fact.occupancy (facility_id, room_id) WHERE "to" IS NULL;
CREATE INDEX observation_of_item ON fact.observation (facility_id, workstation_id, item, subject_id, observed_at DESC);
CREATE INDEX observation_of_room_item ON fact.observation (facility_id, room_id, item, subject_id, observed_at DESC);
CREATE INDEX check_run_by_room ON fact.check_run (facility_id, room_id, started_at);
-- The record is read by room and by person; the exact text stays the only copy, so the indexes look into it.
CREATE INDEX leaf_by_room ON history.leaf USING gin (((body::jsonb) #> '{entry,rooms}') jsonb_path_ops);
CREATE INDEX leaf_by_person ON history.leaf (facility_id, ((body::jsonb) #>> '{entry,person,id}'), sequence);
CREATE INDEX signature_by_check ON fact.signature (facility_id, check_id);

-- Row-level security. A pooled connection keeps '' as the setting, and a bare cast of '' throws: hence NULLIF.
CREATE FUNCTION public.current_facility() RETURNS uuid LANGUAGE sql STABLE PARALLEL SAFE
  AS $$ SELECT NULLIF(current_setting('app.facility', true), '')::uuid $$;
CREATE FUNCTION public.current_organisation() RETURNS uuid LANGUAGE sql STABLE PARALLEL SAFE
  AS $$ SELECT NULLIF(current_setting('app.organisation', true), '')::uuid $$;

DO $$
DECLARE t record;
BEGIN
  FOR t IN
    SELECT n.nspname, c.relname FROM pg_class c JOIN pg_namespace n ON n.oid = c.relnamespace
    WHERE c.relkind = 'r' AND n.nspname IN ('public', 'fact', 'derived', 'history')
      AND EXISTS (SELECT FROM pg_attribute a WHERE a.attrelid = c.oid AND a.attname = 'facility_id' AND NOT a.attisdropped)
      AND c.relname <> 'session'
  LOOP
    EXECUTE format('ALTER TABLE %I.%I ENABLE ROW LEVEL SECURITY', t.nspname, t.relname);
    EXECUTE format('ALTER TABLE %I.%I FORCE ROW LEVEL SECURITY', t.nspname, t.relname);
    EXECUTE format('CREATE POLICY by_facility ON %I.%I USING (facility_id = public.current_facility()) WITH CHECK (facility_id = public.current_facility())', t.nspname, t.relname);
  END LOOP;
END $$;

ALTER TABLE public.organisation ENABLE ROW LEVEL SECURITY;
ALTER TABLE public.organisation FORCE ROW LEVEL SECURITY;
CREATE POLICY by_organisation ON public.organisation USING (id = public.current_organisation()) WITH CHECK (id = public.current_organisation());
ALTER TABLE public.person ENABLE ROW LEVEL SECURITY;
ALTER TABLE public.person FORCE ROW LEVEL SECURITY;
CREATE POLICY by_organisation ON public.person USING (organisation_id = public.current_organisation()) WITH CHECK (organisation_id = public.current_organisation());
ALTER TABLE public.session ENABLE ROW LEVEL SECURITY;
ALTER TABLE public.session FORCE ROW LEVEL SECURITY;
CREATE POLICY by_organisation ON public.session USING (organisation_id = public.current_organisation()) WITH CHECK (organisation_id = public.current_organisation());
ALTER TABLE public.facility ENABLE ROW LEVEL SECURITY;
ALTER TABLE public.facility FORCE ROW LEVEL SECURITY;
CREATE POLICY by_organisation ON public.facility USING (organisation_id = public.current_organisation()) WITH CHECK (organisation_id = public.current_organisation());
ALTER TABLE public.workstation_model ENABLE ROW LEVEL SECURITY;
ALTER TABLE public.workstation_model FORCE ROW LEVEL SECURITY;
CREATE POLICY by_organisation ON public.workstation_model USING (organisation_id = public.current_organisation()) WITH CHECK (organisation_id = public.current_organisation());
ALTER TABLE public.person_secret ENABLE ROW LEVEL SECURITY;
ALTER TABLE public.person_secret FORCE ROW LEVEL SECURITY;

-- Signing in happens before anybody's organisation is known. The functions that do it run as the owner, on these tables alone.
CREATE POLICY sign_in ON public.organisation TO yokeboard_owner USING (true) WITH CHECK (true);
CREATE POLICY sign_in ON public.person TO yokeboard_owner USING (true) WITH CHECK (true);
CREATE POLICY sign_in ON public.person_secret TO yokeboard_owner USING (true) WITH CHECK (true);
CREATE POLICY sign_in ON public.session TO yokeboard_owner USING (true) WITH CHECK (true);
CREATE POLICY sign_in ON public.facility TO yokeboard_owner USING (true) WITH CHECK (true);
CREATE POLICY sign_in ON public.person_role TO yokeboard_owner USING (true) WITH CHECK (true);

-- Grants.
REVOKE ALL ON SCHEMA public FROM PUBLIC;
GRANT USAGE ON SCHEMA public, fact, derived, history TO yokeboard_app;
GRANT SELECT, INSERT, UPDATE ON ALL TABLES IN SCHEMA public TO yokeboard_app;
REVOKE ALL ON public.person_secret FROM yokeboard_app;
REVOKE INSERT, UPDATE ON public.organisation FROM yokeboard_app;
GRANT DELETE ON public.check_draft, public.person_role, public.day_list, public.service_plan, public.rate_limit TO yokeboard_app;
GRANT SELECT, INSERT ON ALL TABLES IN SCHEMA fact TO yokeboard_app;
GRANT UPDATE ("to") ON fact.placement, fact.fitting, fact.occupancy TO yokeboard_app;
GRANT UPDATE ("to", outcome) ON fact.claim TO yokeboard_app;
GRANT UPDATE (lifted_at, lifted_by, lift_reason) ON fact.hold TO yokeboard_app;
GRANT UPDATE (looked_at, looked_at_by, conclusion) ON fact.fault_report TO yokeboard_app;
GRANT SELECT, INSERT, UPDATE, DELETE ON ALL TABLES IN SCHEMA derived TO yokeboard_app;
GRANT USAGE ON ALL SEQUENCES IN SCHEMA derived TO yokeboard_app;
GRANT SELECT ON ALL TABLES IN SCHEMA history TO yokeboard_app;
DO $$
BEGIN
  IF EXISTS (SELECT FROM pg_tables WHERE schemaname = 'public' AND tablename = '_prisma_migrations') THEN
    REVOKE ALL ON public._prisma_migrations FROM yokeboard_app;
    GRANT SELECT ON public._prisma_migrations TO yokeboard_app;
  END IF;
END $$;

-- Signing in.
CREATE FUNCTION public.sign_in_lookup(p_user_id text)
  RETURNS TABLE (person_id uuid, organisation_id uuid, name text, password_hash text, active boolean, facilities jsonb)
  LANGUAGE sql STABLE SECURITY DEFINER SET search_path = public, pg_temp AS $$
  SELECT p.id, p.organisation_id, p.name, s.password_hash, p.active,
    coalesce((SELECT jsonb_agg(DISTINCT jsonb_build_object('id', f.id, 'name', f.name))
              FROM person_role r JOIN facility f ON f.id = r.facility_id WHERE r.person_id = p.id), '[]'::jsonb)
  FROM person p JOIN person_secret s ON s.person_id = p.id
  WHERE p.user_id = p_user_id
$$;

CREATE FUNCTION public.find_session(p_session uuid)
  RETURNS TABLE (session_id uuid, person_id uuid, name text, user_id text, organisation_id uuid, facility_id uuid, facility jsonb, roles text[], facilities jsonb, expires_at timestamptz)
  LANGUAGE sql STABLE SECURITY DEFINER SET search_path = public, pg_temp AS $$
  SELECT s.id, p.id, p.name, p.user_id, s.organisation_id, s.facility_id, to_jsonb(f),
    coalesce((SELECT array_agg(r.role ORDER BY r.role) FROM person_role r WHERE r.person_id = p.id AND r.facility_id = s.facility_id), '{}'),
    coalesce((SELECT jsonb_agg(DISTINCT jsonb_build_object('id', o.id, 'name', o.name))
              FROM person_role r JOIN facility o ON o.id = r.facility_id WHERE r.person_id = p.id), '[]'::jsonb),
    s.expires_at
  FROM session s JOIN person p ON p.id = s.person_id JOIN facility f ON f.id = s.facility_id
  WHERE s.id = p_session AND s.ended_at IS NULL AND p.active
$$;

CREATE FUNCTION public.store_password(p_person uuid, p_hash text, p_at timestamptz) RETURNS void
  LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  IF NOT EXISTS (SELECT FROM person WHERE id = p_person AND organisation_id = current_organisation()) THEN
    RAISE EXCEPTION 'person % is not of the current organisation', p_person USING ERRCODE = 'insufficient_privilege';
  END IF;
  INSERT INTO person_secret (person_id, password_hash, changed_at) VALUES (p_person, p_hash, p_at)
  ON CONFLICT (person_id) DO UPDATE SET password_hash = excluded.password_hash, changed_at = excluded.changed_at;
END $$;

/* The secret of somebody already signed in, for signing with the password again. */
CREATE FUNCTION public.password_of(p_person uuid) RETURNS text
  LANGUAGE sql STABLE SECURITY DEFINER SET search_path = public, pg_temp AS $$
  SELECT s.password_hash FROM person_secret s JOIN person p ON p.id = s.person_id
  WHERE p.id = p_person AND p.organisation_id = current_organisation()
$$;

CREATE FUNCTION public.user_id_taken(p_user_id text) RETURNS boolean
  LANGUAGE sql STABLE SECURITY DEFINER SET search_path = public, pg_temp AS $$
  SELECT EXISTS (SELECT FROM person WHERE user_id = p_user_id)
$$;

/* What jobs need: every facility's id, and nothing else of it. */
CREATE FUNCTION public.facility_ids() RETURNS TABLE (facility_id uuid, organisation_id uuid)
  LANGUAGE sql STABLE SECURITY DEFINER SET search_path = public, pg_temp AS $$
  SELECT id, organisation_id FROM facility ORDER BY id
$$;

/* The demo's people, for its sign-in page. The application asks only when it runs as the demo. */
CREATE FUNCTION public.people_to_try() RETURNS TABLE (user_id text, name text, facility text, roles text[])
  LANGUAGE sql STABLE SECURITY DEFINER SET search_path = public, pg_temp AS $$
  SELECT p.user_id, p.name, f.name, array_agg(r.role ORDER BY r.role)
  FROM person p JOIN person_role r ON r.person_id = p.id JOIN facility f ON f.id = r.facility_id
  WHERE p.active GROUP BY p.user_id, p.name, f.name ORDER BY f.name, p.name
$$;

/* Is there anybody at all? The first page offers to make the first administrator only when there is not. */
CREATE FUNCTION public.is_founded() RETURNS boolean
  LANGUAGE sql STABLE SECURITY DEFINER SET search_path = public, pg_temp AS $$
  SELECT EXISTS (SELECT FROM organisation)
$$;

/* A facility from nothing: its row, its settings and its empty history. The organisation must be the caller's own. */
CREATE FUNCTION public.found_facility(p_facility uuid, p_name text, p_time_zone text, p_scheme text, p_pressure_unit text, p_at timestamptz) RETURNS void
  LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  INSERT INTO facility (id, organisation_id, name, time_zone, scheme, pressure_unit, created_at)
    VALUES (p_facility, current_organisation(), p_name, p_time_zone, p_scheme, p_pressure_unit, p_at);
  PERFORM set_config('app.facility', p_facility::text, true);
  INSERT INTO facility_settings (facility_id, version, document, changed_at) VALUES (p_facility, 1, '{}', p_at);
  INSERT INTO history.frontier (facility_id, size, last_at, nodes) VALUES (p_facility, 0, p_at, '{}');
END $$;

-- History: the application's only way to write it. RFC 9162: leaf = SHA-256(00 || body), node = SHA-256(01 || left || right).
CREATE FUNCTION history.append_leaf(p_facility uuid, p_at timestamptz, p_entry text)
  RETURNS TABLE (sequence bigint, at timestamptz)
  LANGUAGE plpgsql SECURITY DEFINER SET search_path = history, public, pg_temp AS $$
DECLARE
  v_size bigint; v_last timestamptz; v_nodes bytea[]; v_at timestamptz(3); v_body text; v_node bytea; v_rest bigint;
BEGIN
  -- The lock comes in a statement of its own: the next statement then sees what its last holder committed.
  PERFORM pg_advisory_xact_lock(hashtextextended('history:' || p_facility::text, 0));
  SELECT f.size, f.last_at, f.nodes INTO STRICT v_size, v_last, v_nodes FROM history.frontier f WHERE f.facility_id = p_facility;
  v_at := greatest(date_trunc('milliseconds', p_at), v_last + interval '1 millisecond');
  v_body := '{"at":"' || to_char(v_at AT TIME ZONE 'UTC', 'YYYY-MM-DD"T"HH24:MI:SS.MS"Z"') || '","entry":' || p_entry || ',"sequence":' || v_size || '}';
  v_node := sha256('\x00'::bytea || convert_to(v_body, 'UTF8'));
  INSERT INTO history.leaf (facility_id, sequence, at, body, hash) VALUES (p_facility, v_size, v_at, v_body, v_node);
  v_rest := v_size;
  WHILE v_rest & 1 = 1 LOOP
    v_node := sha256('\x01'::bytea || v_nodes[cardinality(v_nodes)] || v_node);
    v_nodes := v_nodes[1:cardinality(v_nodes) - 1];
    v_rest := v_rest >> 1;
  END LOOP;
  UPDATE history.frontier SET size = v_size + 1, last_at = v_at, nodes = v_nodes || v_node WHERE facility_id = p_facility;
  RETURN QUERY SELECT v_size, v_at::timestamptz;
END $$;

/*
 * The start of every command, in one round trip and in the one lock order: settings for share, rooms, workstations, then the receipt.
 * Checks and tasks name the workstation they are about; what stands where is read again under the locks, and a move in between is told.
 */
CREATE FUNCTION public.begin_command(
    p_organisation uuid, p_facility uuid, p_person uuid,
    p_rooms uuid[], p_workstations uuid[], p_checks uuid[], p_tasks text[], p_key text, p_everything boolean)
  RETURNS TABLE (facility jsonb, settings_version int, settings jsonb, roles text[], person_active boolean,
                 rooms uuid[], workstations uuid[], receipt_digest text, receipt_reply jsonb)
  LANGUAGE plpgsql AS $$
DECLARE v_rooms uuid[]; v_workstations uuid[]; v_again uuid[];
BEGIN
  PERFORM set_config('app.organisation', p_organisation::text, true), set_config('app.facility', p_facility::text, true);
  SELECT s.version, s.document INTO settings_version, settings FROM public.facility_settings s WHERE s.facility_id = p_facility FOR SHARE;
  SELECT to_jsonb(f) INTO facility FROM public.facility f WHERE f.id = p_facility;
  SELECT coalesce(array_agg(r.role ORDER BY r.role), '{}') INTO roles FROM public.person_role r WHERE r.facility_id = p_facility AND r.person_id = p_person;
  SELECT p.active INTO person_active FROM public.person p WHERE p.id = p_person;

  v_workstations := coalesce(p_workstations, '{}')
    || ARRAY(SELECT c.workstation_id FROM fact.check_run c WHERE c.facility_id = p_facility AND c.id = ANY (p_checks))
    || ARRAY(SELECT t.workstation_id FROM derived.task t WHERE t.facility_id = p_facility AND t.key = ANY (p_tasks) AND t.closed_at IS NULL AND t.workstation_id IS NOT NULL);
  v_rooms := coalesce(p_rooms, '{}')
    || ARRAY(SELECT t.holder_id FROM derived.task t WHERE t.facility_id = p_facility AND t.key = ANY (p_tasks) AND t.closed_at IS NULL AND t.holder_kind = 'room');
  IF p_everything THEN
    v_rooms := ARRAY(SELECT r.id FROM public.room r WHERE r.facility_id = p_facility);
    v_workstations := ARRAY(SELECT w.id FROM public.workstation w WHERE w.facility_id = p_facility);
  END IF;
  v_rooms := v_rooms || ARRAY(SELECT p.room_id FROM fact.placement p
    WHERE p.facility_id = p_facility AND p.workstation_id = ANY (v_workstations) AND p."to" IS NULL AND p.room_id IS NOT NULL);
  v_workstations := v_workstations || ARRAY(SELECT p.workstation_id FROM fact.placement p
    WHERE p.facility_id = p_facility AND p.room_id = ANY (v_rooms) AND p."to" IS NULL);

  rooms := ARRAY(SELECT r.id FROM public.room r WHERE r.facility_id = p_facility AND r.id = ANY (v_rooms) ORDER BY r.id FOR UPDATE);
  workstations := ARRAY(SELECT w.id FROM public.workstation w WHERE w.facility_id = p_facility AND w.id = ANY (v_workstations) ORDER BY w.id FOR UPDATE);
  v_again := ARRAY(SELECT p.room_id FROM fact.placement p
    WHERE p.facility_id = p_facility AND p.workstation_id = ANY (workstations) AND p."to" IS NULL AND p.room_id IS NOT NULL);
  IF NOT v_again <@ rooms THEN
    RAISE EXCEPTION 'a workstation was moved while the command began' USING ERRCODE = 'serialization_failure';
  END IF;

  -- Two copies of one request wait for each other here; the second then finds the first one's receipt.
  IF p_key IS NOT NULL THEN
    PERFORM pg_advisory_xact_lock(hashtextextended('receipt:' || p_facility::text || p_key, 0));
    SELECT r.digest, r.reply INTO receipt_digest, receipt_reply FROM public.receipt r WHERE r.facility_id = p_facility AND r.key = p_key;
  END IF;
  RETURN NEXT;
END $$;

/* The end of every command: receipt, then the history entry last, then the word to every instance (delivered on commit). */
CREATE FUNCTION public.finish_command(p_facility uuid, p_key text, p_digest text, p_reply jsonb, p_at timestamptz, p_entry text, p_notice jsonb)
  RETURNS bigint LANGUAGE plpgsql AS $$
DECLARE v_sequence bigint;
BEGIN
  IF p_key IS NOT NULL THEN
    INSERT INTO public.receipt (facility_id, key, digest, reply, at) VALUES (p_facility, p_key, p_digest, p_reply, p_at);
  END IF;
  SELECT a.sequence INTO v_sequence FROM history.append_leaf(p_facility, p_at, p_entry) a;
  PERFORM pg_notify('yokeboard', (p_notice || jsonb_build_object('facility', p_facility, 'sequence', v_sequence))::text);
  RETURN v_sequence;
END $$;

/*
 * A department that has just been imported is new to the planner, and until autovacuum looks at it every plan is a guess:
 * a command then takes several times as long. So the import has its tables looked at before it ends.
 */
CREATE FUNCTION public.refresh_statistics() RETURNS void
  LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  ANALYZE public.suite, public.room, public.workstation, public.workstation_model, public.cylinder, public.vaporizer, public.absorbent,
    public.oxygen_sensor, public.service_plan, public.day_list, public.person_role, fact.placement, fact.fitting;
END $$;

DO $$
DECLARE f regprocedure;
BEGIN
  FOR f IN SELECT p.oid FROM pg_proc p JOIN pg_namespace n ON n.oid = p.pronamespace
    WHERE n.nspname IN ('public', 'history') AND NOT EXISTS (SELECT FROM pg_depend d WHERE d.objid = p.oid AND d.deptype = 'e')
  LOOP
    EXECUTE format('REVOKE ALL ON FUNCTION %s FROM PUBLIC', f);
  END LOOP;
END $$;
GRANT EXECUTE ON FUNCTION
  public.current_facility(), public.current_organisation(), public.sign_in_lookup(text), public.find_session(uuid),
  public.store_password(uuid, text, timestamptz), public.password_of(uuid), public.user_id_taken(text), public.facility_ids(), public.people_to_try(), public.is_founded(),
  public.found_facility(uuid, text, text, text, text, timestamptz), history.append_leaf(uuid, timestamptz, text),
  public.refresh_statistics(),
  public.begin_command(uuid, uuid, uuid, uuid[], uuid[], uuid[], text[], text, boolean),
  public.finish_command(uuid, text, text, jsonb, timestamptz, text, jsonb)
  TO yokeboard_app;
