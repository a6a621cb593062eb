//go:build !js

package sqlite_test

import (
	"path/filepath"
	"testing"

	"chalkfold/sync/ledger"
	"chalkfold/sync/ledger/ledgertest"
	"chalkfold/sync/ledger/sqlite"
	"chalkfold/sync/ledger/tables"
)

func open(t *testing.T, path string) *sqlite.DB {
	t.Helper()
	db, err := sqlite.Open(t.Context(), path)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := db.Close(); err != nil {
			t.Error(err)
		}
	})
	return db
}

func TestConformance(t *testing.T) {
	db := open(t, filepath.Join(t.TempDir(), "store.db"))
	ledgertest.Run(t, func(_ *testing.T, q ledger.Quota) ledgertest.Kept { return tables.New(db, q) })
}
