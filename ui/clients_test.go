package ui

import (
	"fmt"
	"os"
	"slices"
	"testing"

	"chalkfold/draft/body"
	"chalkfold/draft/job"
	"chalkfold/draft/rules"
	"chalkfold/draft/unit"
	"chalkfold/sync/store"
	"chalkfold/ui/day"
)

// clientOfAll has something of everything that a client's record holds.
func clientOfAll() *Client {
	return &Client{
		Name: "Choir, altos", Note: "stands with the left hip out", Figure: body.Women,
		Rules: rules.Values{"seat_tilt": "1½ in"}, Deleted: 1_936_872_000_000,
		Corrections: map[string][]Correction{
			"skirt":    {{Kind: "front_longer", By: inches("1 in")}},
			"trousers": {{Kind: "back_longer", By: inches("½ in"), Over: "1 in"}, {Kind: "hip_out", By: inches("1.5 cm"), Over: "1 1/2 in"}, {Kind: "side_shorter", By: inches("⅜ in"), Side: job.LeftSide}},
		},
	}
}

// inches is a length that names its unit.
func inches(text string) unit.Quantity {
	q, err := unit.Parse(text, unit.Inches)
	if err != nil {
		panic(err)
	}
	return q
}

func TestClientRecord(t *testing.T) {
	data, err := clientOfAll().Encode()
	if err != nil {
		t.Fatal(err)
	}
	for version, file := range []string{"testdata/client-1.json", "testdata/client-2.json", "testdata/client-3.json"} {
		old, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if version+1 == clientVersion && string(old) != string(data) {
			t.Errorf("version %d was written as\n%s, now\n%s", version+1, old, data)
		}
		c, err := DecodeClient(old)
		if err != nil {
			t.Fatal(err)
		}
		want := clientOfAll()
		if version == 0 { // of before fittings taught anything
			want.Corrections = nil
		}
		if version == 1 { // of before one side was altered alone
			want.Corrections["trousers"] = want.Corrections["trousers"][:2]
		}
		if got, want := fmt.Sprint(*c), fmt.Sprint(*want); got != want {
			t.Errorf("read again it is %s, was %s", got, want)
		}
	}
	for _, bad := range []string{"", "{}", `{"version": 4}`, `{"version": 2, "corrections": {"skirt": [{"kind": "hip_out", "by": "wide"}]}}`, `{"version": 1, "name": 3}`} {
		if _, err := DecodeClient([]byte(bad)); err == nil {
			t.Errorf("%q was read as a client", bad)
		}
	}
}

// jobFor is a job of a client whose hip was taken on that day.
func jobFor(client, ticket, hip string, on day.Day) *Job {
	j := NewJob("trousers")
	j.Client = client
	j.SetName(ticket)
	j.Measure(body.HipGirth, hip, on)
	return j
}

// shelfWith is what is kept of jobs, named by their tickets.
func shelfWith(t *testing.T, jobs ...*Job) []*shelved {
	t.Helper()
	var out []*shelved
	for _, j := range jobs {
		data, err := j.Encode()
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, shelf(store.Record{Kind: recordKind, ID: j.File.Name, Rev: 1, Data: data, Updated: clock()}))
	}
	return out
}

func TestEarlierTakings(t *testing.T) {
	deleted := jobFor("a", "Deleted", "40", "2031-03-01")
	deleted.Deleted = 1
	ofGarment := jobFor("a", "Alto 2", "43 1/2", "2031-02-01")
	ofGarment.SetOf(body.HipGirth, body.OfGarment)
	undated := jobFor("a", "Alto 0", "39", "2031-01-01")
	undated.Taken = map[body.ID]day.Day{}
	d := NewDesk(Deps{})
	open := jobFor("a", "Alto 4", "44", "2031-05-17")
	d.records = shelfWith(
		t, open, undated, jobFor("a", "Alto 1", "41", "2030-01-31"), deleted, ofGarment,
		jobFor("b", "Bass 1", "50", "2031-04-01"), jobFor("", "Nobody's", "51", "2031-04-01"),
		jobFor("a", "Alto 3", "106,7 cm", "2031-02-01"), jobFor("a", "Untaken", "", "2031-04-01"),
	)
	d.records = append(d.records, shelf(store.Record{ID: "unread"}))
	d.job, d.keeper = open, NewKeeper(recordKind, "Alto 4", 1, clock)
	var got []string
	for _, e := range takings(d.earlierJobs(), body.HipGirth) {
		got = append(got, fmt.Sprintf("%s %s %s %s", e.Day, e.Taking.Value, e.Taking.Of, e.Ticket))
	}
	want := []string{
		"2031-02-01 43½ in garment Alto 2", "2031-02-01 106.7 cm body Alto 3",
		"2030-01-31 41 in body Alto 1", " 39 in body Alto 0",
	}
	if !slices.Equal(got, want) {
		t.Errorf("earlier takings\n%q, want\n%q", got, want)
	}
	if other := takings(d.earlierJobs(), body.WaistGirth); len(other) > 0 {
		t.Errorf("the waist was never taken: %v", other)
	}
	d.job = jobFor("", "Nobody's", "1", "2031-05-17")
	if others := takings(d.earlierJobs(), body.HipGirth); len(others) > 0 {
		t.Errorf("a job of nobody in particular has the takings of %v", others)
	}
}
