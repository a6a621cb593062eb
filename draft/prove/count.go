package prove

import (
	"cmp"
	"math"
	"slices"

	"chalkfold/draft/body"
	"chalkfold/draft/job"
)

// Report is the count of a run.
type Report struct {
	Bodies, Styles int
	Drafts         int // = Passed + Stopped + Panics
	Passed         int // no finding stops the cut
	Clear          int // of the passed: nothing to be minded either
	Stopped        int // by a finding, or refused with a reason
	Panics         int // the program failed
	Crossed        int // drafts with an outline that crosses itself
	Stops          []Count
	Minds          []Count
	Fails          []Count // how the program failed
	ByStyle        []StyleCount
	Fork           []Fork
}

// Failed tells whether the program itself did wrong: it panicked or drew an
// outline that crosses itself.
func (r Report) Failed() bool { return r.Panics+r.Crossed > 0 }

// MostRows is how many bodies a Count names.
const MostRows = 20

// Count is how many drafts one check found against.
type Count struct {
	Check  string
	Drafts int
	Bodies int      // in how many bodies
	Rows   []string // their IDs, the first MostRows in the survey's order
}

// StyleCount is how the drafts of one style went.
type StyleCount struct {
	Style                   string
	Method                  job.Method
	Drafts, Passed, Stopped int
}

// Fork is how the fork seam of trued drafts compares with the surveyed crotch
// length: the seam less the body, mm.
type Fork struct {
	Style    string // "" is all styles together
	Method   job.Method
	Figure   body.Figure
	Drafts   int
	Mean, SD float64
	Worst    float64 // that which is furthest from the ease that was chosen
	Within   float64 // share with 0 to 50 mm of room
	Near     float64 // share within 10 mm of body and chosen ease
	Told     float64 // share further off, of which the proof says what stopped it
}

// forkRoom is the room that a fork seam should have over the body, forkNear how
// near it should come to the ease that was chosen, mm.
const (
	forkRoom = 50.0
	forkNear = 10.0
)

// tally gathers the drafts that a check found against.
type tally map[string]*Count

func (t tally) add(check, id string) {
	c := t[check]
	if c == nil {
		c = &Count{Check: check}
		t[check] = c
	}
	c.Drafts++
	if n := len(c.Rows); n == 0 || c.Rows[n-1] != id { // body by body, so that the same one comes last
		c.Rows = append(c.Rows, id)
	}
}

// counts are the tallies, the most frequent first.
func (t tally) counts() []Count {
	var out []Count
	for _, c := range t {
		k := *c
		k.Bodies = len(k.Rows)
		k.Rows = k.Rows[:min(len(k.Rows), MostRows)]
		out = append(out, k)
	}
	slices.SortFunc(out, func(a, b Count) int {
		return cmp.Or(cmp.Compare(b.Drafts, a.Drafts), cmp.Compare(a.Check, b.Check))
	})
	return out
}

// count goes through the outcomes in order, so that who drew them does not
// show.
func count(bodies []Body, styles []Style, outcomes [][]outcome) Report {
	r := Report{Bodies: len(bodies), Styles: len(styles)}
	stops, minds, fails := tally{}, tally{}, tally{}
	for i, b := range bodies {
		for s := range styles {
			o := outcomes[s][i]
			for _, c := range o.stops {
				stops.add(c, b.ID)
			}
			for _, c := range o.minds {
				minds.add(c, b.ID)
			}
			if o.failed != "" {
				fails.add(o.failed, b.ID)
			}
		}
	}
	for s, style := range styles {
		c := StyleCount{Style: style.Name, Method: style.Method}
		for _, o := range outcomes[s] {
			c.Drafts++
			switch {
			case o.failed != "":
				r.Panics++
			case len(o.stops) > 0:
				c.Stopped++
			default:
				c.Passed++
				if len(o.minds) == 0 {
					r.Clear++
				}
			}
			if o.crossed {
				r.Crossed++
			}
		}
		r.Drafts, r.Passed, r.Stopped = r.Drafts+c.Drafts, r.Passed+c.Passed, r.Stopped+c.Stopped
		r.ByStyle = append(r.ByStyle, c)
	}
	r.Stops, r.Minds, r.Fails = stops.counts(), minds.counts(), fails.counts()
	r.Fork = forks(bodies, styles, outcomes)
	return r
}

// forks sums up the fork seams of each method, of all styles and of each.
func forks(bodies []Body, styles []Style, outcomes [][]outcome) []Fork {
	var methods []job.Method
	of := map[job.Method][][]outcome{}
	for s, style := range styles {
		if of[style.Method] == nil {
			methods = append(methods, style.Method)
		}
		of[style.Method] = append(of[style.Method], outcomes[s])
	}
	var out []Fork
	figures := []body.Figure{body.Women, body.Men}
	for _, f := range figures {
		for _, m := range methods {
			out = append(out, forkOf(Fork{Method: m, Figure: f}, bodies, of[m]...))
		}
	}
	for s, style := range styles {
		for _, f := range figures {
			out = append(out, forkOf(Fork{Style: style.Name, Method: style.Method, Figure: f}, bodies, outcomes[s]))
		}
	}
	return out
}

// forkOf sums up the fork seams of the figure of f.
func forkOf(f Fork, bodies []Body, outcomes ...[]outcome) Fork {
	var sum, squares, far float64
	for _, of := range outcomes {
		for i, o := range of {
			if bodies[i].Figure != f.Figure || !o.hasFork {
				continue
			}
			f.Drafts++
			sum += o.fork
			squares += o.fork * o.fork
			if o.fork >= 0 && o.fork <= forkRoom {
				f.Within++
			}
			off := math.Abs(o.fork - o.ease)
			if off > far {
				far, f.Worst = off, o.fork
			}
			switch {
			case off <= forkNear:
				f.Near++
			case o.told:
				f.Told++
			}
		}
	}
	if n := float64(f.Drafts); n > 0 {
		f.Mean, f.Within, f.Near, f.Told = sum/n, f.Within/n, f.Near/n, f.Told/n
		f.SD = math.Sqrt(max(squares/n-f.Mean*f.Mean, 0))
	}
	return f
}
