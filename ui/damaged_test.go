//go:build !js

package ui

import (
	"bytes"
	"errors"
	"strings"
	"testing"
	"time"

	"chalkfold/sync/store"
)

// FuzzBackup: whatever the bytes of a record are, they come back.
func FuzzBackup(f *testing.F) {
	for _, r := range others() {
		f.Add(r.Kind, r.Data)
	}
	f.Add("client", []byte(`{"a":"<\u2028"}`))
	f.Fuzz(func(t *testing.T, kind string, data []byte) {
		was := store.Record{Kind: kind, ID: "a", Rev: 1, Data: data, Updated: time.UnixMilli(1).UTC()}
		if was.Check() != nil || !carried(kind) || deletedAt(data) > 0 {
			t.Skip()
		}
		file, err := writeBackup([]store.Record{was})
		if err != nil {
			t.Fatal(err)
		}
		r, err := readBackup(file)
		if err != nil || len(r.records) != 1 || r.records[0].Kind != kind || !bytes.Equal(r.records[0].Data, data) {
			t.Errorf("%q came back as %+v, %v", data, r, err)
		}
	})
}

func TestDamagedBackups(t *testing.T) {
	file := string(backupOf(t, shelfOf(t, "a, Alto 3, 1", "b, Bass 1, 2")))
	for n := range len(file) { // cut off anywhere
		if _, err := readBackup([]byte(file[:n])); !errors.Is(err, errNoBackup) {
			t.Fatalf("%d of %d bytes: %v, want it refused", n, len(file), err)
		}
	}
	start := strings.Index(file, `"records":[`) + len(`"records":[`)
	for n := start; n < len(file)-2; n++ { // one bit
		bad := []byte(file)
		bad[n] ^= 1
		if _, err := readBackup(bad); err == nil {
			t.Fatalf("a flipped bit at byte %d was not seen", n)
		}
	}
	sealed := func(records string) string {
		return `{"chalkfold_backup":2,"sum":"` + sumOf([]byte(records)) + `","records":` + records + `}`
	}
	first := func(jobs string) string {
		return `{"chalkfold_backup":1,"sum":"` + sumOf([]byte(jobs)) + `","jobs":` + jobs + `}`
	}
	for _, tt := range []struct {
		what, file string
		want       error
	}{
		{"nothing", "", errNoBackup},
		{"another file", `{"chalkfold": 1}`, errNoBackup},
		{"a list", `[]`, errNoBackup},
		{"newer", strings.Replace(file, `"chalkfold_backup":2`, `"chalkfold_backup":4`, 1), errTooNew},
		{"a newer job", first(`[{"id":"a","changed":1,"job":{"version":99}}]`), errTooNew},
		{"no job", first(`[{"id":"a","changed":1,"job":{}}]`), errDamaged},
		{"no list", sealed(`7`), errDamaged},
		{"no list at all", `{"chalkfold_backup":2,"sum":"` + sumOf(nil) + `"}`, errDamaged},
		{"no kind", sealed(`[{"id":"a","changed":1,"data":{}}]`), errDamaged},
		{"of this device", sealed(`[{"kind":"device","id":"a","changed":1,"data":{}}]`), errDamaged},
		{"twice", sealed(`[{"kind":"a","id":"a","changed":1,"data":{}},{"kind":"a","id":"a","changed":1,"data":{}}]`), errDamaged},
		{"no id", strings.Replace(file, `"id":"a"`, `"id":""`, 1), errDamaged},
	} {
		if _, err := readBackup([]byte(tt.file)); !errors.Is(err, tt.want) {
			t.Errorf("%s: %v, want %v", tt.what, err, tt.want)
		}
	}
	if r, err := readBackup([]byte(strings.ReplaceAll(strings.ReplaceAll(file, `,"`, `, "`), "{", "{\n"))); err != nil || len(r.records) != 2 {
		t.Errorf("laid out anew by an editor: %+v, %v", r, err)
	}
}
