package tables

// Version is that of the tables. A database of a later one must not be opened.
const Version = 1

// Made finds the last thing that Make makes: it returns a row once all is made.
const Made = `SELECT 1 FROM sqlite_master WHERE type = 'trigger' AND name = 'workshop_closed'`

// Make returns the statements that make the tables in an empty database. They may be
// run again, should only some of them have been.
func Make() []string {
	return []string{
		`CREATE TABLE IF NOT EXISTS workshop (
	id INTEGER PRIMARY KEY,
	name BLOB NOT NULL UNIQUE,
	proof BLOB NOT NULL,
	closed INTEGER NOT NULL DEFAULT 0,
	head INTEGER NOT NULL DEFAULT 0,
	head_id BLOB NOT NULL DEFAULT (zeroblob(16)),
	entries INTEGER NOT NULL DEFAULT 0,
	bytes INTEGER NOT NULL DEFAULT 0,
	chunks INTEGER NOT NULL DEFAULT 0,
	chunk_bytes INTEGER NOT NULL DEFAULT 0
) STRICT`,
		// The live entries.
		`CREATE TABLE IF NOT EXISTS entry (
	workshop INTEGER NOT NULL,
	seq INTEGER NOT NULL,
	id BLOB NOT NULL,
	slot BLOB NOT NULL,
	blob BLOB NOT NULL
) STRICT`,
		`CREATE UNIQUE INDEX IF NOT EXISTS entry_seq ON entry (workshop, seq)`,
		`CREATE UNIQUE INDEX IF NOT EXISTS entry_slot ON entry (workshop, slot)`,
		`CREATE INDEX IF NOT EXISTS entry_id ON entry (workshop, id)`,
		// What is left of those that were superseded.
		`CREATE TABLE IF NOT EXISTS stub (
	workshop INTEGER NOT NULL,
	seq INTEGER NOT NULL,
	id BLOB NOT NULL,
	PRIMARY KEY (workshop, seq)
) STRICT, WITHOUT ROWID`,
		`CREATE INDEX IF NOT EXISTS stub_id ON stub (workshop, id)`,
		`CREATE TABLE IF NOT EXISTS chunk (
	workshop INTEGER NOT NULL,
	name BLOB NOT NULL,
	blob BLOB NOT NULL
) STRICT`,
		`CREATE UNIQUE INDEX IF NOT EXISTS chunk_name ON chunk (workshop, name)`,
		`CREATE TABLE IF NOT EXISTS box (
	name BLOB PRIMARY KEY,
	blob BLOB NOT NULL,
	until INTEGER NOT NULL
) STRICT, WITHOUT ROWID`,
		`CREATE INDEX IF NOT EXISTS box_until ON box (until)`,
		`CREATE TRIGGER IF NOT EXISTS entry_comes BEFORE INSERT ON entry BEGIN
	INSERT INTO stub (workshop, seq, id) SELECT workshop, seq, id FROM entry WHERE workshop = NEW.workshop AND slot = NEW.slot;
	DELETE FROM entry WHERE workshop = NEW.workshop AND slot = NEW.slot;
END`,
		`CREATE TRIGGER IF NOT EXISTS entry_came AFTER INSERT ON entry BEGIN
	UPDATE workshop SET head = NEW.seq, head_id = NEW.id, entries = entries + 1, bytes = bytes + length(NEW.blob) WHERE id = NEW.workshop;
	DELETE FROM stub WHERE workshop = NEW.workshop AND seq <= NEW.seq - 65536;
END`,
		`CREATE TRIGGER IF NOT EXISTS entry_went AFTER DELETE ON entry BEGIN
	UPDATE workshop SET entries = entries - 1, bytes = bytes - length(OLD.blob) WHERE id = OLD.workshop;
END`,
		`CREATE TRIGGER IF NOT EXISTS chunk_came AFTER INSERT ON chunk BEGIN
	UPDATE workshop SET chunks = chunks + 1, chunk_bytes = chunk_bytes + length(NEW.blob) WHERE id = NEW.workshop;
END`,
		`CREATE TRIGGER IF NOT EXISTS chunk_went AFTER DELETE ON chunk BEGIN
	UPDATE workshop SET chunks = chunks - 1, chunk_bytes = chunk_bytes - length(OLD.blob) WHERE id = OLD.workshop;
END`,
		`CREATE TRIGGER IF NOT EXISTS workshop_closed AFTER UPDATE OF closed ON workshop WHEN NEW.closed AND NOT OLD.closed BEGIN
	DELETE FROM entry WHERE workshop = NEW.id;
	DELETE FROM stub WHERE workshop = NEW.id;
	DELETE FROM chunk WHERE workshop = NEW.id;
END`,
	}
}

// The statements. What is said in ledger.Ledger is not said again.
const (
	workshopColumns = `w.id, w.proof, w.closed, w.head, w.head_id, w.entries, w.bytes, w.chunks, w.chunk_bytes`

	readWorkshop   = `SELECT ` + workshopColumns + ` FROM workshop w WHERE w.name = ?1`
	createWorkshop = `INSERT INTO workshop (name, proof) VALUES (?1, ?2) ON CONFLICT (name) DO NOTHING`
	closeWorkshop  = `UPDATE workshop SET closed = 1 WHERE name = ?1 RETURNING id`

	// appendEntries adds the entries of a packed push if all of it may go in: ?1 the
	// workshop, ?2 and ?3 the base, ?4 the entries packed one after another, ?5
	// where each stands there, ?6 the bytes of their blobs, ?7 the quota.
	appendEntries = `WITH
	place AS MATERIALIZED (SELECT key AS n, value ->> 0 AS at, value ->> 1 AS size FROM json_each(?5)),
	w AS MATERIALIZED (
		SELECT w.id, w.head FROM workshop w
		WHERE w.name = ?1 AND w.closed = 0 AND w.head = ?2 AND w.head_id = ?3
		AND ?7 >= ?6 + w.bytes - (
			SELECT coalesce(sum(length(e.blob)), 0) FROM place
			CROSS JOIN entry e ON e.workshop = w.id AND e.slot = substr(?4, at + 16, 16))
		AND EXISTS (SELECT 1 FROM place WHERE
			NOT EXISTS (SELECT 1 FROM entry e WHERE e.workshop = w.id AND e.id = substr(?4, at, 16))
			AND NOT EXISTS (SELECT 1 FROM stub s WHERE s.workshop = w.id AND s.id = substr(?4, at, 16)))
	)
INSERT INTO entry (workshop, seq, id, slot, blob)
SELECT w.id, w.head + 1 + n, substr(?4, at, 16), substr(?4, at + 16, 16), substr(?4, at + 32, size)
FROM w CROSS JOIN place ORDER BY n
RETURNING seq`

	// findEntries returns those of the entries that are there: ?1 the workshop's row,
	// ?2 and ?3 the entries as above.
	findEntries = `WITH place AS MATERIALIZED (SELECT substr(?2, value ->> 0, 16) AS id FROM json_each(?3))
SELECT e.seq, e.id FROM place CROSS JOIN entry e ON e.workshop = ?1 AND e.id = place.id
UNION ALL
SELECT s.seq, s.id FROM place CROSS JOIN stub s ON s.workshop = ?1 AND s.id = place.id
ORDER BY 1`

	// readAfter returns a workshop, and whether ?2, ?3 is a position of its ledger.
	readAfter = `SELECT ` + workshopColumns + `,
	EXISTS (SELECT 1 FROM entry e WHERE e.workshop = w.id AND e.seq = ?2 AND e.id = ?3)
	OR EXISTS (SELECT 1 FROM stub s WHERE s.workshop = w.id AND s.seq = ?2 AND s.id = ?3)
FROM workshop w WHERE w.name = ?1`

	// readSizes and readEntries tell of the entries of the workshop's row ?1 beyond
	// ?2 up to ?3.
	readSizes   = `SELECT seq, length(blob) FROM entry WHERE workshop = ?1 AND seq > ?2 AND seq <= ?3 ORDER BY seq LIMIT ?4`
	readEntries = `SELECT seq, id, slot, blob FROM entry WHERE workshop = ?1 AND seq > ?2 AND seq <= ?3 ORDER BY seq`

	// putChunk: ?1 the workshop, ?2 the name, ?3 the blob, ?4 the quota.
	putChunk = `INSERT INTO chunk (workshop, name, blob)
SELECT w.id, ?2, ?3 FROM workshop w
WHERE w.name = ?1 AND w.closed = 0 AND w.chunk_bytes + length(?3) <= ?4
AND NOT EXISTS (SELECT 1 FROM chunk c WHERE c.workshop = w.id AND c.name = ?2)
RETURNING 1`

	readChunk = `SELECT blob FROM chunk WHERE workshop = ?1 AND name = ?2`

	// missingChunks and dropChunks: ?1 the workshop's row, ?2 names one after
	// another, ?3 where each stands there.
	missingChunks = `SELECT key FROM json_each(?3) place
WHERE NOT EXISTS (SELECT 1 FROM chunk c WHERE c.workshop = ?1 AND c.name = substr(?2, place.value, 16)) ORDER BY key`
	dropChunks = `DELETE FROM chunk WHERE workshop = ?1 AND name IN (SELECT substr(?2, value, 16) FROM json_each(?3))`

	leaveParcel = `INSERT INTO box (name, blob, until) VALUES (?1, ?2, ?3)
ON CONFLICT (name) DO UPDATE SET blob = excluded.blob, until = excluded.until`
	// takeParcel throws away as well what was left too long.
	takeParcel = `DELETE FROM box WHERE name = ?1 OR until <= ?2 RETURNING name, blob, until`
)
