-- AlterTable
ALTER TABLE "facility" ADD COLUMN "words" JSONB NOT NULL DEFAULT '{}';

-- AlterTable
ALTER TABLE "room" ADD COLUMN "retired_at" TIMESTAMPTZ(3);

-- CreateTable
CREATE TABLE "weekly_template" (
    "facility_id" UUID NOT NULL,
    "room_id" UUID NOT NULL,
    "weekday" INTEGER NOT NULL,
    "from_date" DATE NOT NULL,
    "to_date" DATE,
    "closed" BOOLEAN NOT NULL,
    "first_case" TEXT,
    "ends_at" TEXT,
    "needs" TEXT[],
    "set_up_minutes" INTEGER NOT NULL,

    CONSTRAINT "weekly_template_pkey" PRIMARY KEY ("facility_id","room_id","weekday","from_date")
);

-- CreateTable
CREATE TABLE "wall_device" (
    "facility_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "code_hash" TEXT NOT NULL,
    "registered_by" UUID NOT NULL,
    "registered_at" TIMESTAMPTZ(3) NOT NULL,
    "revoked_by" UUID,
    "revoked_at" TIMESTAMPTZ(3),
    "last_seen_at" TIMESTAMPTZ(3),

    CONSTRAINT "wall_device_pkey" PRIMARY KEY ("facility_id","id")
);

-- CreateTable
CREATE TABLE "fact"."rule_change" (
    "facility_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "rule" TEXT NOT NULL,
    "setting" JSONB,
    "was" JSONB,
    "reason" TEXT NOT NULL,
    "proposed_by" UUID NOT NULL,
    "proposed_role" TEXT NOT NULL,
    "proposed_at" TIMESTAMPTZ(3) NOT NULL,
    "decision" TEXT,
    "decided_by" UUID,
    "decided_role" TEXT,
    "decided_at" TIMESTAMPTZ(3),
    "decision_reason" TEXT,
    "settings_version" INTEGER,

    CONSTRAINT "rule_change_pkey" PRIMARY KEY ("facility_id","id")
);

-- CreateTable
CREATE TABLE "fact"."settings_version" (
    "facility_id" UUID NOT NULL,
    "version" INTEGER NOT NULL,
    "document" JSONB NOT NULL,
    "in_force_from" TIMESTAMPTZ(3) NOT NULL,
    "rule_change_id" UUID,

    CONSTRAINT "settings_version_pkey" PRIMARY KEY ("facility_id","version")
);

-- CreateIndex
CREATE UNIQUE INDEX "wall_device_code_hash_key" ON "wall_device"("code_hash");

-- CreateIndex
CREATE INDEX "rule_change_facility_id_rule_proposed_at_idx" ON "fact"."rule_change"("facility_id", "rule", "proposed_at");

-- ---------------------------------------------------------------------------------------------------------------------
-- What the schema language cannot say.
-- ---------------------------------------------------------------------------------------------------------------------

ALTER TABLE public.weekly_template
  ADD FOREIGN KEY (facility_id, room_id) REFERENCES public.room (facility_id, id),
  ADD CONSTRAINT weekly_template_weekday CHECK (weekday BETWEEN 1 AND 7),
  ADD CONSTRAINT weekly_template_forward CHECK (to_date IS NULL OR to_date > from_date),
  ADD CONSTRAINT weekly_template_closed CHECK (NOT closed OR (first_case IS NULL AND ends_at IS NULL)),
  -- A template is valid from one day to another, so that last month is still counted by last month's.
  ADD CONSTRAINT weekday_has_one_template EXCLUDE USING gist (facility_id WITH =, room_id WITH =, weekday WITH =, daterange(from_date, to_date) WITH &&);
ALTER TABLE public.wall_device
  ADD FOREIGN KEY (registered_by) REFERENCES public.person (id),
  ADD FOREIGN KEY (revoked_by) REFERENCES public.person (id);
CREATE UNIQUE INDEX wall_device_name ON public.wall_device (facility_id, lower(name)) WHERE revoked_at IS NULL;
ALTER TABLE fact.rule_change
  ADD CONSTRAINT rule_change_decision CHECK (decision IN ('approved', 'declined', 'withdrawn')),
  -- Whatever the application does: nobody approves what they proposed.
  ADD CONSTRAINT rule_change_by_two CHECK (decision IS DISTINCT FROM 'approved' OR decided_by <> proposed_by),
  ADD CONSTRAINT rule_change_decided_whole CHECK (num_nonnulls(decision, decided_by, decided_role, decided_at) IN (0, 4));
-- One open proposal a rule: a second one would be about a limit that is just being changed.
CREATE UNIQUE INDEX rule_change_open_once ON fact.rule_change (facility_id, rule) WHERE decision IS NULL;

DO $$
DECLARE t regclass;
BEGIN
  FOREACH t IN ARRAY ARRAY['public.weekly_template', 'public.wall_device', 'fact.rule_change', 'fact.settings_version']::regclass[]
  LOOP
    EXECUTE format('ALTER TABLE %s ENABLE ROW LEVEL SECURITY', t);
    EXECUTE format('ALTER TABLE %s FORCE ROW LEVEL SECURITY', t);
    EXECUTE format('CREATE POLICY by_facility ON %s USING (facility_id = public.current_facility()) WITH CHECK (facility_id = public.current_facility())', t);
  END LOOP;
END $$;

-- A wall device is known by its code alone, before anybody's facility is: the functions below look, as the owner, in this table only.
CREATE POLICY sign_in ON public.wall_device TO yokeboard_owner USING (true) WITH CHECK (true);

GRANT SELECT, INSERT, DELETE ON public.weekly_template TO yokeboard_app;
GRANT UPDATE (to_date) ON public.weekly_template TO yokeboard_app;
GRANT SELECT, INSERT ON public.wall_device TO yokeboard_app;
GRANT UPDATE (revoked_by, revoked_at) ON public.wall_device TO yokeboard_app;
GRANT SELECT, INSERT ON fact.rule_change, fact.settings_version TO yokeboard_app;
GRANT UPDATE (decision, decided_by, decided_role, decided_at, decision_reason, settings_version) ON fact.rule_change TO yokeboard_app;

/* The wall device behind a code, or with an id, and its facility; nothing once it is revoked. */
CREATE FUNCTION public.find_wall_device(p_code_hash text, p_device uuid)
  RETURNS TABLE (device_id uuid, name text, organisation_id uuid, facility_id uuid)
  LANGUAGE sql STABLE SECURITY DEFINER SET search_path = public, pg_temp AS $$
  SELECT d.id, d.name, f.organisation_id, f.id FROM wall_device d JOIN facility f ON f.id = d.facility_id
  WHERE (d.code_hash = p_code_hash OR d.id = p_device) AND d.revoked_at IS NULL
$$;

/* A wall asks every few seconds; once a minute is often enough to know that it is still there. */
CREATE FUNCTION public.wall_device_seen(p_device uuid, p_at timestamptz) RETURNS void
  LANGUAGE sql SECURITY DEFINER SET search_path = public, pg_temp AS $$
  UPDATE wall_device SET last_seen_at = p_at
  WHERE id = p_device AND revoked_at IS NULL AND (last_seen_at IS NULL OR last_seen_at < p_at - interval '1 minute')
$$;

/*
 * The first lock of a command that changes the settings themselves. Every other command holds them for share until it ends, so one that
 * took them for share as well, and its rooms after that, would wait for its neighbours while they wait for it.
 */
CREATE FUNCTION public.lock_settings(p_organisation uuid, p_facility uuid) RETURNS void
  LANGUAGE plpgsql AS $$
BEGIN
  PERFORM set_config('app.organisation', p_organisation::text, true), set_config('app.facility', p_facility::text, true);
  PERFORM FROM public.facility_settings s WHERE s.facility_id = p_facility FOR UPDATE;
END $$;

REVOKE ALL ON FUNCTION public.find_wall_device(text, uuid), public.wall_device_seen(uuid, timestamptz), public.lock_settings(uuid, uuid) FROM PUBLIC;
GRANT EXECUTE ON FUNCTION public.find_wall_device(text, uuid), public.wall_device_seen(uuid, timestamptz), public.lock_settings(uuid, uuid) TO yokeboard_app;
