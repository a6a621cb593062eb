//go:build !js

package ui

import (
	"context"
	"reflect"
	"testing"

	"chalkfold/sync/store"
	"chalkfold/sync/store/mem"
)

func TestSettings(t *testing.T) {
	s := &mem.Store{}
	one, two := open(t, s, nil), open(t, s, nil)
	if !reflect.DeepEqual(one.settings, Settings{}) {
		t.Errorf("nothing was chosen yet: %+v", one.settings)
	}
	one.set(func(s *Settings) { s.Language = "fr" })
	one.set(func(s *Settings) { s.Singly = true })
	one.settle()
	if next := open(t, s, nil); !reflect.DeepEqual(next.settings, Settings{Language: "fr", Singly: true}) {
		t.Errorf("the next window begins with %+v", next.settings)
	}
	two.set(func(s *Settings) { s.Language = "en" }) // the other window was first
	two.settle()
	if next := open(t, s, nil); next.settings.Language != "en" || two.fault != "" {
		t.Errorf("what was chosen last is %+v, fault %q", next.settings, two.fault)
	}
	none := open(t, nil, store.ErrBusy)
	none.set(func(s *Settings) { s.Singly = true })
	if !none.settings.Singly {
		t.Error("without a store nothing can be chosen")
	}
	full := open(t, &full{}, nil)
	full.set(func(s *Settings) { s.Singly = true })
	full.settle()
	full.shows("There is no room left on this device")

	for _, data := range []string{"", "damaged", `{"version": 9, "language": "fr"}`} {
		s := &mem.Store{}
		if err := s.Put(context.Background(), store.Record{Kind: deviceKind, ID: deviceID, Rev: 1, Data: []byte(data), Updated: clock()}); err != nil {
			t.Fatal(err)
		}
		b := open(t, s, nil)
		if !reflect.DeepEqual(b.settings, Settings{}) {
			t.Errorf("%q was read as %+v", data, b.settings)
		}
	}
}
