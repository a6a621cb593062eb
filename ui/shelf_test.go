package ui

import (
	"context"
	"reflect"
	"strconv"
	"testing"

	"chalkfold/sync/store"
	"chalkfold/sync/store/mem"
)

// The head of a record tells what the whole job does, deleted or not, and also
// where the record was marked by a restore that knows nothing of jobs.
func TestHeads(t *testing.T) {
	j := NewJob("trousers")
	j.SetName("Alto 3")
	j.Client, j.Due, j.State = "a client", "2031-05-24", MayBeCut
	j.Reach(Cut, "2031-05-18")
	for _, deleted := range []int64{0, 1_936_872_000_000} {
		j.Deleted = deleted
		data, err := j.Encode()
		if err != nil {
			t.Fatal(err)
		}
		byRestore, ok := marked(data, 1_936_872_000_001)
		if !ok {
			t.Fatal("it cannot be marked")
		}
		s, m := shelf(store.Record{Data: data}), shelf(store.Record{Data: byRestore})
		if s.read || !reflect.DeepEqual(s.head, j.head()) || deletedAt(data) != deleted {
			t.Errorf("its head is %+v, want %+v", s.head, j.head())
		}
		if m.Deleted != 1_936_872_000_001 || m.Ticket != j.File.Name || m.Client != j.Client {
			t.Errorf("marked as deleted its head is %+v", m.head)
		}
	}
	for _, data := range []string{"", "{}", `{"version":3}`, `{"version":3,"deleted":"x","head":{}}`, `{"version":3,"head":[]}`, `{"version":99,"head":{}}`} {
		if s := shelf(store.Record{Data: []byte(data)}); s.err == nil {
			t.Errorf("%q was read as a job", data)
		}
	}
}

// Many jobs with a long past: what the book waits for when the page is opened,
// and what it would wait for if it read each job whole.
func BenchmarkShelve(b *testing.B) {
	s := &mem.Store{}
	for i := range 500 {
		j, err := Sample()
		if err != nil {
			b.Fatal(err)
		}
		if err := j.open(); err != nil {
			b.Fatal(err)
		}
		for n := range 40 {
			j.Measure("hip_girth", strconv.Itoa(40+n%9), "2031-05-17")
			if err := j.Note(""); err != nil {
				b.Fatal(err)
			}
		}
		data, err := j.Encode()
		if err != nil {
			b.Fatal(err)
		}
		if err := s.Put(context.Background(), store.Record{Kind: recordKind, ID: strconv.Itoa(i), Rev: 1, Data: data, Updated: clock()}); err != nil {
			b.Fatal(err)
		}
	}
	for _, whole := range []bool{false, true} {
		b.Run("whole="+strconv.FormatBool(whole), func(b *testing.B) {
			for b.Loop() {
				all, err := shelve(context.Background(), s, recordKind, nil)
				if err != nil {
					b.Fatal(err)
				}
				for _, r := range all {
					if whole && r.whole() == nil {
						b.Fatal(r.err)
					}
				}
			}
		})
	}
}
