-- Moving equipment and work: what a check, a task and a room in an emergency leave on record, and who is on duty.

-- CreateTable
CREATE TABLE "fact"."check_takeover" (
    "facility_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "check_id" UUID NOT NULL,
    "from_person" UUID NOT NULL,
    "person_id" UUID NOT NULL,
    "reason" TEXT NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "check_takeover_pkey" PRIMARY KEY ("facility_id","id")
);

-- CreateTable
CREATE TABLE "fact"."check_correction" (
    "facility_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "check_id" UUID NOT NULL,
    "right_check_id" UUID NOT NULL,
    "reason" TEXT NOT NULL,
    "by" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "check_correction_pkey" PRIMARY KEY ("facility_id","id")
);

-- CreateTable
CREATE TABLE "fact"."self_test_start" (
    "facility_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "check_id" UUID NOT NULL,
    "by" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "self_test_start_pkey" PRIMARY KEY ("facility_id","id")
);

-- CreateTable
CREATE TABLE "fact"."task_step" (
    "facility_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "task_key" TEXT NOT NULL,
    "kind" TEXT NOT NULL,
    "person_id" UUID NOT NULL,
    "other_person" UUID,
    "reason" TEXT,
    "at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "task_step_pkey" PRIMARY KEY ("facility_id","id")
);

-- CreateTable
CREATE TABLE "fact"."emergency_use" (
    "facility_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "occupancy_id" UUID NOT NULL,
    "room_id" UUID NOT NULL,
    "workstation_id" UUID,
    "reason" TEXT NOT NULL,
    "state" TEXT NOT NULL,
    "why" TEXT NOT NULL,
    "by" UUID NOT NULL,
    "role" TEXT NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "emergency_use_pkey" PRIMARY KEY ("facility_id","id")
);

-- CreateTable
CREATE TABLE "duty" (
    "facility_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "date" DATE NOT NULL,
    "person_id" UUID NOT NULL,
    "role" TEXT NOT NULL,
    "from" TIMESTAMPTZ(3) NOT NULL,
    "to" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "duty_pkey" PRIMARY KEY ("facility_id","id")
);

-- AlterTable
ALTER TABLE "store" ADD COLUMN "suite_id" UUID,
ADD COLUMN "walking_order" INTEGER;

-- CreateIndex
CREATE INDEX "check_takeover_facility_id_check_id_at_idx" ON "fact"."check_takeover"("facility_id", "check_id", "at");

-- CreateIndex
CREATE UNIQUE INDEX "check_correction_facility_id_check_id_key" ON "fact"."check_correction"("facility_id", "check_id");

-- CreateIndex
CREATE INDEX "self_test_start_facility_id_check_id_at_idx" ON "fact"."self_test_start"("facility_id", "check_id", "at");

-- CreateIndex
CREATE INDEX "task_step_facility_id_task_key_at_idx" ON "fact"."task_step"("facility_id", "task_key", "at");

-- CreateIndex
CREATE INDEX "emergency_use_facility_id_at_idx" ON "fact"."emergency_use"("facility_id", "at");

-- CreateIndex
CREATE INDEX "duty_facility_id_date_person_id_idx" ON "duty"("facility_id", "date", "person_id");

-- CreateIndex
CREATE INDEX "duty_facility_id_to_idx" ON "duty"("facility_id", "to");

-- ---------------------------------------------------------------------------------------------------------------------
-- What the schema language cannot say.
-- ---------------------------------------------------------------------------------------------------------------------

ALTER TABLE public.store
  ADD FOREIGN KEY (facility_id, suite_id) REFERENCES public.suite (facility_id, id);
ALTER TABLE fact.check_takeover
  ADD FOREIGN KEY (facility_id, check_id) REFERENCES fact.check_run (facility_id, id);
ALTER TABLE fact.check_correction
  ADD FOREIGN KEY (facility_id, check_id) REFERENCES fact.check_run (facility_id, id),
  ADD FOREIGN KEY (facility_id, right_check_id) REFERENCES fact.check_run (facility_id, id);
ALTER TABLE fact.self_test_start
  ADD FOREIGN KEY (facility_id, check_id) REFERENCES fact.check_run (facility_id, id);
ALTER TABLE fact.task_step
  ADD CONSTRAINT task_step_kind CHECK (kind IN ('started', 'paused', 'handed-over', 'taken-over', 'cannot-do'));
ALTER TABLE fact.emergency_use
  ADD FOREIGN KEY (facility_id, occupancy_id) REFERENCES fact.occupancy (facility_id, id),
  ADD FOREIGN KEY (facility_id, room_id) REFERENCES public.room (facility_id, id);
ALTER TABLE public.duty
  ADD FOREIGN KEY (person_id) REFERENCES public.person (id),
  ADD CONSTRAINT duty_forward CHECK ("to" > "from"),
  -- Overlapping rosters are merged before they are stored: nobody is on duty twice in one role.
  ADD CONSTRAINT on_duty_once EXCLUDE USING gist (facility_id WITH =, person_id WITH =, role WITH =, tstzrange("from", "to") WITH &&);

DO $$
DECLARE t regclass;
BEGIN
  FOREACH t IN ARRAY ARRAY['fact.check_takeover', 'fact.check_correction', 'fact.self_test_start', 'fact.task_step', 'fact.emergency_use', 'public.duty']::regclass[]
  LOOP
    EXECUTE format('ALTER TABLE %s ENABLE ROW LEVEL SECURITY', t);
    EXECUTE format('ALTER TABLE %s FORCE ROW LEVEL SECURITY', t);
    EXECUTE format('CREATE POLICY by_facility ON %s USING (facility_id = public.current_facility()) WITH CHECK (facility_id = public.current_facility())', t);
  END LOOP;
END $$;

GRANT SELECT, INSERT ON fact.check_takeover, fact.check_correction, fact.self_test_start, fact.task_step, fact.emergency_use TO yokeboard_app;
GRANT SELECT, INSERT, DELETE ON public.duty TO yokeboard_app;

/*
 * The start of every command, as before, and now also with workstations that move between rooms: a command that began before a move
 * was committed, and waited for it, starts again, so that it judges what stands in its rooms now.
 */
CREATE OR REPLACE FUNCTION public.begin_command(
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
  -- A check speaks of the room it was begun in, also when its workstation has been moved out of it since.
  v_rooms := coalesce(p_rooms, '{}')
    || ARRAY(SELECT c.room_id FROM fact.check_run c WHERE c.facility_id = p_facility AND c.id = ANY (p_checks) AND c.room_id IS NOT NULL)
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
  -- And the other way round: whatever was moved into one of these rooms meanwhile is judged with it, so it must be locked, too.
  v_again := ARRAY(SELECT p.workstation_id FROM fact.placement p
    WHERE p.facility_id = p_facility AND p.room_id = ANY (rooms) AND p."to" IS NULL);
  IF NOT v_again <@ workstations THEN
    RAISE EXCEPTION 'a workstation was moved while the command began' USING ERRCODE = 'serialization_failure';
  END IF;

  -- Two copies of one request wait for each other here; the second then finds the first one's receipt.
  IF p_key IS NOT NULL THEN
    PERFORM pg_advisory_xact_lock(hashtextextended('receipt:' || p_facility::text || p_key, 0));
    SELECT r.digest, r.reply INTO receipt_digest, receipt_reply FROM public.receipt r WHERE r.facility_id = p_facility AND r.key = p_key;
  END IF;
  RETURN NEXT;
END $$;
