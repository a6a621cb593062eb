package ui

import (
	"bytes"
	"encoding/json"
	"maps"
	"strings"

	"chalkfold/draft/body"
	"chalkfold/draft/job"
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
//	   was done, the notes, what the bench and the fitting measure and tick
const keptVersion = 3

// kept is the record of a job.
type kept struct {
	Version int   `json:"version"`
	Deleted int64 `json:"deleted,omitempty"` // as in every kind; see deletedAt
	Head    *head `json:"head,omitempty"`    // first of all: see readHead
	// Taken stands close to the measurements, so that a step of both is short.
	Taken    map[body.ID]day.Day `json:"taken,omitempty"`
	Job      json.RawMessage     `json:"job"` // the job file
	Unread   map[string]string   `json:"unread,omitempty"`
	Answered map[body.ID]string  `json:"answered,omitempty"`
	Mark     string              `json:"mark,omitempty"`
	State    State               `json:"state,omitempty"` // of version 2
	Steps    []step              `json:"steps,omitempty"`
	Done     int                 `json:"done,omitempty"` // of the steps; those after it were undone
	Note     string              `json:"note,omitempty"`
	Pieces   map[string]bool     `json:"pieces,omitempty"`
	MadeUp   unit.Quantity       `json:"made_up,omitzero"`
	Fitting  day.Day             `json:"fitting,omitempty"`
	Seen     string              `json:"seen,omitempty"`
}

// head is what the book shows of a job, so that a list of many needs no more
// of each. Ticket, Garment, State and Deleted are no part of what can be
// undone.
type head struct {
	Ticket  string                `json:"ticket,omitempty"`
	Garment string                `json:"garment,omitempty"`
	State   State                 `json:"state,omitempty"`
	Deleted int64                 `json:"-"` // stands before it
	Client  string                `json:"client,omitempty"`
	Due     day.Day               `json:"due,omitempty"`
	Reached map[Milestone]day.Day `json:"reached,omitempty"`
}

// head is the head of the job as it stands.
func (j *Job) head() head {
	return head{j.File.Name, j.File.Garment, j.State, j.Deleted, j.Client, j.Due, j.Reached}
}

// readHead reads the head alone, for some hundredth of the work that the whole
// record takes. It is not there in a record of an older version.
func readHead(data []byte) (h head, ok bool) {
	d := json.NewDecoder(bytes.NewReader(data))
	for _, want := range []json.Token{json.Delim('{'), "version", float64(keptVersion)} {
		if got, err := d.Token(); err != nil || got != want {
			return head{}, false
		}
	}
	name, err := d.Token()
	if err == nil && name == "deleted" {
		if err = d.Decode(&h.Deleted); err == nil {
			name, err = d.Token()
		}
	}
	return h, err == nil && name == "head" && d.Decode(&h) == nil
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
func (j *Job) content() (kept, error) {
	var file bytes.Buffer
	if err := j.File.Encode(&file); err != nil {
		return kept{}, say.Errorf("the job cannot be kept: %v", err)
	}
	unread := maps.Clone(j.Unread)
	for id, t := range j.File.Measurements {
		if !t.Value.Set() && t.Of == body.OfGarment { // the file holds no answer without a figure
			unread[measured(id)+".of"] = t.Of.String()
		}
	}
	k := kept{
		Version: keptVersion, Job: file.Bytes(), Unread: unread, Answered: j.Answered, Taken: j.Taken,
		Note: j.Notes, Pieces: j.Pieces, MadeUp: j.MadeUp, Fitting: j.Fitting, Seen: j.Seen,
	}
	if j.Client != "" || j.Due != "" || len(j.Reached) > 0 {
		k.Head = &head{Client: j.Client, Due: j.Due, Reached: j.Reached}
	}
	return k, nil
}

// Content writes all that was entered.
func (j *Job) Content() ([]byte, error) {
	k, err := j.content()
	if err != nil {
		return nil, err
	}
	return json.Marshal(k)
}

// Encode writes the job for the store.
func (j *Job) Encode() ([]byte, error) {
	k, err := j.content()
	if err != nil {
		return nil, err
	}
	h := j.head()
	k.Head, k.Mark, k.Deleted = &h, j.Mark, j.Deleted
	k.Steps, k.Done = j.past.steps, j.past.done
	return json.Marshal(k)
}

// errNewer is the reason why a record cannot be read by this page.
var errNewer = say.Errorf("reload the page for a newer one")

// DecodeJob reads a job from the store, of every version there was.
func DecodeJob(data []byte) (*Job, error) {
	var k kept
	if err := json.Unmarshal(data, &k); err != nil {
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
	maps.Copy(j.Pieces, k.Pieces)
	j.Mark, j.State, j.Deleted = k.Mark, k.State, k.Deleted
	j.Notes, j.MadeUp, j.Fitting, j.Seen = k.Note, k.MadeUp, k.Fitting, k.Seen
	if h := k.Head; h != nil {
		maps.Copy(j.Reached, h.Reached)
		j.Client, j.Due, j.State = h.Client, h.Due, h.State
	}
	if k.Done >= 0 && k.Done <= len(k.Steps) {
		j.past.steps, j.past.done = k.Steps, k.Done
	}
	return j, nil
}
