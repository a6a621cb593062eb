package draft_test

import (
	"fmt"
	"maps"
	"os"
	"slices"
	"strings"
	"testing"

	"chalkfold/draft"
	"chalkfold/draft/bench"
	"chalkfold/draft/body"
	"chalkfold/draft/garment"
	"chalkfold/draft/geom"
	"chalkfold/draft/job"
	"chalkfold/draft/piece"
	"chalkfold/draft/prove"
	"chalkfold/draft/rules"
)

// The order of work is right for every style that can be chosen, with every
// machine and weight of cloth, and with what is done for short cloth: each edge
// is fastened once, and nothing before what lies under it. A short run has any two
// answers together; a long one has any three, and every style.
func TestOrderOfEveryStyle(t *testing.T) {
	asked, there := map[string]bool{}, map[string]bool{}
	for _, g := range draft.Garments() {
		t.Run(g.ID, func(t *testing.T) {
			hows := coveringStyles(g, 2)
			if os.Getenv("CHALKFOLD_ORDER") == "every" {
				hows = coveringStyles(g, 3)
				for i, s := range everyStyle(g) {
					hows = append(hows, sewnHow{s, i % len(houses()), i % 3, i / 3 % 3, i%4 == 0})
				}
			}
			var m draft.Maker
			for _, how := range hows {
				o := orderOf(t, &m, g, how)
				o.check()
				for _, task := range o.tasks {
					there[task.ID] = true
					for _, id := range task.After {
						asked[id] = true
					}
				}
				if t.Failed() {
					t.Fatalf("%+v", how)
				}
			}
			t.Logf("%d styles", len(hows))
		})
	}
	for id := range asked {
		if !there[id] {
			t.Errorf("task %q is waited for and never told", id)
		}
	}
}

func everyNth[T any](all []T, n int) func(func(T) bool) {
	return func(yield func(T) bool) {
		for i := 0; i < len(all) && yield(all[i]); i += n {
		}
	}
}

// everyStyle is every answer to every question that goes together. What a
// question changes in the lines of the leg alone, and in no piece, is answered
// in turn.
func everyStyle(g garment.Garment) []garment.Style {
	all := []garment.Style{{}}
	inTurn := map[string]bool{"leg": true, "length": true, "shape": true, "neck": true}
	for _, b := range g.Builds {
		inTurn[b.Option] = true
	}
	for _, o := range g.Options {
		if inTurn[o.ID] {
			continue
		}
		var more []garment.Style
		for _, s := range all {
			for _, c := range o.Choices {
				s := maps.Clone(s)
				s[o.ID] = c.ID
				more = append(more, s)
			}
		}
		all = more
	}
	var out []garment.Style
	for i, s := range all {
		for k, o := range g.Options {
			if inTurn[o.ID] {
				s[o.ID] = o.Choices[(i+k)%len(o.Choices)].ID
			}
		}
		if g.Clashes != nil && len(g.Clashes(s)) > 0 {
			s = g.Together(s, "")
		}
		if g.Check(s) == nil && !slices.ContainsFunc(out[max(0, len(out)-12):], func(o garment.Style) bool { return maps.Equal(o, s) }) {
			out = append(out, s)
		}
	}
	return out
}

// ordered is an order of work under test.
type ordered struct {
	t     *testing.T
	r     *draft.Result
	tasks []bench.Task
	at    map[string]int // of each task, in the order
}

// houses are rules that change the pieces or their order.
func houses() []rules.Values {
	return []rules.Values{
		{}, {"band_join": "on"}, {"back_piecing": "1 1/2 in"}, {"hidden_lining": "on", "belt_loops": "0"}, {"centre_back_inlay": "1 in", "fly_length": "3 in"},
	}
}

// orderOf drafts a style for the middle of the women surveyed.
func orderOf(t *testing.T, m *draft.Maker, g garment.Garment, how sewnHow) *ordered {
	t.Helper()
	s := how.style
	j := prove.Style{Garment: g.ID, Style: s}.Job(prove.Body{ID: "middle", Figure: body.Women, Taken: body.Middle(body.Women)})
	if g.ID == "trousers" {
		j.Rules = job.Rules{House: houses()[how.house]}
	}
	switch one := map[string]string{"trousers": "leg_longer", "skirt": "hip_out", "bodice": "shoulder_lower"}[g.ID]; {
	case how.uneven && (how.machine%2 == 1 || g.ID == "bodice"): // altered on one side
		j.Alterations = []job.Alteration{{Kind: one, By: length(t, "1/2 in"), Side: []job.Side{job.LeftSide, job.RightSide}[how.weight%2]}}
	case how.uneven: // one hip higher
		for id, side := range map[body.ID]string{body.LeftSideLength: "41 in", body.RightSideLength: "40 1/2 in"} {
			j.Measurements[id] = body.Taking{Value: length(t, side)}
		}
	}
	r, err := m.Make(j)
	if err != nil {
		t.Fatalf("%v: %v", s, err)
	}
	by := bench.Setting{
		Machine: []bench.Machine{bench.Straight, bench.Zigzag, bench.Overlock}[how.machine],
		Weight:  []bench.Weight{bench.Light, bench.Medium, bench.Heavy}[how.weight],
	}
	tasks, err := draft.Order(r, by)
	if err != nil {
		t.Fatalf("%v: %v", s, err)
	}
	o := &ordered{t: t, r: r, tasks: tasks, at: map[string]int{}}
	for i, task := range tasks {
		o.at[task.ID] = i
	}
	return o
}

func (o *ordered) check() {
	o.t.Helper()
	o.told()
	o.sequence()
	o.fastened()
	o.claimed()
	o.beneath()
	o.shaped()
	o.lap()
	o.shared()
}

// told: every task says what to do, in two sentences.
func (o *ordered) told() {
	used := map[string]bool{}
	for _, t := range o.tasks {
		if t.Name == "" || t.Minutes <= 0 || len(t.Pieces) == 0 || strings.Count(t.Do+" ", ". ") != 2 {
			o.t.Errorf("task %q is told as %+v", t.ID, t)
		}
		if t.Stitch == bench.Seam && len(t.Sews) > 0 && t.Allow == 0 && t.ID != "band-close" {
			o.t.Errorf("task %q has no allowance", t.ID)
		}
		for _, id := range t.Pieces {
			if t.ID != "mark" {
				used[id] = true
			}
			if !slices.ContainsFunc(o.r.Pieces, func(p piece.Piece) bool { return p.ID == id }) {
				o.t.Errorf("task %q uses %q, which is not cut", t.ID, id)
			}
		}
	}
	for _, p := range o.r.Pieces {
		if !used[p.ID] {
			o.t.Errorf("piece %q is not used", p.ID)
		}
	}
}

// sequence: each task comes after what it waits for.
func (o *ordered) sequence() {
	for i, t := range o.tasks {
		for _, id := range t.After {
			if k, ok := o.at[id]; ok && k >= i {
				o.t.Errorf("%q comes before %q, for which it waits", t.ID, id)
			}
		}
	}
}

// span is a stretch of an edge and the task that fastens it.
type span struct {
	from, to float64
	task     int
}

// spans are what fastens an edge of a piece on one hand, in its order.
func (o *ordered) spans(p piece.Piece, e piece.Edge, hand piece.Hand) []span {
	var out []span
	for i, t := range o.tasks {
		for _, r := range t.Sews {
			if r.On != piece.BothHands && r.On != hand {
				continue
			}
			if path := r.Stretch(p, e); len(path) > 0 {
				out = append(out, span{r.From.MM(), r.From.MM() + path.Len(), i})
			}
		}
	}
	slices.SortFunc(out, func(a, b span) int { return int(1000 * (a.from - b.from)) })
	return out
}

// hands are those on which a piece is worn.
func hands(p piece.Piece) []piece.Hand {
	if p.Hand != piece.BothHands {
		return []piece.Hand{p.Hand}
	}
	return []piece.Hand{piece.LeftHand, piece.RightHand}
}

func open(p piece.Piece, e piece.Edge) bool {
	return p.Cloth != piece.Interfacing && !e.Fold && e.AllowStart+e.AllowEnd > 0
}

// fastened: every edge with an allowance is fastened over its whole length, on
// both hands, and once.
func (o *ordered) fastened() {
	const tol = 0.5 // mm
	for _, p := range o.r.Pieces {
		for _, e := range p.Edges {
			if !open(p, e) {
				continue
			}
			for _, hand := range hands(p) {
				at := 0.0
				for _, s := range o.spans(p, e, hand) {
					if s.from < at-tol || s.from > at+tol {
						o.t.Errorf("%s, %s: fastened to %.1f, and then from %.1f by %q", p.ID, e.Name, at, s.from, o.tasks[s.task].ID)
					}
					at = s.to
				}
				if at < e.Sew.Len()-tol {
					o.t.Errorf("%s, %s: fastened to %.1f of %.1f", p.ID, e.Name, at, e.Sew.Len())
				}
			}
		}
	}
	for _, t := range o.tasks {
		for _, r := range append(slices.Clone(t.Sews), t.Along...) {
			i := slices.IndexFunc(o.r.Pieces, func(p piece.Piece) bool { return p.ID == r.Piece })
			if i < 0 || r.Edge != "" && !slices.ContainsFunc(o.r.Pieces[i].Edges, func(e piece.Edge) bool { return e.Name == r.Edge }) {
				o.t.Errorf("task %q goes along %q of %q, which is not there", t.ID, r.Edge, r.Piece)
			}
		}
	}
}

// claimed: the edges that a draft claims to be sewn together are sewn by one
// task.
func (o *ordered) claimed() {
	by := func(refs []piece.Ref) map[int]bool {
		out := map[int]bool{}
		for _, ref := range refs {
			for _, p := range o.r.Pieces {
				whole := len(p.Halves) > 0 && p.Halves[1].ID == ref.Panel
				if p.ID != ref.Piece && (ref.Panel == "" || p.ID != ref.Panel && !whole) {
					continue
				}
				for _, e := range p.Edges {
					if e.Name == ref.Edge || len(p.Halves) > 0 && e.Name == "right "+ref.Edge {
						for _, s := range append(o.spans(p, e, piece.LeftHand), o.spans(p, e, piece.RightHand)...) {
							out[s.task] = true
						}
					}
				}
			}
		}
		return out
	}
	for _, s := range o.r.Seams {
		if strings.HasPrefix(s.Name, "back ") && strings.HasSuffix(s.Name, "with its piece") {
			continue // one edge in two pieces, not two edges
		}
		if strings.Contains(s.Name, ": centre front to the fly-") {
			continue // claimed of both halves, and sewn to one: see lap
		}
		a, b := by(s.A), by(s.B)
		if !slices.ContainsFunc(slices.Collect(maps.Keys(a)), func(i int) bool { return b[i] }) {
			o.t.Errorf("the %s is sewn by no task: %v, %v", s.Name, a, b)
		}
	}
}

// hangsFree: linings are sewn by themselves, but for the waist.
func (o *ordered) hangsFree(p piece.Piece, e piece.Edge) bool {
	return strings.HasSuffix(strings.TrimSuffix(p.ID, "-right"), "-lining") && e.Name != "waist" && o.r.Garment.ID != "bodice"
}

// beneath: what lies along an edge is caught with it, and was put there before;
// what runs into a waist, a hem or a seam that crosses was sewn before.
func (o *ordered) beneath() {
	for _, p := range o.r.Pieces {
		for i, e := range p.Edges {
			if !open(p, e) {
				continue
			}
			next := p.Edges[(i+1)%len(p.Edges)]
			for _, hand := range hands(p) {
				o.along(p, e, hand)
				if e.Corner == piece.Square && open(p, next) {
					o.before(p, e, next, hand, "crosses it")
				}
				for _, late := range []struct{ edge, other piece.Edge }{{e, next}, {next, e}} {
					if late.edge.Turned && open(p, late.other) && !late.other.Turned || late.edge.Place == piece.Top && open(p, late.other) && p.ID == p.On {
						o.before(p, late.other, late.edge, hand, "runs into it")
					}
				}
			}
		}
	}
}

// before holds that one edge is fastened, where it meets the other, before it.
func (o *ordered) before(p piece.Piece, first, then piece.Edge, hand piece.Hand, why string) {
	a, b := o.spans(p, first, hand), o.spans(p, then, hand)
	if len(a) == 0 || len(b) == 0 {
		return // told by fastened
	}
	meets := func(e piece.Edge, s []span, other piece.Edge) span {
		if e.Sew.End().Dist(other.Sew.Start()) < 1 {
			return s[len(s)-1]
		}
		return s[0]
	}
	x, y := meets(first, a, then).task, meets(then, b, first).task
	if x > y {
		o.t.Errorf("%s: %q sews the %s before %q sews the %s that %s", p.ID, o.tasks[y].ID, then.Name, o.tasks[x].ID, first.Name, why)
	}
}

// along holds it for the pieces that lie along an edge of another.
func (o *ordered) along(p piece.Piece, e piece.Edge, hand piece.Hand) {
	if p.ID != p.On {
		return
	}
	for _, q := range o.r.Pieces {
		for _, f := range q.Edges {
			if q.On == p.On && q.ID != p.ID && open(q, f) && !o.hangsFree(q, f) {
				o.together(p, e, q, f, hand)
			}
		}
	}
}

// together holds it for two edges, wherever one lies on the other.
func (o *ordered) together(p piece.Piece, e piece.Edge, q piece.Piece, f piece.Edge, hand piece.Hand) {
	by := func(all []span, at float64) int {
		for _, s := range all {
			if s.from <= at && at <= s.to {
				return s.task
			}
		}
		return -1
	}
	with, caught := o.spans(p, e, hand), o.spans(q, f, hand)
	const samples, joint, few = 10, 3, 2 // joint in mm: what touches with an end lies along nothing
	apart := 0
	for i := range samples - 1 {
		along := f.Sew.Len() * float64(i+1) / samples
		here, _ := f.Sew.At(along)
		at, off := e.Sew.Nearest(here)
		if off > 0.5 || at < joint || at > e.Sew.Len()-joint {
			continue
		}
		task := by(with, at)
		if task != by(caught, along) {
			if apart++; apart > few {
				o.t.Errorf("the %s of %s lies along the %s of %s, and is sewn apart", f.Name, q.ID, e.Name, p.ID)
				return
			}
			continue
		}
		ready := slices.ContainsFunc(o.tasks[:max(task, 0)], func(t bench.Task) bool { return t.ID != "mark" && t.Has(q.ID) })
		if !ready && strings.TrimSuffix(q.ID, "-right") != "back-fork" && o.r.Garment.ID != "bodice" {
			o.t.Errorf("%s is caught in the %s by %q, and was not made ready", q.ID, e.Name, o.tasks[task].ID)
			return
		}
	}
}

// shaped: darts, pleats and tucks are made before anything is joined, and before
// the edge in which they lie; a piece is stiffened before it is sewn.
func (o *ordered) shaped() {
	firstJoin := slices.IndexFunc(o.tasks, func(t bench.Task) bool { return t.Part == bench.Seams })
	for _, d := range o.r.Darts {
		if strings.HasSuffix(d.Panel, "-right") {
			continue // with that of the left
		}
		i := slices.IndexFunc(o.tasks, func(t bench.Task) bool {
			return slices.ContainsFunc(t.Lines, func(l bench.Line) bool {
				return l.Piece == d.Panel && slices.ContainsFunc(l.Path, func(c geom.Curve) bool { return c.D == d.Point })
			})
		})
		if i < 0 || i >= firstJoin {
			o.t.Errorf("the %s is made by task %d, the first seam is %d", d.Name, i, firstJoin)
		}
		for k, t := range o.tasks {
			for _, r := range t.Sews {
				if r.Piece == d.Panel && r.Edge == d.Edge && k <= i {
					o.t.Errorf("%q sews the %s before the %s in it", t.ID, r.Edge, d.Name)
				}
			}
		}
	}
	if o.r.Garment.ID == "bodice" && o.r.Style["closure"] == "zip_back" && o.at["zip"] < o.at["armhole"] {
		o.t.Error("the zip joins the halves of the back before they are drawn through the shoulders")
	}
	for _, id := range []string{"tuck", "mouth", "welt-bag"} {
		if i, ok := o.at[id]; ok && i >= o.at["side"] {
			o.t.Errorf("%q comes after the side seam", id)
		}
	}
	if i, ok := o.at["welt"]; ok {
		if k, ok := o.at["darts-back"]; ok && k > i {
			o.t.Error("the back pocket comes before the dart above it")
		}
	}
	for _, p := range o.r.Pieces {
		if p.Cloth != piece.Interfacing {
			continue
		}
		for i, t := range o.tasks {
			if t.ID == "mark" || !t.Has(p.ID) {
				continue
			}
			for _, id := range t.Pieces {
				for k, other := range o.tasks {
					if k < i && slices.ContainsFunc(other.Sews, func(r bench.Run) bool { return r.Piece == id }) {
						o.t.Errorf("%q sews %s before it is stiffened", other.ID, id)
					}
				}
			}
		}
	}
}

// lap: the fly facing is sewn to the front that lies on top, the shield to the
// other.
func (o *ordered) lap() {
	for id, over := range map[string]bool{"fly-facing": true, "fly-shield": false} {
		i, ok := o.at[id]
		if !ok {
			continue
		}
		for _, r := range o.tasks[i].Sews {
			if r.Piece == "front" && (r.On == piece.BothHands || (r.On == o.r.Worn.Lap) != over) {
				o.t.Errorf("%q is sewn to hand %d, and %d lies on top", id, r.On, o.r.Worn.Lap)
			}
		}
	}
}

// shared: two workers do each task once, none before what it waits for, each
// one at a time; and what the other hands over is told.
func (o *ordered) shared() {
	both, err := bench.Split(o.tasks)
	if err != nil || len(both) != len(o.tasks) {
		o.t.Fatalf("%d of %d tasks are shared: %v", len(both), len(o.tasks), err)
	}
	by := map[string]bench.Shared{}
	free, total, end := [2]int{}, 0, 0
	for _, s := range both {
		if s.Start < free[s.Worker] || s.End != s.Start+s.Minutes {
			o.t.Errorf("%q begins at %d, its worker is busy until %d", s.ID, s.Start, free[s.Worker])
		}
		free[s.Worker] = s.End
		by[s.ID] = s
		total += s.Minutes
		end = max(end, s.End)
	}
	for _, s := range both {
		var from []string
		for _, id := range s.After {
			if other, ok := by[id]; ok {
				if other.End > s.Start {
					o.t.Errorf("%q begins at %d, before %q ends", s.ID, s.Start, id)
				}
				if other.Worker != s.Worker {
					from = append(from, id)
				}
			}
		}
		if fmt.Sprint(from) != fmt.Sprint(s.From) {
			o.t.Errorf("%q is told to wait for %v, and waits for %v", s.ID, s.From, from)
		}
	}
	for i, a := range both {
		for _, b := range both[:i] {
			for _, id := range a.Pieces {
				if b.End > a.Start && b.Has(id) {
					o.t.Errorf("%q and %q have %s in hand at once", a.ID, b.ID, id)
				}
			}
		}
	}
	for i, s := range both {
		if o.at["side"] < o.at[s.ID] && i > 0 && both[i-1].End > s.Start && s.Has("front") && both[i-1].Has("back") {
			o.t.Errorf("%q and %q have one garment in hand at once", s.ID, both[i-1].ID)
		}
	}
	if len(by) != len(o.tasks) || end > total || 2*end < total || by["fly"].ID != "" && end == total {
		o.t.Errorf("two workers take %d minutes for %d", end, total)
	}
}
