import { type Kysely, type Migration, sql } from "kysely";

/**
 * The first schema. Plain SQL that every PostgreSQL, managed and distributed ones too, should have: no extensions, sequences,
 * triggers, foreign keys or schemas. `latch` has one row, which whoever writes locks first.
 */
export const book: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    for (const statement of STATEMENTS) await sql.raw(statement).execute(db);
  },
};

const STATEMENTS: readonly string[] = [
  `create table latch (name text primary key, written_at timestamptz)`,
  `insert into latch (name) values ('write')`,
  `create table visits (
    visit_id text primary key,
    revision text not null,
    revisions integer not null,
    forked boolean not null,
    title text not null,
    appliance text not null,
    appliance_key text,
    place text not null,
    technician text not null,
    instrument text not null,
    calibrated_on date,
    started_at timestamptz not null,
    started_on date not null,
    ended_at timestamptz not null,
    zone text,
    fuel text not null,
    sheet text,
    entries integer not null,
    finished boolean not null,
    reviewed_by text,
    outcome text not null,
    open integer not null,
    warnings jsonb not null,
    found_high_co2 double precision, found_high_co2_verdict text,
    found_high_co double precision, found_high_co_verdict text,
    found_low_co2 double precision, found_low_co2_verdict text,
    found_low_co double precision, found_low_co_verdict text,
    left_high_co2 double precision, left_high_co2_verdict text,
    left_high_co double precision, left_high_co_verdict text,
    left_low_co2 double precision, left_low_co2_verdict text,
    left_low_co double precision, left_low_co_verdict text,
    turns_high double precision not null,
    turns_low double precision not null
  )`,
  `create index visits_by_day on visits (started_on, visit_id)`,
  `create index visits_by_appliance on visits (appliance_key, started_at)`,
  `create table revisions (
    visit_id text not null,
    digest text not null,
    entries integer not null,
    ended_at timestamptz not null,
    loaded_at timestamptz not null,
    bundle text not null,
    primary key (visit_id, digest)
  )`,
  `create table entries (
    visit_id text not null,
    seq integer not null,
    entry_id text not null,
    at timestamptz not null,
    kind text not null,
    engine text not null,
    said text not null,
    confidence double precision not null,
    body jsonb not null,
    primary key (visit_id, seq)
  )`,
  `create table readings (
    visit_id text not null,
    seq integer not null,
    entry_id text not null,
    at timestamptz not null,
    quantity text not null,
    firing text,
    condition text,
    value double precision not null,
    unit text not null,
    canonical_value double precision not null,
    canonical_unit text not null,
    standing boolean not null,
    mended boolean not null,
    phase text,
    verdict text,
    limit_min double precision,
    limit_max double precision,
    said text not null,
    confidence double precision not null,
    primary key (visit_id, seq)
  )`,
  `create table adjustments (
    visit_id text not null,
    seq integer not null,
    at timestamptz not null,
    adjuster text not null,
    turns double precision not null,
    firing text,
    primary key (visit_id, seq)
  )`,
  `create table follow_ups (
    visit_id text not null,
    seq integer not null,
    place integer not null,
    note_id text not null,
    at timestamptz not null,
    note text not null,
    action text not null,
    thing text,
    due date,
    due_said text,
    who text,
    done boolean not null,
    told_by text not null,
    primary key (visit_id, seq, place)
  )`,
  `create index follow_ups_open on follow_ups (done, due, visit_id, seq, place)`,
  `create table files (
    sha256 text primary key,
    visit_id text not null,
    digest text not null,
    name text not null,
    bytes integer not null,
    loaded_at timestamptz not null
  )`,
];
