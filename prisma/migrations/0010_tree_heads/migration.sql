-- Signed tree heads: what was promised about the record, and the keys that promised it.

-- CreateTable
CREATE TABLE "history"."head_key" (
    "facility_id" UUID NOT NULL,
    "id" TEXT NOT NULL,
    "public_key" TEXT NOT NULL,
    "sealed" BYTEA,
    "made_at" TIMESTAMPTZ(3) NOT NULL,
    "retired_at" TIMESTAMPTZ(3),

    CONSTRAINT "head_key_pkey" PRIMARY KEY ("facility_id","id")
);

-- CreateTable
CREATE TABLE "history"."tree_head" (
    "facility_id" UUID NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL,
    "size" BIGINT NOT NULL,
    "root" BYTEA NOT NULL,
    "key_id" TEXT NOT NULL,
    "signature" BYTEA NOT NULL,
    "sent" TEXT[],

    CONSTRAINT "tree_head_pkey" PRIMARY KEY ("facility_id","at")
);

-- ---------------------------------------------------------------------------------------------------------------------
-- What the schema language cannot say.
-- ---------------------------------------------------------------------------------------------------------------------

ALTER TABLE history.head_key
  ADD FOREIGN KEY (facility_id) REFERENCES public.facility (id),
  -- A retired key signs nothing more: its private half is gone.
  ADD CONSTRAINT head_key_wiped CHECK (retired_at IS NULL OR sealed IS NULL);
CREATE UNIQUE INDEX head_key_in_use ON history.head_key (facility_id) WHERE retired_at IS NULL;
ALTER TABLE history.tree_head
  ADD FOREIGN KEY (facility_id, key_id) REFERENCES history.head_key (facility_id, id),
  ADD CONSTRAINT tree_head_root CHECK (octet_length(root) = 32),
  ADD CONSTRAINT tree_head_signature CHECK (octet_length(signature) = 64);

DO $$
DECLARE t regclass;
BEGIN
  FOREACH t IN ARRAY ARRAY['history.head_key', 'history.tree_head']::regclass[]
  LOOP
    EXECUTE format('ALTER TABLE %s ENABLE ROW LEVEL SECURITY', t);
    EXECUTE format('ALTER TABLE %s FORCE ROW LEVEL SECURITY', t);
    EXECUTE format('CREATE POLICY by_facility ON %s USING (facility_id = public.current_facility()) WITH CHECK (facility_id = public.current_facility())', t);
  END LOOP;
END $$;

GRANT SELECT, INSERT ON history.head_key, history.tree_head TO yokeboard_app;
GRANT UPDATE (sealed, retired_at) ON history.head_key TO yokeboard_app;
GRANT UPDATE (sent) ON history.tree_head TO yokeboard_app;
