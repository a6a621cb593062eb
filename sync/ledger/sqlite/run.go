//go:build !js

package sqlite

import (
	"context"
	"database/sql"
	"errors"
	"strings"

	driver "modernc.org/sqlite"

	"chalkfold/sync/ledger/tables"
)

// mostTogether is how many statements are committed together at the most.
const mostTogether = 256

// A job is one statement that waits to be written.
type job struct {
	ctx        context.Context
	statement  string
	parameters []any
	rows       [][]any
	done       chan error
}

// Read implements tables.DB.
func (db *DB) Read(ctx context.Context, statement string, parameters ...any) ([][]any, error) {
	s, err := db.prepared(ctx, statement)
	if err != nil {
		return nil, err
	}
	rows, err := s.QueryContext(ctx, parameters...)
	if err != nil {
		return nil, orCancelled(ctx, err)
	}
	all, err := tables.Collect(rows)
	return all, orCancelled(ctx, err)
}

// prepared returns a statement of the readers. There are few texts, and each is
// prepared for as long as the file is open.
func (db *DB) prepared(ctx context.Context, statement string) (*sql.Stmt, error) {
	if s, ok := db.stmts.Load(statement); ok {
		return s.(*sql.Stmt), nil
	}
	s, err := db.readers.PrepareContext(ctx, statement)
	if err != nil {
		return nil, orCancelled(ctx, err)
	}
	if first, there := db.stmts.LoadOrStore(statement, s); there {
		_ = s.Close() // somebody was quicker
		return first.(*sql.Stmt), nil
	}
	return s, nil
}

// Write implements tables.DB. If the context ends first, the statement may be
// written all the same.
func (db *DB) Write(ctx context.Context, statement string, parameters ...any) ([][]any, error) {
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	j := &job{ctx: ctx, statement: statement, parameters: parameters, done: make(chan error, 1)}
	select {
	case db.jobs <- j:
	case <-ctx.Done():
		return nil, ctx.Err()
	case <-db.closing:
		return nil, ErrClosed
	}
	select {
	case err := <-j.done:
		return j.rows, err
	case <-ctx.Done():
		return nil, ctx.Err()
	case <-db.done:
	}
	select {
	case err := <-j.done:
		return j.rows, err
	default:
		return nil, ErrClosed // it came too late
	}
}

// write commits jobs until the store is closed.
func (db *DB) write() {
	defer close(db.done)
	w := writing{db: db.writer, stmts: map[string]*sql.Stmt{}}
	for {
		var jobs []*job
		select {
		case j := <-db.jobs:
			jobs = append(jobs, j)
		case <-db.closing:
			if len(db.jobs) == 0 {
				return
			}
			continue
		}
		for len(jobs) < mostTogether && len(db.jobs) > 0 {
			jobs = append(jobs, <-db.jobs)
		}
		if err := w.commit(jobs); err != nil {
			for _, j := range jobs {
				j.rows = nil
				j.done <- err
			}
		}
	}
}

// writing is what the writing goroutine alone has.
type writing struct {
	db    *sql.DB
	stmts map[string]*sql.Stmt
}

// commit runs jobs in one transaction and tells each how it went, or returns an
// error, and then none of them was done.
func (w writing) commit(jobs []*job) (err error) {
	ctx := context.Background() // who waits for one of them must not end the others
	if err := w.prepare(ctx, jobs); err != nil {
		return err
	}
	tx, err := w.db.BeginTx(ctx, nil)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, undone(tx)) }()
	errs := make([]error, len(jobs))
	for i, j := range jobs {
		if errs[i] = j.ctx.Err(); errs[i] != nil {
			continue
		}
		rows, err := tx.StmtContext(ctx, w.stmts[j.statement]).QueryContext(ctx, j.parameters...)
		if err == nil {
			j.rows, err = tables.Collect(rows)
		}
		if err != nil && !onlyItself(err) {
			return asDamage(err)
		}
		errs[i] = err
	}
	if err := tx.Commit(); err != nil {
		return asDamage(err)
	}
	for i, j := range jobs {
		j.done <- errs[i]
	}
	return nil
}

// prepare makes ready the statements of jobs. There are few texts.
func (w writing) prepare(ctx context.Context, jobs []*job) error {
	for _, j := range jobs {
		if w.stmts[j.statement] != nil {
			continue
		}
		s, err := w.db.PrepareContext(ctx, j.statement)
		if err != nil {
			return asDamage(err)
		}
		w.stmts[j.statement] = s
	}
	return nil
}

// The primary result codes of SQLite that are looked at, https://sqlite.org/rescode.html.
const (
	sqliteCorrupt    = 11
	sqliteConstraint = 19
	sqliteNotADB     = 26
	primary          = 0xff
)

// onlyItself says of an error that it undid its own statement and no other.
func onlyItself(err error) bool {
	var e *driver.Error
	return errors.As(err, &e) && e.Code()&primary == sqliteConstraint
}

// asDamage tells the errors of a damaged file as such.
func asDamage(err error) error {
	var e *driver.Error
	if errors.As(err, &e) && (e.Code()&primary == sqliteCorrupt || e.Code()&primary == sqliteNotADB) {
		return damaged(strings.TrimSpace(e.Error()))
	}
	return err
}

// orCancelled returns the error of a context that has ended, if there was any: the
// driver has words of its own for it.
func orCancelled(ctx context.Context, err error) error {
	if err != nil && ctx.Err() != nil {
		return ctx.Err()
	}
	return err
}
