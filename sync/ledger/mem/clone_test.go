package mem_test

import (
	"context"
	"errors"
	"testing"

	"chalkfold/sync/ledger"
	"chalkfold/sync/ledger/mem"
	"chalkfold/sync/wire"
)

// TestClone: what is done to a ledger is not done to its clone.
func TestClone(t *testing.T) {
	ctx, w := context.Background(), wire.Workshop{1}
	l := mem.New(ledger.Common())
	_, err := l.Create(ctx, w, ledger.Proof{2})
	one, errAppend := l.Append(ctx, w, wire.Position{}, []wire.Entry{{ID: wire.Name{1}, Slot: wire.Name{1}, Blob: []byte("one")}})
	if err := errors.Join(err, errAppend); err != nil {
		t.Fatal(err)
	}
	was := l.Clone()
	if _, err := l.Append(ctx, w, one, []wire.Entry{{ID: wire.Name{2}, Slot: wire.Name{1}, Blob: []byte("two")}}); err != nil {
		t.Fatal(err)
	}
	if err := l.Close(ctx, w); err != nil {
		t.Fatal(err)
	}
	p, err := was.Pull(ctx, w, wire.Position{}, 100)
	if err != nil || p.To != one || string(p.Entries[0].Blob) != "one" {
		t.Errorf("the clone has %+v, %v", p, err)
	}
}
