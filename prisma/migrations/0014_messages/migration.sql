-- What reaches a person: channels, escalations, messages and their deliveries.

-- CreateTable
CREATE TABLE "public"."channel" (
    "facility_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "person_id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "address" JSONB NOT NULL,
    "label" TEXT NOT NULL,
    "added_at" TIMESTAMPTZ(3) NOT NULL,
    "ended_at" TIMESTAMPTZ(3),

    CONSTRAINT "channel_pkey" PRIMARY KEY ("facility_id","id")
);

-- CreateTable
CREATE TABLE "public"."summary_choice" (
    "facility_id" UUID NOT NULL,
    "person_id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "at" TEXT NOT NULL,

    CONSTRAINT "summary_choice_pkey" PRIMARY KEY ("facility_id","person_id","kind")
);

-- CreateTable
CREATE TABLE "fact"."escalation" (
    "facility_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "task_key" TEXT NOT NULL,
    "person_id" UUID NOT NULL,
    "by_person" UUID,
    "reason" TEXT NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "answer_by" TIMESTAMPTZ(3) NOT NULL,
    "answered_at" TIMESTAMPTZ(3),
    "ended_at" TIMESTAMPTZ(3),
    "outcome" TEXT,

    CONSTRAINT "escalation_pkey" PRIMARY KEY ("facility_id","id")
);

-- CreateTable
CREATE TABLE "fact"."message" (
    "facility_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "person_id" UUID NOT NULL,
    "kind" TEXT NOT NULL,
    "about" TEXT NOT NULL,
    "title" TEXT NOT NULL,
    "body" TEXT NOT NULL,
    "path" TEXT NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,

    CONSTRAINT "message_pkey" PRIMARY KEY ("facility_id","id")
);

-- CreateTable
CREATE TABLE "fact"."delivery" (
    "facility_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "message_id" UUID NOT NULL,
    "channel_id" UUID NOT NULL,
    "attempts" INTEGER NOT NULL DEFAULT 0,
    "next_at" TIMESTAMPTZ(3),
    "sent_at" TIMESTAMPTZ(3),
    "problem" TEXT,

    CONSTRAINT "delivery_pkey" PRIMARY KEY ("facility_id","id")
);

-- CreateIndex
CREATE INDEX "channel_facility_id_person_id_idx" ON "public"."channel"("facility_id", "person_id");

-- CreateIndex
CREATE INDEX "escalation_facility_id_task_key_at_idx" ON "fact"."escalation"("facility_id", "task_key", "at");

-- CreateIndex
CREATE UNIQUE INDEX "message_facility_id_person_id_kind_about_key" ON "fact"."message"("facility_id", "person_id", "kind", "about");

-- CreateIndex
CREATE UNIQUE INDEX "delivery_facility_id_message_id_channel_id_key" ON "fact"."delivery"("facility_id", "message_id", "channel_id");

-- ---------------------------------------------------------------------------------------------------------------------
-- What the schema language cannot say.
-- ---------------------------------------------------------------------------------------------------------------------

ALTER TABLE public.channel
  ADD FOREIGN KEY (facility_id) REFERENCES public.facility (id),
  ADD FOREIGN KEY (person_id) REFERENCES public.person (id),
  ADD CONSTRAINT channel_kind CHECK (kind IN ('push', 'webhook', 'mail'));
-- One person is reached once by one address.
CREATE UNIQUE INDEX channel_once ON public.channel (facility_id, person_id, kind, (address ->> 'to')) WHERE ended_at IS NULL;
ALTER TABLE public.summary_choice
  ADD FOREIGN KEY (facility_id) REFERENCES public.facility (id),
  ADD FOREIGN KEY (person_id) REFERENCES public.person (id),
  ADD CONSTRAINT summary_kind CHECK (kind IN ('morning', 'week'));
ALTER TABLE fact.escalation
  ADD FOREIGN KEY (person_id) REFERENCES public.person (id),
  ADD CONSTRAINT escalation_end CHECK ((ended_at IS NULL) = (outcome IS NULL)),
  ADD CONSTRAINT escalation_outcome CHECK (outcome IN ('passed-on', 'unanswered', 'over'));
-- One person at a time is asked about one task.
CREATE UNIQUE INDEX escalation_open ON fact.escalation (facility_id, task_key) WHERE ended_at IS NULL;
ALTER TABLE fact.message ADD FOREIGN KEY (person_id) REFERENCES public.person (id);
ALTER TABLE fact.delivery
  ADD FOREIGN KEY (facility_id, message_id) REFERENCES fact.message (facility_id, id),
  ADD FOREIGN KEY (facility_id, channel_id) REFERENCES public.channel (facility_id, id),
  ADD CONSTRAINT delivery_done CHECK (sent_at IS NULL OR next_at IS NULL);
CREATE INDEX delivery_due ON fact.delivery (facility_id, next_at) WHERE next_at IS NOT NULL;

DO $$
DECLARE t regclass;
BEGIN
  FOREACH t IN ARRAY ARRAY['public.channel', 'public.summary_choice', 'fact.escalation', 'fact.message', 'fact.delivery']::regclass[]
  LOOP
    EXECUTE format('ALTER TABLE %s ENABLE ROW LEVEL SECURITY', t);
    EXECUTE format('ALTER TABLE %s FORCE ROW LEVEL SECURITY', t);
    EXECUTE format('CREATE POLICY by_facility ON %s USING (facility_id = public.current_facility()) WITH CHECK (facility_id = public.current_facility())', t);
  END LOOP;
END $$;

GRANT SELECT, INSERT, UPDATE ON public.channel TO yokeboard_app;
GRANT SELECT, INSERT, UPDATE, DELETE ON public.summary_choice TO yokeboard_app;
GRANT SELECT, INSERT ON fact.escalation, fact.message, fact.delivery TO yokeboard_app;
GRANT UPDATE (answered_at, ended_at, outcome) ON fact.escalation TO yokeboard_app;
GRANT UPDATE (attempts, next_at, sent_at, problem) ON fact.delivery TO yokeboard_app;
