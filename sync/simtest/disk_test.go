package simtest

import (
	"context"
	"sync"
	"testing"

	"chalkfold/sync/store"
	"chalkfold/sync/store/storetest"
)

// locked is a disk for several goroutines, which the suite of stores has.
type locked struct {
	mu sync.Mutex
	*disk
}

func (l *locked) Put(ctx context.Context, records ...store.Record) error {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.disk.Put(ctx, records...)
}

func (l *locked) Delete(ctx context.Context, kind, id string, rev uint32) error {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.disk.Delete(ctx, kind, id, rev)
}

func TestDisk(t *testing.T) {
	disks := map[string]*locked{}
	storetest.Run(t, func(_ *testing.T, name string) store.Store {
		if disks[name] == nil {
			disks[name] = &locked{disk: newDisk()}
		}
		return disks[name]
	})
}
