package ledgertest

import (
	"context"
	"errors"
	"maps"
	"math/rand/v2"
	"reflect"
	"strconv"
	"testing"

	"chalkfold/sync/ledger"
	"chalkfold/sync/wire"
)

// histories: after random pushes, whoever reads from any point at which she was up
// to date, in pages of any size, has what the latest entries hold.
func histories(t *testing.T, open Opener) {
	for seed := range uint64(6) {
		t.Run(strconv.FormatUint(seed, 10), func(t *testing.T) { history(t, open, rand.New(rand.NewPCG(seed, 1))) })
	}
}

// reading is a position with what is known there: the blob of each slot.
type reading struct {
	at    wire.Position
	knows map[wire.Name]string
}

func history(t *testing.T, open Opener, random *rand.Rand) {
	l, w := created(t, open)
	now := reading{knows: map[wire.Name]string{}}
	past := []reading{now}
	for i := range 30 {
		var push []wire.Entry
		for _, slot := range random.Perm(8)[:1+random.IntN(4)] {
			id := strconv.Itoa(i) + "/" + strconv.Itoa(slot)
			push = append(push, entry(t, id, strconv.Itoa(slot), "blob of "+id))
		}
		if random.IntN(4) == 0 {
			base := past[random.IntN(len(past))].at
			if _, err := l.Append(context.Background(), w, base, push); base != now.at && !errors.Is(err, ledger.ErrBehind) {
				t.Fatalf("append after %d, where the head is %d: %v", base.Seq, now.at.Seq, err)
			} else if base != now.at {
				continue
			}
		}
		now = reading{add(t, l, w, now.at, push...), maps.Clone(now.knows)}
		for _, e := range push {
			now.knows[e.Slot] = string(e.Blob)
		}
		past = append(past, now)
	}
	for _, then := range past {
		got := reading{then.at, maps.Clone(then.knows)}
		for more := true; more; {
			p := pull(t, l, w, got.at, random.IntN(400))
			for _, e := range p.Entries {
				got.knows[e.Slot] = string(e.Blob)
			}
			got.at, more = p.To, p.More
		}
		if !reflect.DeepEqual(got, now) {
			t.Errorf("read from %d on: %d slots up to %d; want %d up to %d", then.at.Seq, len(got.knows), got.at.Seq, len(now.knows), now.at.Seq)
		}
	}
}
