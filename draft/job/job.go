package job

import (
	"maps"
	"slices"

	"chalkfold/draft/body"
	"chalkfold/draft/rules"
	"chalkfold/draft/unit"
)

// Version is the newest form of the file that is read, and the one written.
const Version = 1

// Job is one job. The zero value is not one: it names no garment.
type Job struct {
	Name         string // of the job, not of the client: "Alto 3"
	Garment      string // "trousers"
	Figure       body.Figure
	Units        Units
	Measurements body.Takings
	Rules        Rules
	Style        map[string]string // choices by option; what is missing is the garment's default
	Method       Method
	Drafting     Drafting
	Untrued      []string // truings switched off, by name
	Cloth        []Cloth
	Alterations  []Alteration // in the order in which they were seen
}

// Alteration is what was altered after a fitting. Which there are the garment
// says.
type Alteration struct {
	Kind string        // "back_longer"
	By   unit.Quantity // more than nought
	Side Side
	For  For
}

// Side is the side of the body that is altered, as its wearer tells it.
type Side string

// The sides; the zero Side is both.
const (
	LeftSide  Side = "left"
	RightSide Side = "right"
)

// For is what an alteration is kept with.
type For string

// What alterations are kept with.
const (
	ForJob    For = "job"    // this garment alone
	ForClient For = "client" // her next ones too
)

// Clone returns a job that shares nothing with j.
func (j Job) Clone() Job {
	j.Measurements = maps.Clone(j.Measurements)
	j.Rules = Rules{maps.Clone(j.Rules.House), maps.Clone(j.Rules.Client), maps.Clone(j.Rules.Job)}
	j.Style = maps.Clone(j.Style)
	j.Untrued = slices.Clone(j.Untrued)
	j.Alterations = slices.Clone(j.Alterations)
	j.Cloth = slices.Clone(j.Cloth)
	for i := range j.Cloth {
		c := &j.Cloth[i]
		c.Flaws, c.Outline, c.Kept = slices.Clone(c.Flaws), slices.Clone(c.Outline), slices.Clone(c.Kept)
	}
	return j
}

// Units are how lengths are shown. The zero value is inches to the eighth.
type Units struct {
	System   unit.System // Inches or Centimetres
	Fraction int         // 4, 8 or 16; 0 is 8. Centimetres are in tenths whatever it says.
}

// Format is the format that shows lengths so.
func (u Units) Format() unit.Format { return unit.Format{System: u.System, Den: u.Fraction} }

// Rules are the rules that differ from the garment's own, by level.
type Rules struct {
	House  rules.Values
	Client rules.Values
	Job    rules.Values
}

// Method is the way of drafting.
type Method string

// The methods; the zero Method is Quarter. Which of them a garment can be
// drafted by, it says itself.
const (
	Quarter  Method = "quarter"  // every figure as the house has it
	Balanced Method = "balanced" // figures changed until what was measured comes out
)

// Drafting says whether the method is trued.
type Drafting string

// The draftings; the zero Drafting is Trued.
const (
	Trued  Drafting = "trued"
	Spoken Drafting = "spoken" // no truing at all: as it is taught
)

// New is an empty job for a garment, all else at its default.
func New(garment string) Job {
	return Job{Garment: garment, Method: Quarter, Drafting: Trued}
}
