//go:build !js

package ui

import (
	"strings"
	"testing"

	"chalkfold/draft/body"
	"chalkfold/sync/store/mem"
)

const bodies = "client,ticket,taken,hip_girth (in),waist_girth (in)\r\nAlto 1,Choir,2031-05-10,38,30\r\nAlto 2,Choir,2031-05-10,40,32\r\nalto  1,Choir,2031-05-10,38,30\r\nAlto 4,Choir,2031-05-10,41,wide\r\n"

// TestTable: a table of bodies is looked at first, then each row is a job of its
// own client, made like the open job; and what is saved is here already when it is
// taken in again.
func TestTable(t *testing.T) {
	b := open(t, &mem.Store{}, nil)
	b.openSample()
	b.settle()
	b.job.Choose("leg", "wide")
	b.changed("")
	b.settle()
	b.listJobs()
	b.settle()
	b.lookAtTable(bodies)
	if got, want := strings.Join(b.keeping.table.found, "; "), "4 rows; 3 would be new jobs; 1 is here already; Row 5, waist_girth (in): “wide” is no length; What cannot be read is left empty: mend it in the table, or on the tape later."; got != want {
		t.Errorf("found %q, want %q", got, want)
	}
	if len(b.records) != 1 {
		t.Fatal("taken in unasked")
	}
	b.takeTable(true)
	b.settle()
	if len(b.records) != 4 || len(b.clients) != 3 || b.keeping.table.told != "3 jobs were taken in." {
		t.Fatalf("%d jobs, %d clients, %q, %s", len(b.records), len(b.clients), b.keeping.table.told, b.fault)
	}
	for _, r := range b.records {
		if r.Ticket != "Choir" {
			continue
		}
		j := r.whole()
		if j.File.Style["leg"] != "wide" || !j.File.Measurements[body.HipGirth].Value.Set() || j.Taken[body.HipGirth] != "2031-05-10" || b.clientName(j.Client) == "" || j.File.Measurements[body.BodyRise].Value.Set() {
			t.Errorf("%+v", j.File)
		}
	}

	h := &shared{}
	b.hand = func(name, kind string, file []byte, send bool, done func(bool)) {
		*h = shared{name, kind, file, send, h.times + 1}
		done(true)
	}
	b.saveTable(false)
	if h.kind != "text/csv" || !strings.Contains(string(h.file), "Alto 2") {
		t.Fatalf("%s\n%s", h.kind, h.file)
	}
	b.lookAtTable(string(h.file))
	if got := strings.Join(b.keeping.table.found, "; "); got != "4 rows; 0 would be new jobs; 4 are here already" {
		t.Errorf("the own table: %q", got)
	}
	b.lookAtTable("size,price\n1,2\n")
	if !strings.Contains(b.keeping.table.told, "No column") {
		t.Errorf("another table: %q", b.keeping.table.told)
	}
}
