package ui

import (
	"bytes"
	"maps"
	"slices"
	"strings"

	"chalkfold/draft/body"
	"chalkfold/draft/job"
	"chalkfold/draft/plain"
	"chalkfold/draft/quote"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
	"chalkfold/ui/day"
)

// recordKind is the kind of the records that hold jobs.
const recordKind = "job"

// keptVersion is the version of the record; the job file in it has its own.
//
//	1  the job, what is unread, what was answered, the mark
//	2  and the state, when it was deleted, the steps of undo
//	3  begins with its head; and the client, the days it was measured, is due,
//	   was done, the notes, what the bench and the fitting measure and tick; and
//	   what was printed, which a page that does not know it may lose
//	4  and the quote; the head has the day of the fitting
//	5  and what is sewn, what is in the drawer, with what it is sewn
//	6  and alterations of one side
//	7  and how long it took, by what labour is charged; what is charged has the ids
//	   that notions have
//	8  and the order that it belongs to; orders are kept so as well, see orderKind
const keptVersion = 8

// headSince is the version from which a record begins with all of its head.
const headSince = 4

// hooksSince is the version since which the hook of a bodice has an id of its own.
const hooksSince = 7

// kept is the record of a job.
type kept struct {
	Version  int64
	Deleted  int64 // as in every kind; see deletedAt
	Head     *head
	Taken    map[body.ID]day.Day
	Job      []byte // the job file
	Unread   map[string]string
	Answered map[body.ID]string
	Aside    map[string]string
	Mark     string
	Printed  []byte
	State    State // of version 2
	Steps    []step
	Done     int // of the steps; those after it were undone
	Note     string
	Pieces   map[string]bool
	Sewing   Sewing
	MadeUp   unit.Quantity
	Fitting  day.Day
	Seen     string
	Quote    quote.Quote
	CutAs    []job.Alteration
}

func (k *kept) encode() ([]byte, error) {
	w := &plain.Writer{}
	w.Open('{')
	w.Key("version").Int(k.Version)
	w.IntIf("deleted", k.Deleted)
	if k.Head != nil { // first of all: see readHead
		w.Key("head")
		k.Head.write(w)
	}
	// The days stand close to the measurements, so that a step of both is short.
	plain.WritePairs(w, "taken", k.Taken)
	w.Key("job").Raw(k.Job)
	plain.WritePairs(w, "unread", k.Unread)
	plain.WritePairs(w, "answered", k.Answered)
	plain.WritePairs(w, "aside", k.Aside)
	w.TextIf("mark", k.Mark)
	if len(k.Printed) > 0 {
		w.Key("printed").Raw(k.Printed)
	}
	if len(k.Steps) > 0 {
		w.Key("steps").Open('[')
		for _, s := range k.Steps {
			s.write(w.Next())
		}
		w.Shut(']')
	}
	w.IntIf("done", int64(k.Done))
	w.TextIf("note", k.Note)
	writeTicks(w, "pieces", k.Pieces)
	k.Sewing.write(w)
	w.TextIf("made_up", k.MadeUp.String())
	w.TextIf("fitting", string(k.Fitting))
	w.TextIf("seen", k.Seen)
	if !k.Quote.Empty() {
		w.Key("quote")
		k.Quote.Write(w)
	}
	writeAlterations(w, "cut_as", k.CutAs)
	w.Shut('}')
	return w.Done()
}

func (k *kept) read(r *plain.Reader) {
	for key := range r.Object() {
		switch key {
		case "version":
			k.Version = r.Int()
		case "deleted":
			k.Deleted = r.Int()
		case "head":
			k.Head = &head{}
			k.Head.read(r)
		case "taken":
			plain.ReadPairs(r, &k.Taken)
		case "job":
			k.Job = r.Raw()
		case "unread":
			plain.ReadPairs(r, &k.Unread)
		case "answered":
			plain.ReadPairs(r, &k.Answered)
		case "aside":
			plain.ReadPairs(r, &k.Aside)
		case "mark":
			k.Mark = r.Text()
		case "printed":
			k.Printed = r.Raw()
		case "state":
			k.State = State(r.Text())
		case "steps":
			k.Steps = nil
			for range r.List() {
				k.Steps = append(k.Steps, readStep(r))
			}
		case "done":
			k.Done = int(r.Int())
		case "note":
			k.Note = r.Text()
		case "pieces":
			k.Pieces = readTicks(r)
		case "sewn", "drawer", "weight", "two", "took", "step":
			k.Sewing.read(key, r)
		case "made_up":
			k.MadeUp = readQuantity(r)
		case "fitting":
			k.Fitting = day.Day(r.Text())
		case "seen":
			k.Seen = r.Text()
		case "quote":
			k.Quote = quote.Read(r)
		case "cut_as":
			k.CutAs = readAlterations(r)
		}
	}
}

// readQuantity reads a length as it was written.
func readQuantity(r *plain.Reader) (q unit.Quantity) {
	if err := q.UnmarshalText([]byte(r.Text())); err != nil {
		r.Fail(say.Of("%v", err))
	}
	return q
}

// State is how far a job is, as it is kept.
type State string

// The states that the page can tell today.
const (
	ToMeasure State = "tape"
	Measured  State = "measured" // no draft is made of it yet
	Stopped   State = "stopped"  // drafted, and not to be cut
	MayBeCut  State = "ready"
)

// Milestone is something that was done for a job, told by the maker.
type Milestone string

// The milestones, in the order in which they are commonly reached; a maker may
// be paid at any time.
const (
	Cut    Milestone = "cut"
	Sewn   Milestone = "sewn"
	Fitted Milestone = "fitted"
	Paid   Milestone = "paid"
)

// stateOf tells how far the job is of which w was made.
func stateOf(j *Job, w *Work) State {
	switch {
	case w.Result != nil && w.Result.Report.Stopped():
		return Stopped
	case w.Result != nil:
		return MayBeCut
	case len(j.File.Measurements) > 0:
		return Measured
	}
	return ToMeasure
}

// content is what of the job can be undone: all that was entered.
func (j *Job) content(file []byte) kept {
	unread := maps.Clone(j.Unread)
	for id, t := range j.File.Measurements {
		if !t.Value.Set() && t.Of == body.OfGarment { // the file holds no answer without a figure
			unread[measured(id)+".of"] = t.Of.String()
		}
	}
	k := kept{
		Version: keptVersion, Job: file, Unread: unread, Answered: j.Answered, Taken: j.Taken, Aside: j.Aside,
		Note: j.Notes, Pieces: j.Pieces, Sewing: j.Sewing, MadeUp: j.MadeUp, Fitting: j.Fitting, Seen: j.Seen, Quote: j.Quote, CutAs: j.CutAs,
	}
	k.Sewing.Step, k.Sewing.Minutes, k.Sewing.Left = "", 0, 0
	if j.Client != "" || j.Due != "" || j.Order != "" || len(j.Reached) > 0 {
		k.Head = &head{Client: j.Client, Due: j.Due, Reached: j.Reached, Order: j.Order}
	}
	return k
}

// Content writes all that was entered. Whether it can be read back is looked at when it
// is kept, and not for each key as well.
func (j *Job) Content() ([]byte, error) {
	file, err := j.File.Text()
	if err != nil {
		return nil, err
	}
	k := j.content(file)
	return k.encode()
}

// Encode writes the job for the store.
func (j *Job) Encode() ([]byte, error) {
	var file bytes.Buffer
	if err := j.File.Encode(&file); err != nil {
		return nil, say.Errorf("the job cannot be kept: %v", err)
	}
	k := j.content(file.Bytes())
	h := j.head()
	k.Head, k.Mark, k.Printed, k.Deleted, k.Sewing.Step = &h, j.Mark, j.Printed, j.Deleted, j.Sewing.Step
	k.Steps, k.Done = j.past.steps, j.past.done
	return k.encode()
}

// errNewer is the reason why a record cannot be read by this page.
var errNewer = say.Errorf("reload the page for a newer one")

// DecodeJob reads a job from the store, of every version there was.
func DecodeJob(data []byte) (*Job, error) {
	var k kept
	r := plain.Read(data)
	k.read(r)
	if err := r.End(); err != nil {
		return nil, say.Errorf("the kept job cannot be read: %v", err)
	}
	if k.Version < 1 {
		return nil, say.Errorf("the kept job cannot be read: it has no version")
	}
	if k.Version > keptVersion {
		return nil, say.Errorf("the kept job has version %d, this page knows %d: %v", k.Version, keptVersion, errNewer)
	}
	file, err := job.Decode(bytes.NewReader(k.Job))
	if err != nil {
		return nil, say.Errorf("the kept job cannot be read: %v", err)
	}
	j := jobOf(file)
	for path, text := range k.Unread {
		if id, ok := strings.CutSuffix(path, ".of"); ok {
			j.SetOf(body.ID(strings.TrimPrefix(id, "measurements.")), body.OfGarment)
			continue
		}
		j.Unread[path] = text
	}
	maps.Copy(j.Answered, k.Answered)
	maps.Copy(j.Taken, k.Taken)
	maps.Copy(j.Aside, k.Aside)
	maps.Copy(j.Pieces, k.Pieces)
	maps.Copy(j.Sewing.Done, k.Sewing.Done)
	maps.Copy(j.Sewing.Drawer, k.Sewing.Drawer)
	j.Sewing.Weight, j.Sewing.Two, j.Sewing.Took, j.Sewing.Step = k.Sewing.Weight, k.Sewing.Two, k.Sewing.Took, k.Sewing.Step
	if had := j.Sewing.Drawer; k.Version < hooksSince && file.Garment == "bodice" && had["fastening"] {
		delete(had, "fastening")
		had["hook"] = true
	}
	j.Mark, j.Printed, j.State, j.Deleted = k.Mark, slices.Clone(k.Printed), k.State, k.Deleted
	j.Notes, j.MadeUp, j.Fitting, j.Seen, j.Quote, j.CutAs = k.Note, k.MadeUp, k.Fitting, k.Seen, k.Quote, k.CutAs
	if h := k.Head; h != nil {
		maps.Copy(j.Reached, h.Reached)
		j.Client, j.Due, j.State, j.Order = h.Client, h.Due, h.State, h.Order
		j.Sewing.Minutes, j.Sewing.Left = h.Minutes, h.Left
	}
	if k.Done >= 0 && k.Done <= len(k.Steps) {
		j.past.steps, j.past.done = k.Steps, k.Done
	}
	return j, nil
}
