-- Where readings are heading: written when a reading is written, a row only when the answer changed, so that any past moment can be
-- judged again with the trend that was known then.
CREATE TABLE "derived"."trend" (
    "facility_id" UUID NOT NULL,
    "keeper_id" UUID NOT NULL,
    "item" TEXT NOT NULL,
    "subject_kind" TEXT NOT NULL,
    "subject_id" TEXT NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "slope" JSONB,
    "crossing" DATE,
    "crossing_from" DATE,
    "crossing_to" DATE,

    CONSTRAINT "trend_pkey" PRIMARY KEY ("facility_id","keeper_id","at","item","subject_id"),
    CONSTRAINT "trend_interval_holds_its_crossing" CHECK (
      (crossing IS NULL) = (crossing_from IS NULL) AND crossing_from <= crossing AND (crossing_to IS NULL OR crossing <= crossing_to))
);

ALTER TABLE "derived"."trend" ADD CONSTRAINT "trend_facility_id_fkey" FOREIGN KEY ("facility_id") REFERENCES "facility"("id");

ALTER TABLE derived.trend ENABLE ROW LEVEL SECURITY;
ALTER TABLE derived.trend FORCE ROW LEVEL SECURITY;
CREATE POLICY by_facility ON derived.trend USING (facility_id = public.current_facility()) WITH CHECK (facility_id = public.current_facility());

GRANT SELECT, INSERT, UPDATE, DELETE ON derived.trend TO yokeboard_app;
