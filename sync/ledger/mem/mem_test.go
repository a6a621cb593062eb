package mem_test

import (
	"testing"

	"chalkfold/sync/ledger"
	"chalkfold/sync/ledger/ledgertest"
	"chalkfold/sync/ledger/mem"
)

func TestConformance(t *testing.T) {
	ledgertest.Run(t, func(_ *testing.T, q ledger.Quota) ledgertest.Kept { return mem.New(q) })
}
