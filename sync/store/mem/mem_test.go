package mem_test

import (
	"testing"

	"chalkfold/sync/store"
	"chalkfold/sync/store/mem"
	"chalkfold/sync/store/storetest"
)

func TestMem(t *testing.T) {
	stores := map[string]*mem.Store{}
	open := func(t *testing.T, name string) store.Store {
		t.Helper()
		if stores[name] == nil {
			stores[name] = &mem.Store{}
		}
		return stores[name]
	}
	storetest.Run(t, open)
	storetest.RunBlobs(t, open)
}
