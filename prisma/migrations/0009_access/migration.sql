-- Who gets in: sessions on shared devices, PINs, an issuer's identities, API tokens, and what a site asks for.

-- AlterTable
ALTER TABLE "session" ADD COLUMN "device_hash" TEXT,
ADD COLUMN "method" TEXT NOT NULL DEFAULT 'password',
ADD COLUMN "active_at" TIMESTAMPTZ(3),
ADD COLUMN "locked_at" TIMESTAMPTZ(3),
ADD COLUMN "fully_signed_at" TIMESTAMPTZ(3);

-- CreateTable
CREATE TABLE "person_identity" (
    "issuer" TEXT NOT NULL,
    "subject" TEXT NOT NULL,
    "organisation_id" UUID NOT NULL,
    "person_id" UUID NOT NULL,
    "bound_at" TIMESTAMPTZ(3) NOT NULL,
    "bound_by" UUID,

    CONSTRAINT "person_identity_pkey" PRIMARY KEY ("issuer","subject")
);

-- CreateTable
CREATE TABLE "access_settings" (
    "facility_id" UUID NOT NULL,
    "version" INTEGER NOT NULL,
    "document" JSONB NOT NULL,
    "changed_at" TIMESTAMPTZ(3) NOT NULL,
    "changed_by" UUID NOT NULL,

    CONSTRAINT "access_settings_pkey" PRIMARY KEY ("facility_id")
);

-- CreateTable
CREATE TABLE "api_token" (
    "facility_id" UUID NOT NULL,
    "id" UUID NOT NULL,
    "name" TEXT NOT NULL,
    "token_hash" TEXT NOT NULL,
    "reads" BOOLEAN NOT NULL,
    "commands" TEXT[],
    "person_id" UUID NOT NULL,
    "created_at" TIMESTAMPTZ(3) NOT NULL,
    "ends_at" TIMESTAMPTZ(3) NOT NULL,
    "revoked_at" TIMESTAMPTZ(3),
    "revoked_by" UUID,
    "last_used_at" TIMESTAMPTZ(3),

    CONSTRAINT "api_token_pkey" PRIMARY KEY ("facility_id","id")
);

-- CreateIndex
CREATE INDEX "session_device_hash_idx" ON "session"("device_hash");

-- CreateIndex
CREATE INDEX "person_identity_person_id_idx" ON "person_identity"("person_id");

-- CreateIndex
CREATE UNIQUE INDEX "api_token_token_hash_key" ON "api_token"("token_hash");

-- ---------------------------------------------------------------------------------------------------------------------
-- What the schema language cannot say.
-- ---------------------------------------------------------------------------------------------------------------------

ALTER TABLE public.session
  ADD CONSTRAINT session_method CHECK (method IN ('password', 'issuer'));
ALTER TABLE public.person_identity
  ADD FOREIGN KEY (person_id) REFERENCES public.person (id),
  ADD FOREIGN KEY (organisation_id) REFERENCES public.organisation (id);
ALTER TABLE public.access_settings
  ADD FOREIGN KEY (facility_id) REFERENCES public.facility (id),
  ADD FOREIGN KEY (changed_by) REFERENCES public.person (id);
ALTER TABLE public.api_token
  ADD FOREIGN KEY (facility_id) REFERENCES public.facility (id),
  ADD FOREIGN KEY (person_id) REFERENCES public.person (id),
  ADD FOREIGN KEY (revoked_by) REFERENCES public.person (id),
  ADD CONSTRAINT api_token_ends CHECK (ends_at > created_at);
CREATE UNIQUE INDEX api_token_name ON public.api_token (facility_id, lower(name)) WHERE revoked_at IS NULL;
-- Somebody whom only an issuer knows has no password here, and may still have a PIN.
ALTER TABLE public.person_secret
  ALTER COLUMN password_hash DROP NOT NULL,
  ADD COLUMN pin_hash text,
  ADD COLUMN pin_changed_at timestamptz(3);

DO $$
DECLARE t regclass;
BEGIN
  FOREACH t IN ARRAY ARRAY['public.access_settings', 'public.api_token']::regclass[]
  LOOP
    EXECUTE format('ALTER TABLE %s ENABLE ROW LEVEL SECURITY', t);
    EXECUTE format('ALTER TABLE %s FORCE ROW LEVEL SECURITY', t);
    EXECUTE format('CREATE POLICY by_facility ON %s USING (facility_id = public.current_facility()) WITH CHECK (facility_id = public.current_facility())', t);
    EXECUTE format('CREATE POLICY sign_in ON %s TO yokeboard_owner USING (true) WITH CHECK (true)', t);
  END LOOP;
END $$;
ALTER TABLE public.person_identity ENABLE ROW LEVEL SECURITY;
ALTER TABLE public.person_identity FORCE ROW LEVEL SECURITY;
CREATE POLICY by_organisation ON public.person_identity USING (organisation_id = public.current_organisation()) WITH CHECK (organisation_id = public.current_organisation());
CREATE POLICY sign_in ON public.person_identity TO yokeboard_owner USING (true) WITH CHECK (true);

GRANT SELECT, INSERT, DELETE ON public.person_identity TO yokeboard_app;
GRANT SELECT, INSERT, UPDATE ON public.access_settings TO yokeboard_app;
GRANT SELECT, INSERT ON public.api_token TO yokeboard_app;
GRANT UPDATE (revoked_at, revoked_by) ON public.api_token TO yokeboard_app;

/* An open session, and all that is asked of it before anybody's facility is known: who, where, locked or not, and what the site asks for. */
DROP FUNCTION public.find_session(uuid);
CREATE FUNCTION public.find_session(p_session uuid)
  RETURNS TABLE (session_id uuid, person_id uuid, name text, user_id text, organisation_id uuid, facility_id uuid, facility jsonb, roles text[], facilities jsonb,
                 created_at timestamptz, expires_at timestamptz, method text, device_hash text, active_at timestamptz, locked_at timestamptz, fully_signed_at timestamptz,
                 access jsonb, has_pin boolean, has_password boolean)
  LANGUAGE sql STABLE SECURITY DEFINER SET search_path = public, pg_temp AS $$
  SELECT s.id, p.id, p.name, p.user_id, s.organisation_id, s.facility_id, to_jsonb(f),
    coalesce((SELECT array_agg(r.role ORDER BY r.role) FROM person_role r WHERE r.person_id = p.id AND r.facility_id = s.facility_id), '{}'),
    coalesce((SELECT jsonb_agg(DISTINCT jsonb_build_object('id', o.id, 'name', o.name))
              FROM person_role r JOIN facility o ON o.id = r.facility_id WHERE r.person_id = p.id), '[]'::jsonb),
    s.created_at, s.expires_at, s.method, s.device_hash, s.active_at, s.locked_at, s.fully_signed_at,
    coalesce((SELECT a.document FROM access_settings a WHERE a.facility_id = s.facility_id), '{}'::jsonb),
    coalesce((SELECT x.pin_hash IS NOT NULL FROM person_secret x WHERE x.person_id = p.id), false),
    coalesce((SELECT x.password_hash IS NOT NULL FROM person_secret x WHERE x.person_id = p.id), false)
  FROM session s JOIN person p ON p.id = s.person_id JOIN facility f ON f.id = s.facility_id
  WHERE s.id = p_session AND s.ended_at IS NULL AND p.active
$$;

/* The people whose sessions are open in one browser: whom its PIN pad offers. One line a person, the newest. */
CREATE FUNCTION public.sessions_on_device(p_device_hash text)
  RETURNS TABLE (session_id uuid, person_id uuid, name text, user_id text, organisation_id uuid, facility_id uuid, facility_name text, has_pin boolean)
  LANGUAGE sql STABLE SECURITY DEFINER SET search_path = public, pg_temp AS $$
  SELECT DISTINCT ON (p.name, p.id) s.id, p.id, p.name, p.user_id, s.organisation_id, s.facility_id, f.name, x.pin_hash IS NOT NULL
  FROM session s JOIN person p ON p.id = s.person_id JOIN facility f ON f.id = s.facility_id LEFT JOIN person_secret x ON x.person_id = p.id
  WHERE s.device_hash = p_device_hash AND s.ended_at IS NULL AND s.expires_at > now() AND p.active
  ORDER BY p.name, p.id, s.created_at DESC
$$;

/* The PIN of somebody already known, for signing and unlocking. */
CREATE FUNCTION public.pin_of(p_person uuid) RETURNS text
  LANGUAGE sql STABLE SECURITY DEFINER SET search_path = public, pg_temp AS $$
  SELECT s.pin_hash FROM person_secret s JOIN person p ON p.id = s.person_id
  WHERE p.id = p_person AND p.organisation_id = current_organisation()
$$;

CREATE FUNCTION public.store_pin(p_person uuid, p_hash text, p_at timestamptz) RETURNS void
  LANGUAGE plpgsql SECURITY DEFINER SET search_path = public, pg_temp AS $$
BEGIN
  IF NOT EXISTS (SELECT FROM person WHERE id = p_person AND organisation_id = current_organisation()) THEN
    RAISE EXCEPTION 'person % is not of the current organisation', p_person USING ERRCODE = 'insufficient_privilege';
  END IF;
  INSERT INTO person_secret (person_id, changed_at, pin_hash, pin_changed_at) VALUES (p_person, p_at, p_hash, p_at)
  ON CONFLICT (person_id) DO UPDATE SET pin_hash = excluded.pin_hash, pin_changed_at = excluded.pin_changed_at;
END $$;

/* Whom an issuer's subject stands for. */
CREATE FUNCTION public.find_identity(p_issuer text, p_subject text)
  RETURNS TABLE (person_id uuid, organisation_id uuid, name text, user_id text, active boolean, facilities jsonb)
  LANGUAGE sql STABLE SECURITY DEFINER SET search_path = public, pg_temp AS $$
  SELECT p.id, p.organisation_id, p.name, p.user_id, p.active,
    coalesce((SELECT jsonb_agg(DISTINCT jsonb_build_object('id', f.id, 'name', f.name))
              FROM person_role r JOIN facility f ON f.id = r.facility_id WHERE r.person_id = p.id), '[]'::jsonb)
  FROM person_identity i JOIN person p ON p.id = i.person_id
  WHERE i.issuer = p_issuer AND i.subject = p_subject
$$;

/* Which roles an issuer's claims give, in every facility that says so. Asked before anybody's organisation is known. */
CREATE FUNCTION public.role_mappings() RETURNS TABLE (facility_id uuid, facility_name text, organisation_id uuid, mapping jsonb)
  LANGUAGE sql STABLE SECURITY DEFINER SET search_path = public, pg_temp AS $$
  SELECT f.id, f.name, f.organisation_id, a.document -> 'mapping'
  FROM access_settings a JOIN facility f ON f.id = a.facility_id
  WHERE jsonb_typeof(a.document -> 'mapping') = 'object' ORDER BY f.name, f.id
$$;

/* The token behind a hash while it is good, and the person it acts for with the roles of this moment. */
CREATE FUNCTION public.find_api_token(p_hash text, p_at timestamptz)
  RETURNS TABLE (token_id uuid, token_name text, reads boolean, commands text[], person_id uuid, name text, user_id text,
                 organisation_id uuid, facility jsonb, roles text[])
  LANGUAGE sql STABLE SECURITY DEFINER SET search_path = public, pg_temp AS $$
  SELECT t.id, t.name, t.reads, t.commands, p.id, p.name, p.user_id, f.organisation_id, to_jsonb(f),
    coalesce((SELECT array_agg(r.role ORDER BY r.role) FROM person_role r WHERE r.person_id = p.id AND r.facility_id = t.facility_id), '{}')
  FROM api_token t JOIN person p ON p.id = t.person_id JOIN facility f ON f.id = t.facility_id
  WHERE t.token_hash = p_hash AND t.revoked_at IS NULL AND t.ends_at > p_at AND p.active
$$;

CREATE FUNCTION public.api_token_used(p_token uuid, p_at timestamptz) RETURNS void
  LANGUAGE sql SECURITY DEFINER SET search_path = public, pg_temp AS $$
  UPDATE api_token SET last_used_at = p_at
  WHERE id = p_token AND (last_used_at IS NULL OR last_used_at < p_at - interval '1 minute')
$$;

REVOKE ALL ON FUNCTION public.find_session(uuid), public.sessions_on_device(text), public.pin_of(uuid), public.store_pin(uuid, text, timestamptz),
  public.find_identity(text, text), public.role_mappings(), public.find_api_token(text, timestamptz), public.api_token_used(uuid, timestamptz) FROM PUBLIC;
GRANT EXECUTE ON FUNCTION public.find_session(uuid), public.sessions_on_device(text), public.pin_of(uuid), public.store_pin(uuid, text, timestamptz),
  public.find_identity(text, text), public.role_mappings(), public.find_api_token(text, timestamptz), public.api_token_used(uuid, timestamptz) TO yokeboard_app;
