-- Roles of a catalogue on a PostgreSQL server: who may read, add, edit. Run it once, as the owner of the database, after
-- the first 'tintfall catalogue add' has made the tables:
--
--   psql -d club -f catalogue_roles.sql
--
-- and give the roles to people, who log in under names of their own:
--
--   CREATE ROLE vell LOGIN;           -- the password: \password vell, or another way of the server's
--   GRANT tintfall_contributor TO vell;
--
-- It may be run again: nothing is lost by it.

DO $$
DECLARE
  role_name text;
BEGIN
  FOREACH role_name IN ARRAY ARRAY['tintfall_reader', 'tintfall_contributor', 'tintfall_curator'] LOOP
    IF NOT EXISTS (SELECT FROM pg_roles WHERE rolname = role_name) THEN
      EXECUTE format('CREATE ROLE %I NOLOGIN', role_name);
    END IF;
  END LOOP;
END
$$;

-- Each role holds the one before it.
GRANT tintfall_reader TO tintfall_contributor;
GRANT tintfall_contributor TO tintfall_curator;

-- Everybody else: nothing.
REVOKE ALL ON SCHEMA tintfall FROM PUBLIC;
REVOKE ALL ON ALL TABLES IN SCHEMA tintfall FROM PUBLIC;

-- A reader lists, shows, finds, exports, backs up.
GRANT USAGE ON SCHEMA tintfall TO tintfall_reader;
GRANT SELECT ON ALL TABLES IN SCHEMA tintfall TO tintfall_reader;

-- A contributor adds and imports, but changes nothing that is there.
GRANT INSERT ON tintfall.collections, tintfall.records, tintfall.readings TO tintfall_contributor;
GRANT USAGE ON SEQUENCE tintfall.ids TO tintfall_contributor;

-- A curator edits, removes and restores. Nobody deletes rows: what is removed can be brought back.
GRANT UPDATE ON tintfall.collections, tintfall.records TO tintfall_curator;
GRANT INSERT ON tintfall.changes TO tintfall_curator;
