package draft_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"chalkfold/draft"
	"chalkfold/draft/garment"
	"chalkfold/draft/job"
	"chalkfold/draft/lay"
	"chalkfold/draft/piece"
	"chalkfold/draft/rules"
	"chalkfold/draft/unit"
	"chalkfold/static/words/wordstest"
)

// someWork is a short lay, for tests.
const someWork = 60

// natively skips what is long, and shown once: in a short run, as that under wasm
// is, another case of the same goes through the same stages.
func natively(t *testing.T) {
	t.Helper()
	if testing.Short() {
		t.Skip("shown natively")
	}
}

// onCloth is the middle job of these tests on a main cloth, with pocketing of
// its own.
func onCloth(t *testing.T, width, long string, fold job.Fold) job.Job {
	t.Helper()
	j := read(t, hip42)
	j.Rules.House = rules.Values{"centre_back_inlay": "1 in"}
	j.Cloth = []job.Cloth{
		{Width: length(t, width), Fold: fold},
		{Kind: piece.Lining, Width: length(t, "45 in"), Length: length(t, "1/2 yd"), Fold: job.Lengthwise},
	}
	if long != "" {
		j.Cloth[0].Length = length(t, long)
	}
	return j
}

func advise(t *testing.T, j job.Job, opt draft.Advising) *draft.Advice {
	t.Helper()
	var m draft.Maker
	r, err := m.Make(j)
	if err != nil {
		t.Fatal(err)
	}
	if opt.Work == 0 {
		opt.Work = someWork
	}
	a, err := m.Advise(r, 0, opt)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

func madeOf(t *testing.T, j job.Job) *draft.Result {
	t.Helper()
	r, err := draft.Make(j)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// laidAfresh lays a draft as the advice must have done it; nothing when it cannot be.
func laidAfresh(t *testing.T, r *draft.Result, seed uint64, work int) *draft.Laid {
	t.Helper()
	l, err := draft.Lay(r, 0, lay.Options{Seed: seed, Work: work})
	if err != nil {
		return nil
	}
	if err := lay.Verify(l.Cloth, l.Items, l.Result); err != nil {
		t.Fatal(err)
	}
	return l
}

// given makes a gift in a job, by the tests' own reading of its path.
func given(j job.Job, g draft.Gift) job.Job {
	j = j.Clone()
	if j.Style == nil {
		j.Style = garment.Style{}
	}
	if j.Rules.Job == nil {
		j.Rules.Job = rules.Values{}
	}
	switch what, id, _ := strings.Cut(g.Path, "."); what {
	case "cloth":
		j.Cloth[0].Fold = job.Fold(g.To)
	case "style":
		j.Style[id] = g.To
	case "rules":
		j.Rules.Job[rules.ID(id)] = g.To
	}
	return j
}

// lays lays what is advised on afresh in so many steps, with gifts made; nothing when
// it cannot be.
type lays func(gifts []draft.Gift, work int) *draft.Laid

// oneAfresh is that of one job.
func oneAfresh(t *testing.T, j job.Job, seed uint64) lays {
	return func(gifts []draft.Gift, work int) *draft.Laid {
		with := j
		for _, g := range gifts {
			with = given(with, g)
		}
		return laidAfresh(t, madeOf(t, with), seed, work)
	}
}

// togetherAfresh is that of garments that are laid together on the cloths of a job.
func togetherAfresh(t *testing.T, on job.Job, parts []draft.Part, seed uint64) lays {
	return func(gifts []draft.Gift, work int) *draft.Laid {
		cloths, with := on, slices.Clone(parts)
		for _, g := range gifts {
			if len(g.Of) == 0 {
				cloths = given(cloths, g)
			}
			for _, i := range g.Of {
				with[i].Result = madeOf(t, given(with[i].Job, g))
			}
		}
		return laidAfresh(t, draft.Join(cloths, with, nil), seed, work)
	}
}

// shortCloths are jobs that do not fit as they stand.
func shortCloths(t *testing.T) map[string]job.Job {
	t.Helper()
	hard := onCloth(t, "45 in", "2 1/4 yd", job.Lengthwise)
	hard.Cloth[0].OneWay = true
	cm := onCloth(t, "150 cm", "1.3 m", job.Lengthwise)
	cm.Units.System, cm.Rules.House = 1, nil
	little := onCloth(t, "60 in", "1 3/8 yd", job.Lengthwise)
	if testing.Short() {
		return map[string]job.Job{"a little short": little}
	}
	return map[string]job.Job{
		"a little short": little,
		"narrow, nap":    hard,
		"in centimetres": cm,
		"too narrow":     onCloth(t, "36 in", "2 1/2 yd", job.Lengthwise),
		"open":           onCloth(t, "54 in", "1 3/4 yd", job.Open),
	}
}

// Cloth that is short is advised on: what is told of each gift, and of them
// together, is so.
func TestAdviceOnShortCloth(t *testing.T) {
	for name, j := range shortCloths(t) {
		seed := uint64(len(name)) % 2
		opt := draft.Advising{Seed: seed, Work: someWork}
		a := advise(t, j, opt)
		t.Run(name+", what each saves", func(t *testing.T) { savesWhatItSays(t, a, opt, oneAfresh(t, j, seed)) })
		t.Run(name+", no gift too many", func(t *testing.T) { sparesNothing(t, a, opt, oneAfresh(t, j, seed)) })
	}
}

// What a gift is said to save is what the changed job saves when it is laid
// afresh, with the same seed and work; of a longer search, as the advice was asked for
// with opt, by that.
func savesWhatItSays(t *testing.T, a *draft.Advice, opt draft.Advising, afresh lays) {
	t.Helper()
	if a.Base.Fits() || len(a.Each) == 0 {
		t.Fatal("fits as it stands, or has nothing to give")
	}
	bases := map[int]*draft.Laid{opt.Work: afresh(nil, opt.Work)}
	if opt.Longer > 0 {
		bases[opt.Longer] = afresh(nil, opt.Longer)
	}
	for _, try := range append(a.Each, a.Together) {
		work := opt.Work
		if try.Longer {
			work = opt.Longer
		}
		base, l := bases[work], afresh(try.Gifts, work)
		if (l == nil) != (try.Laid == nil) {
			t.Fatalf("%q: laid afresh %t, as advised %t", paths(try), l != nil, try.Laid != nil)
		}
		if l == nil {
			continue
		}
		if l.Length != try.Laid.Length || l.Fits != try.Fits() {
			t.Errorf("%q: takes %.3f mm laid afresh, %.3f as advised", paths(try), l.Length.MM(), try.Laid.Length.MM())
		}
		if saved := try.Saves; base != nil && math.Abs((saved-(base.Length-l.Length)).MM()) > 1e-6 {
			t.Errorf("%q: saves %.3f mm laid afresh, %.3f as advised", paths(try), (base.Length - l.Length).MM(), saved.MM())
		}
		if short := a.Base.ShortBy() - try.Saves; base != nil && !try.Fits() && math.Abs((try.ShortBy()-short).MM()) > 1e-6 {
			t.Errorf("%q: short by %.3f mm, %.3f less what it saves", paths(try), try.ShortBy().MM(), a.Base.ShortBy().MM())
		}
	}
	if !slices.IsSortedFunc(a.Each, func(x, y draft.Try) int { return x.Harm() - y.Harm() }) {
		t.Error("not in the order of harm")
	}
}

// The gifts together are enough, and none of them is too many: without any one
// the same search does not make it fit. No gift alone that fits does less harm.
func sparesNothing(t *testing.T, a *draft.Advice, opt draft.Advising, afresh lays) {
	t.Helper()
	if !a.Together.Fits() {
		t.Fatalf("nothing makes it fit, still short by %.0f mm", a.Together.ShortBy().MM())
	}
	gifts := a.Together.Gifts
	for i := range gifts {
		less := slices.Delete(slices.Clone(gifts), i, i+1)
		if l := afresh(less, opt.Work); l != nil && l.Fits {
			t.Errorf("fits without %s", gifts[i].Path)
		}
	}
	for _, try := range a.Each {
		if try.Fits() && try.Harm() < a.Together.Harm() {
			t.Errorf("%q alone does less harm than %q", paths(try), paths(a.Together))
		}
	}
	t.Logf("%q", paths(a.Together))
}

func paths(t draft.Try) []string {
	var out []string
	for _, g := range t.Gifts {
		out = append(out, g.Path+"="+g.To)
	}
	return out
}

// A job that fits is asked for nothing, nor is one that comes off the bolt.
func TestFittingJobGivesNothing(t *testing.T) {
	for _, long := range []string{"3 yd", ""} {
		a := advise(t, onCloth(t, "60 in", long, job.Lengthwise), draft.Advising{})
		if !a.Base.Fits() || len(a.Each) > 0 || len(a.Together.Gifts) > 0 {
			t.Errorf("on %q: fits %t, %d gifts", long, a.Base.Fits(), len(a.Each))
		}
	}
}

// Where nothing is enough, the advice is what takes least cloth, and says how
// much is wanting.
func TestNothingFits(t *testing.T) {
	natively(t)
	a := advise(t, onCloth(t, "60 in", "1/2 yd", job.Lengthwise), draft.Advising{Work: 10})
	best := a.Together
	if best.Fits() || best.Laid.ShortBy <= 0 || best.Saves <= 0 || best.Saves != a.Base.Laid.ShortBy-best.Laid.ShortBy {
		t.Errorf("short by %.0f mm, saves %.0f of %.0f", best.Laid.ShortBy.MM(), best.Saves.MM(), a.Base.Laid.ShortBy.MM())
	}
	for _, try := range a.Each {
		if try.Laid != nil && try.Saves > best.Saves {
			t.Errorf("%q alone saves %.0f mm, all together %.0f", paths(try), try.Saves.MM(), best.Saves.MM())
		}
	}
}

// What other cloth must give for a gift is laid too: pocketing that has no room
// for the hidden pieces is not asked for them.
func TestOtherClothMustGiveToo(t *testing.T) {
	natively(t)
	const hidden = "rules.hidden_lining"
	offered := func(long string) bool {
		j := onCloth(t, "60 in", "1 1/2 yd", job.Lengthwise)
		j.Cloth[1].Length = length(t, long)
		a := advise(t, j, draft.Advising{})
		return slices.ContainsFunc(a.Each, func(t draft.Try) bool { return t.Gifts[0].Path == hidden })
	}
	if !offered("1 yd") {
		t.Error("a yard of pocketing has room for the hidden pieces")
	}
	if offered("10 1/2 in") {
		t.Error("10½ in of pocketing hold the bags alone")
	}
}

// The same is advised twice; stopped, it is as far as it came.
func TestAdviceIsRepeatableAndStops(t *testing.T) {
	natively(t)
	j := onCloth(t, "60 in", "1 1/2 yd", job.Lengthwise)
	var told []string
	a := advise(t, j, draft.Advising{Work: 10, Tried: func(t draft.Try) { told = append(told, paths(t)[0]) }})
	b := advise(t, j, draft.Advising{Work: 10})
	if len(told) != len(a.Each) || len(a.Each) != len(b.Each) || !slices.Equal(paths(a.Together), paths(b.Together)) {
		t.Fatalf("%d told, %d and %d gifts, %q and %q", len(told), len(a.Each), len(b.Each), paths(a.Together), paths(b.Together))
	}
	for i, try := range a.Each {
		if told[i] != paths(try)[0] || try.Saves != b.Each[i].Saves {
			t.Errorf("%q: told as %s, saves %v and %v", paths(try), told[i], try.Saves, b.Each[i].Saves)
		}
	}
	for _, most := range []int{0, 1, 5} {
		n := 0
		s := advise(t, j, draft.Advising{Work: 10, Tried: func(draft.Try) { n++ }, Stop: func() bool { return n >= most }})
		if !s.Stopped || len(s.Each) != most {
			t.Errorf("stopped at %d: %t, %d gifts", most, s.Stopped, len(s.Each))
		}
		for i, try := range s.Each {
			if try.Saves != a.Each[i].Saves {
				t.Errorf("stopped at %d: %q saves %v, else %v", most, paths(try), try.Saves, a.Each[i].Saves)
			}
		}
	}
}

// What is advised on two yards, in the figures of the job. The costs come from the
// changed draft: a narrower band narrows the opening, a tapered leg the hem.
func TestAdviceIsToldInFigures(t *testing.T) {
	natively(t)
	a := advise(t, onCloth(t, "45 in", "2 yd", job.Lengthwise), draft.Advising{})
	at := func(path string) draft.Try {
		i := slices.IndexFunc(a.Each, func(t draft.Try) bool { return t.Gifts[0].Path == path })
		if i < 0 {
			t.Fatalf("no %s among the gifts", path)
		}
		return a.Each[i]
	}
	for path, want := range map[string]string{
		"rules.waistband_width": "stepping in: 49½ in, before 50½ in",
		"rules.seat_tilt":       "hip girth: 43½ in, as before",
		"style.leg":             "hem girth: ",
		"rules.hidden_lining":   "cut from the lining: Fly facing, Fly shield, Pocket mouth facing",
	} {
		if try := at(path); !slices.ContainsFunc(try.Costs, func(c string) bool { return strings.HasPrefix(c, want) }) {
			t.Errorf("%s costs %q, want %q", path, try.Costs, want)
		}
	}
	for path, want := range map[string]string{
		"rules.back_piecing":      "Let a piece in at the back fork, 1 in from the tip",
		"rules.waistband_width":   "Make the band 1½ in wide, not 2 in",
		"rules.centre_back_inlay": "Leave an inlay of ½ in at the centre back, not 1 in",
		"style.leg":               "Taper the leg",
	} {
		if got := at(path).Gifts[0].Say; got != want {
			t.Errorf("%s: %q, want %q", path, got, want)
		}
	}
	saysWhatHelps(t, a)
}

// saysWhatHelps: what saves less than chance may is not said to help.
func saysWhatHelps(t *testing.T, a *draft.Advice) {
	t.Helper()
	for _, try := range a.Each {
		if want := try.Fits() || try.Laid != nil && try.Saves >= unit.Inch/4; try.Helps != want {
			t.Errorf("%q: saves %.2f in, said to help %t", paths(try), try.Saves.In(), try.Helps)
		}
	}
}

// A seat that leans less is told with the hip that is lost, where the truing of the
// hip does not give it back, and with it most of the cloth.
func TestSeatTiltTellsTheLostHip(t *testing.T) {
	natively(t)
	j := onCloth(t, "45 in", "2 yd", job.Lengthwise)
	j.Untrued = []string{"hip"}
	a := advise(t, j, draft.Advising{Work: 1})
	i := slices.IndexFunc(a.Each, func(t draft.Try) bool { return t.Gifts[0].Path == "rules.seat_tilt" })
	if i < 0 {
		t.Fatal("no seat tilt among the gifts")
	}
	if try := a.Each[i]; !slices.ContainsFunc(try.Costs, func(c string) bool { return strings.HasPrefix(c, "hip girth: ") && strings.Contains(c, ", before ") }) {
		t.Errorf("costs %q", try.Costs)
	}
	saysWhatHelps(t, a)
}

func TestAdviceIsSaidInTheLanguage(t *testing.T) {
	natively(t)
	m := draft.Maker{Words: wordstest.Marked(t)}
	r, err := m.Make(onCloth(t, "45 in", "1 3/4 yd", job.Lengthwise))
	if err != nil {
		t.Fatal(err)
	}
	a, err := m.Advise(r, 0, draft.Advising{Work: 1})
	if err != nil {
		t.Fatal(err)
	}
	for _, try := range append(a.Each, a.Together) {
		for _, said := range append(slices.Clone(try.Costs), try.Gifts[0].Say) {
			if rest := wordstest.Bare(said); rest != "" {
				t.Errorf("%q is not looked up in %q", rest, said)
			}
		}
	}
}
