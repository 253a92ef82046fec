-- Which answers were taken back: asked for every series of readings. Few rows supersede another, so the index stays small.
CREATE INDEX "observation_supersedes_idx" ON "fact"."observation" ("facility_id", "supersedes") WHERE "supersedes" IS NOT NULL;
