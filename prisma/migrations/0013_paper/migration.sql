-- The answers of one check, without reading its workstation's whole history.
CREATE INDEX observation_by_check ON fact.observation (facility_id, check_id);
-- What was entered from paper is rare, and asked for as such.
CREATE INDEX observation_from_paper ON fact.observation (facility_id, recorded_at) WHERE known ->> 'source' = 'paper';
