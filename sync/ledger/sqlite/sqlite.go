//go:build !js

// Package sqlite keeps ledgers in one file of this machine.
//
//	db, err := sqlite.Open(ctx, "chalkfold.db")
//	l := tables.New(db, ledger.Common())
//	...
//	err = db.Close()
//
// The file is written ahead (WAL) and synchronous FULL: what was answered is on the
// disk. One goroutine writes. Whatever waits while a commit goes to the disk is
// committed together by the next, so that many who write at once share the time
// that the disk takes; each statement is still all or nothing by itself. Readers
// see the last commit and wait for nobody.
//
// Several programs may have the file open, so that a backup can be taken while it
// is served.
package sqlite

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"net/url"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync"

	_ "modernc.org/sqlite" // the driver

	"chalkfold/sync/ledger/tables"
)

// application is how a file says that it is a store of ours: "ckfd".
const application = 0x636b6664

// The errors that a caller may want to tell apart, by errors.Is.
var (
	ErrForeign = errors.New("the file is a database of another program")
	ErrNewer   = errors.New("the file was written by a newer version of this program")
	ErrDamaged = errors.New("the file is damaged")
	ErrClosed  = errors.New("the store is closed")
)

// DB is an open file. It implements tables.DB.
type DB struct {
	path    string
	readers *sql.DB
	writer  *sql.DB // of one connection
	jobs    chan *job
	closing chan struct{}
	closed  sync.Once
	done    chan struct{} // the writing goroutine has ended
	stmts   sync.Map      // of the readers, by their text
}

var _ tables.DB = (*DB)(nil)

// Open opens the store in a file, or makes it where there is none. It looks through
// all of it first, and refuses one that is damaged.
func Open(ctx context.Context, path string) (*DB, error) { return openBy(ctx, path, "") }

// openBy opens it by that of SQLite's ways to files (VFS), or by the usual one.
func openBy(ctx context.Context, path, vfs string) (*DB, error) {
	if err := reserve(path); err != nil {
		return nil, err
	}
	writer, err := connect(path, "immediate", vfs)
	if err != nil {
		return nil, err
	}
	writer.SetMaxOpenConns(1)
	made, err := look(ctx, writer)
	if err == nil && !made {
		// Before a file is written ahead it has a journal beside it. Should that come
		// back when the power fails, all since would be undone.
		err = errors.Join(makeTables(ctx, writer), syncFolder(path))
	}
	if err != nil {
		return nil, errors.Join(fmt.Errorf("%s: %w", path, err), writer.Close())
	}
	readers, err := connect(path, "deferred", vfs)
	if err != nil {
		return nil, errors.Join(err, writer.Close())
	}
	readers.SetMaxOpenConns(2 * runtime.GOMAXPROCS(0))
	readers.SetMaxIdleConns(2 * runtime.GOMAXPROCS(0))
	db := &DB{path: path, readers: readers, writer: writer, jobs: make(chan *job, mostTogether), closing: make(chan struct{}), done: make(chan struct{})}
	go db.write()
	return db, nil
}

// reserve makes the file, for its owner alone, where there is none.
func reserve(path string) error {
	f, err := os.OpenFile(path, os.O_RDWR|os.O_CREATE, 0o600)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return fmt.Errorf("%s: there is no folder %s: make it first", path, folder(path))
	case err != nil:
		return err
	}
	return f.Close()
}

// connect opens a file that is written ahead.
func connect(path, lock, vfs string) (*sql.DB, error) {
	options := url.Values{"_txlock": {lock}, "_pragma": {"busy_timeout(10000)", "journal_mode(WAL)", "synchronous(FULL)", "trusted_schema(OFF)", "cell_size_check(ON)"}}
	if vfs != "" {
		options.Set("vfs", vfs)
	}
	return connectTo(path, options.Encode())
}

func connectTo(path, options string) (*sql.DB, error) {
	return sql.Open("sqlite", "file:"+(&url.URL{Path: path}).EscapedPath()+"?"+options)
}

func folder(of string) string { return filepath.Dir(of) }

// look tells whether the tables have been made in a file, or nothing has, and says
// of one that is not fit why.
func look(ctx context.Context, db *sql.DB) (made bool, err error) {
	var app, version, things int
	for query, to := range map[string]*int{
		"PRAGMA application_id":              &app,
		"PRAGMA user_version":                &version,
		"SELECT count(*) FROM sqlite_schema": &things,
	} {
		if err := db.QueryRowContext(ctx, query).Scan(to); err != nil {
			return false, asDamage(err)
		}
	}
	switch {
	case app == 0 && version == 0 && things == 0:
		return false, nil
	case app != application:
		return false, ErrForeign
	case version > tables.Version:
		return false, fmt.Errorf("%w (its form is %d, this program knows %d): run that version, or serve another file", ErrNewer, version, tables.Version)
	}
	return true, check(ctx, db)
}

func makeTables(ctx context.Context, db *sql.DB) (err error) {
	tx, err := db.BeginTx(ctx, nil)
	if err != nil {
		return asDamage(err)
	}
	defer func() { err = errors.Join(err, undone(tx)) }()
	for _, s := range append(tables.Make(), fmt.Sprintf("PRAGMA application_id = %d", application), fmt.Sprintf("PRAGMA user_version = %d", tables.Version)) {
		if _, err := tx.ExecContext(ctx, s); err != nil {
			return err
		}
	}
	return tx.Commit()
}

// undone rolls back what was not committed.
func undone(tx *sql.Tx) error {
	if err := tx.Rollback(); !errors.Is(err, sql.ErrTxDone) {
		return err
	}
	return nil
}

// check looks through the whole file.
func check(ctx context.Context, db *sql.DB) error {
	rows, err := db.QueryContext(ctx, "PRAGMA quick_check(5)")
	if err != nil {
		return asDamage(err)
	}
	defer rows.Close()
	var found []string
	for rows.Next() {
		var line string
		if err := rows.Scan(&line); err != nil {
			return asDamage(err)
		}
		found = append(found, line)
	}
	if err := rows.Err(); err != nil {
		return asDamage(err)
	}
	if len(found) != 1 || found[0] != "ok" {
		return damaged(strings.Join(found, "; "))
	}
	return nil
}

// damaged is the error of a damaged file, and says what can be done.
func damaged(what string) error {
	return fmt.Errorf("%w (%s): keep a copy of it, and put back a backup with `chalkfold restore`. No phone has lost anything: each sends again what the backup lacks", ErrDamaged, what)
}

// There says that there is no file of that name, which Open would make.
func There(path string) error {
	if _, err := os.Stat(path); errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("there is no store %s", path)
	} else if err != nil {
		return err
	}
	return nil
}

// Size returns the bytes of the file and of what was written ahead of it.
func (db *DB) Size() float64 {
	var size int64
	for _, suffix := range []string{"", "-wal"} {
		if info, err := os.Stat(db.path + suffix); err == nil {
			size += info.Size()
		}
	}
	return float64(size)
}

// Close finishes what waits to be written, and closes the file.
func (db *DB) Close() error {
	db.closed.Do(func() { close(db.closing) })
	<-db.done
	return errors.Join(db.readers.Close(), db.writer.Close())
}
