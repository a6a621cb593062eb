package prove

import (
	"cmp"
	"math"
	"slices"

	"chalkfold/draft/body"
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
	Drafts, Passed, Stopped int
}

// Fork is how the fork seam of trued drafts compares with the surveyed crotch
// length: the seam less the body, mm.
type Fork struct {
	Style    string // "" is all styles together
	Figure   body.Figure
	Drafts   int
	Mean, SD float64
	Within   float64 // share with 0 to 50 mm of room
}

// forkRoom is the room that a fork seam should have over the body, mm.
const forkRoom = 50.0

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
		c := StyleCount{Style: style.Name}
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
	for _, f := range []body.Figure{body.Women, body.Men} {
		r.Fork = append(r.Fork, forkOf("", f, bodies, outcomes...))
	}
	for s, style := range styles {
		for _, f := range []body.Figure{body.Women, body.Men} {
			r.Fork = append(r.Fork, forkOf(style.Name, f, bodies, outcomes[s]))
		}
	}
	return r
}

// forkOf sums up the fork seams of one figure.
func forkOf(style string, figure body.Figure, bodies []Body, outcomes ...[]outcome) Fork {
	f := Fork{Style: style, Figure: figure}
	var sum, squares float64
	for _, of := range outcomes {
		for i, o := range of {
			if bodies[i].Figure != figure || !o.hasFork {
				continue
			}
			f.Drafts++
			sum += o.fork
			squares += o.fork * o.fork
			if o.fork >= 0 && o.fork <= forkRoom {
				f.Within++
			}
		}
	}
	if n := float64(f.Drafts); n > 0 {
		f.Mean, f.Within = sum/n, f.Within/n
		f.SD = math.Sqrt(max(squares/n-f.Mean*f.Mean, 0))
	}
	return f
}
