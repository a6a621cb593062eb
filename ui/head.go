package ui

import (
	"chalkfold/draft/plain"
	"chalkfold/ui/day"
)

// head is what the book shows of a job, so that a list of many needs no more
// of each. Ticket, Garment, State and Deleted are no part of what can be
// undone.
type head struct {
	Ticket  string
	Garment string
	State   State
	Deleted int64 // stands before it in the record
	Client  string
	Due     day.Day
	Fitting day.Day // no part of what can be undone here; see kept
	Reached map[Milestone]day.Day
	Owed    string   // what is still to be paid; empty when nothing is
	Cloths  []string // the remnants that are laid on, by id
	Order   string
	// Minutes of the order of work, as reckoned, those that are left of it, and
	// those that it took; nought where nobody knows.
	Minutes, Left, Took int
}

func (h *head) write(w *plain.Writer) {
	w.Open('{')
	w.TextIf("ticket", h.Ticket)
	w.TextIf("garment", h.Garment)
	w.TextIf("state", string(h.State))
	w.TextIf("client", h.Client)
	w.TextIf("due", string(h.Due))
	w.TextIf("fitting", string(h.Fitting))
	plain.WritePairs(w, "reached", h.Reached)
	w.TextIf("owed", h.Owed)
	w.TextIf("order", h.Order)
	if len(h.Cloths) > 0 {
		w.Key("cloths").Open('[')
		for _, id := range h.Cloths {
			w.Next().Text(id)
		}
		w.Shut(']')
	}
	w.IntIf("minutes", int64(h.Minutes))
	w.IntIf("left", int64(h.Left))
	w.IntIf("took", int64(h.Took))
	w.Shut('}')
}

func (h *head) read(r *plain.Reader) {
	for key := range r.Object() {
		switch key {
		case "ticket":
			h.Ticket = r.Text()
		case "garment":
			h.Garment = r.Text()
		case "state":
			h.State = State(r.Text())
		case "client":
			h.Client = r.Text()
		case "due":
			h.Due = day.Day(r.Text())
		case "fitting":
			h.Fitting = day.Day(r.Text())
		case "reached":
			plain.ReadPairs(r, &h.Reached)
		case "owed":
			h.Owed = r.Text()
		case "order":
			h.Order = r.Text()
		case "cloths":
			h.Cloths = nil
			for range r.List() {
				h.Cloths = append(h.Cloths, r.Text())
			}
		case "minutes":
			h.Minutes = int(r.Int())
		case "left":
			h.Left = int(r.Int())
		case "took":
			h.Took = int(r.Int())
		}
	}
}

// head is the head of the job as it stands.
func (j *Job) head() head {
	h := head{j.File.Name, j.File.Garment, j.State, j.Deleted, j.Client, j.Due, j.Fitting, j.Reached, j.owed(), nil, j.Order, j.Sewing.Minutes, j.Sewing.Left, j.Sewing.Took}
	for _, c := range j.File.Cloth {
		if c.Remnant != "" {
			h.Cloths = append(h.Cloths, c.Remnant)
		}
	}
	return h
}

// readHead reads the head alone, for some hundredth of the work that the whole
// record takes. It is not there in a record of an older version.
func readHead(data []byte) (h head, ok bool) {
	var version int64
	r := plain.Read(data)
	for key := range r.Object() {
		switch key {
		case "version":
			version = r.Int()
			continue
		case "deleted":
			h.Deleted = r.Int()
			continue
		case "head":
			h.read(r)
			ok = r.Err() == nil && version >= headSince && version <= keptVersion
		}
		break
	}
	if !ok {
		return head{}, false
	}
	return h, true
}
