-- The tables of a ledger. A column that is added later is named beside their use as well, for ledgers that lack it.
CREATE TABLE IF NOT EXISTS results (
    id INTEGER PRIMARY KEY, drawing BLOB NOT NULL, state TEXT NOT NULL, revision INTEGER NOT NULL,
    drawing_sha256 TEXT NOT NULL, settings_sha256 TEXT NOT NULL, tool_version TEXT NOT NULL,
    program_file BLOB, program_sha256 TEXT, reason TEXT NOT NULL, attempts INTEGER NOT NULL,
    started TEXT NOT NULL, finished TEXT NOT NULL, grooves TEXT NOT NULL, changes TEXT NOT NULL,
    cautions INTEGER NOT NULL DEFAULT 0, questions INTEGER NOT NULL DEFAULT 0);
CREATE INDEX IF NOT EXISTS results_of ON results (drawing, id);
CREATE TABLE IF NOT EXISTS written (drawing BLOB NOT NULL, sha256 TEXT NOT NULL, PRIMARY KEY (drawing, sha256));
CREATE TABLE IF NOT EXISTS names (stem BLOB PRIMARY KEY, drawing BLOB NOT NULL UNIQUE);
CREATE TABLE IF NOT EXISTS checks (
    program BLOB PRIMARY KEY, key TEXT NOT NULL, agree INTEGER, reason TEXT NOT NULL, finished TEXT NOT NULL);
CREATE TABLE IF NOT EXISTS underneath (
    drawing BLOB PRIMARY KEY, sha256 TEXT NOT NULL, state TEXT NOT NULL, agree INTEGER, words TEXT NOT NULL);
CREATE TABLE IF NOT EXISTS numbers (drawing BLOB PRIMARY KEY, shop TEXT NOT NULL, number INTEGER NOT NULL);
CREATE INDEX IF NOT EXISTS numbers_of ON numbers (shop, number);
CREATE TABLE IF NOT EXISTS folders (folder BLOB PRIMARY KEY, identity TEXT NOT NULL);
