package engine

import (
	"bytes"
	"errors"
	"math"
	"strings"
	"testing"
	"time"

	"chalkfold/draft"
	"chalkfold/draft/lay"
	"chalkfold/draft/say"
	"chalkfold/draft/sheet"
	"chalkfold/draft/sheet/pdf"
	"chalkfold/draft/sheet/pdf/noto"
	"chalkfold/static/words"
	"chalkfold/testdata/jobs"
)

// sample is a job file, and what is drafted of it.
func sample(t *testing.T) ([]byte, *draft.Result) {
	t.Helper()
	return jobs.File(t, "alto-3.json"), jobs.Made(t, "alto-3.json")
}

// bench is one with a clock that runs a millisecond at each look.
func bench() *Bench {
	now := time.UnixMilli(0)
	return &Bench{
		Now: func() time.Time {
			now = now.Add(time.Millisecond)
			return now
		},
		Font:  func() ([]byte, error) { return noto.Sans(), nil },
		Slice: 10 * time.Millisecond, Rest: func() {},
	}
}

// do does a task and returns all that is told of it, the last apart.
func do(b *Bench, what Do, o Order, stopped func() bool) (before []Answer, last Answer) {
	b.Do(Task{ID: 7, Do: what, Data: o.encode()}, stopped, func(a Answer) { before = append(before, a) })
	return before[:len(before)-1], before[len(before)-1]
}

func never() bool { return false }

// TestBenchLay: what a helper finds is what is found here, its parts are ever
// better lays, and it says that it is alive.
func TestBenchLay(t *testing.T) {
	file, r := sample(t)
	seeds := uint64(2)
	if testing.Short() {
		seeds = 1
	}
	for seed := range seeds {
		want, err := draft.Lay(r, 0, lay.Options{Seed: seed})
		if err != nil {
			t.Fatal(err)
		}
		before, last := do(bench(), Lay, Order{Job: file, Seed: seed}, never)
		got, err := lay.Decode(want.Cloth, want.Items, last.Data)
		if err != nil || last.Is != Done || last.ID != 7 || last.Now != last.Of {
			t.Fatalf("seed %d: %v, %s %d of %d", seed, err, last.Is, last.Now, last.Of)
		}
		if a, _ := got.Encode(want.Items); got.Length != want.Length || got.Work != want.Work || !bytes.Equal(a, last.Data) {
			t.Errorf("seed %d: %v in %d steps, want %v in %d", seed, got.Length, got.Work, want.Length, want.Work)
		}
		var best lay.Result
		parts, signs := 0, 0
		for _, a := range before {
			switch a.Is {
			case Progress:
				signs++
			case Part:
				part, err := lay.Decode(want.Cloth, want.Items, a.Data)
				if err != nil || parts > 0 && !part.Better(best) {
					t.Errorf("seed %d, part %d: %v, %v after %v", seed, parts, err, part.Length, best.Length)
				}
				best = part
				parts++
			default:
				t.Errorf("told %s in between", a.Is)
			}
		}
		// The last lay lies on round figures besides.
		if parts == 0 || signs == 0 || best.Work != got.Work || want.Cloth.Bought(best.Length) != want.Cloth.Bought(got.Length) {
			t.Errorf("seed %d: %d parts, %d signs of life, the last part %v", seed, parts, signs, best.Length)
		}
	}
}

// TestBenchLaysOn: a search goes on from the lay that it is given, and is told
// when that does not hold.
func TestBenchLaysOn(t *testing.T) {
	file, _ := sample(t)
	b := bench()
	_, quick := do(b, Lay, Order{Job: file, Work: 1}, never)
	before, longer := do(b, Lay, Order{Job: file, Seed: 1, Work: 6000, Laid: quick.Data}, never)
	l, err := draft.Spread(b.made, 0)
	if err != nil {
		t.Fatal(err)
	}
	first, err1 := lay.Decode(l.Cloth, l.Items, quick.Data)
	second, err2 := lay.Decode(l.Cloth, l.Items, longer.Data)
	if err1 != nil || err2 != nil || longer.Of != 6000 || !second.Better(first) {
		t.Errorf("%v after %v, in %d steps; %v, %v", second.Length, first.Length, longer.Of, err1, err2)
	}
	for _, a := range before {
		if r, err := lay.Decode(l.Cloth, l.Items, a.Data); a.Is == Part && (err != nil || !r.Better(first)) {
			t.Errorf("a part of %v after %v, %v", r.Length, first.Length, err)
		}
	}
	if _, a := do(b, Lay, Order{Job: file, Laid: quick.Data[:40]}, never); a.Is != Fault {
		t.Errorf("%s for half a lay", a.Is)
	}
}

func TestBenchSheets(t *testing.T) {
	file, r := sample(t)
	b := bench()
	found, counted := do(b, Count, Order{Job: file, Paper: "A4"}, never)
	_, printed := do(b, Sheets, Order{Job: file, Paper: "A4"}, never)
	tiled, err := draft.Sheets(r, draft.Paper{Paper: sheet.A4()})
	if err != nil {
		t.Fatal(err)
	}
	var want bytes.Buffer
	if err := pdf.Write(&want, draft.Title(r), tiled.Drawings(), pdf.Options{Font: noto.Sans()}); err != nil {
		t.Fatal(err)
	}
	n := Counted(counted.Data)
	parts, before := 0, math.MaxInt
	for _, a := range found {
		if a.Is != Part {
			continue
		}
		so := Counted(a.Data)
		if so.Sheets < n.Sheets || so.Sheets > before || so.Least != 0 {
			t.Errorf("%+v told after %d sheets, and %+v at the end", so, before, n)
		}
		parts, before = parts+1, so.Sheets
	}
	if parts == 0 {
		t.Error("nothing is told while sheets are saved")
	}
	if n != (Counts{tiled.Sheets, tiled.Bound.Sheets(), 297}) || !bytes.Equal(printed.Data, want.Bytes()) {
		t.Errorf("%+v, want %d sheets; %d bytes, want %d", n, tiled.Sheets, len(printed.Data), want.Len())
	}
	if printed.Now != tiled.Sheets || printed.Of != tiled.Sheets {
		t.Errorf("%d of %d sheets told at the end, want %d", printed.Now, printed.Of, tiled.Sheets)
	}
}

// TestBenchSpeaks: what is drawn is told in the language of the order, and what
// goes wrong too.
func TestBenchSpeaks(t *testing.T) {
	file, _ := sample(t)
	fetched := 0
	b := bench()
	b.Words = func(id string) (*say.Words, error) {
		fetched++
		return words.Of(id)
	}
	fr, err := words.Of("fr")
	if err != nil {
		t.Fatal(err)
	}
	for _, tt := range []struct {
		lang string
		says *say.Words
	}{{"fr", fr}, {"fr", fr}, {"en", nil}, {"", nil}, {"fr", fr}} {
		_, last := do(b, Pieces, Order{Job: file, Lang: tt.lang}, never)
		if want := tt.says.T("Waistband"); last.Is != Done || !bytes.Contains(last.Data, []byte(want)) {
			t.Errorf("in %q: %s, and %q does not stand in it", tt.lang, last.Is, want)
		}
	}
	if fetched != 2 {
		t.Errorf("the words were fetched %d times, want twice", fetched)
	}
	_, last := do(b, Pieces, Order{Job: []byte(`{"chalkfold": 1}`), Lang: "fr"}, never)
	if want := fr.T("missing; write what is being made, such as \"trousers\""); last.Is != Fault || !strings.Contains(string(last.Data), want) {
		t.Errorf("%s: %q, want %q", last.Is, last.Data, want)
	}
	b.Words = func(string) (*say.Words, error) { return nil, ErrNoWords }
	do(b, Pieces, Order{Job: file}, never)
	if _, last := do(b, Pieces, Order{Job: file, Lang: "fr"}, never); last.Is != Fault || string(last.Data) != ErrNoWords.Error() {
		t.Errorf("without the words: %s %q", last.Is, last.Data)
	}
}

func TestBenchFaults(t *testing.T) {
	file, _ := sample(t)
	noFont := bench()
	noFont.Font = func() ([]byte, error) { return nil, errors.New("no letters") }
	steps := 0
	tests := []struct {
		name    string
		bench   *Bench
		do      Do
		order   Order
		stopped func() bool
		want    string
	}{
		{"no job", bench(), Lay, Order{Job: []byte("{}")}, never, "chalkfold"},
		{"no such cloth", bench(), Lay, Order{Job: file, Cloth: 9}, never, "cloth"},
		{"no such paper", bench(), Sheets, Order{Job: file, Paper: "A9"}, never, `paper "A9"`},
		{"no letters", noFont, Sheets, Order{Job: file, Paper: "A3"}, never, "no letters"},
		{"no lay", bench(), Diagram, Order{Job: file}, never, "no lay"},
		{"not known", bench(), "sing", Order{Job: file}, never, `task "sing"`},
		{"stopped", bench(), Sheets, Order{Job: file, Paper: "A4"}, func() bool { steps++; return steps > 5 }, "stopped"},
	}
	for _, tt := range tests {
		_, last := do(tt.bench, tt.do, tt.order, tt.stopped)
		if last.Is != Fault || !strings.Contains(string(last.Data), tt.want) {
			t.Errorf("%s: %s %q, want a fault with %q in it", tt.name, last.Is, last.Data, tt.want)
		}
	}
}

// TestOnThisPage: the page does its own work, gives it up, and outlives what
// would end a helper.
func TestOnThisPage(t *testing.T) {
	file, _ := sample(t)
	var got []Answer
	hear := func(a Answer) { got = append(got, a) }
	var later []func()
	async := func(f func()) { later = append(later, f) }
	b := bench()
	w := OnThisPage(b, async, func(f func()) { f() })(hear)
	task := Task{ID: 1, Do: Pieces, Data: Order{Job: file}.encode()}
	w.Post(task)
	later[0]()
	if len(got) < 2 || got[0].Is != Up || got[len(got)-1].Is != Done {
		t.Fatalf("heard %v", got)
	}
	task.ID = 2
	w.Post(task)
	w.Post(Task{ID: 2, Do: Stop})
	later[1]()
	if last := got[len(got)-1]; last.Is != Fault || last.ID != 2 {
		t.Errorf("stopped: heard %s of %d", last.Is, last.ID)
	}
	b.Rest = func() { panic("out of chalk") }
	w.Post(Task{ID: 3, Do: Lay, Data: Order{Job: file}.encode()})
	later[2]()
	if last := got[len(got)-1]; last.Is != Fault || last.ID != 3 || string(last.Data) != "out of chalk" {
		t.Errorf("broken: heard %s of %d, %q", last.Is, last.ID, last.Data)
	}
}

// TestBest: whatever the order in which searches tell, the same lay is left.
func TestBest(t *testing.T) {
	var a, b Best
	if _, _, ok := a.Lay(); ok {
		t.Error("a lay before any was found")
	}
	short, long := lay.Result{Length: 900, Work: 5}, lay.Result{Length: 1000, Work: 3}
	a.Take(2, long)
	a.Take(1, short)
	a.Take(3, short)
	b.Take(3, short)
	b.Take(1, short)
	b.Take(2, long)
	b.Take(1, long) // of a search begun anew
	x, seedX, _ := a.Lay()
	y, seedY, _ := b.Lay()
	if seedX != 1 || seedY != 1 || x.Length != 900 || y.Length != 900 {
		t.Errorf("seeds %d and %d, %v and %v", seedX, seedY, x.Length, y.Length)
	}
}
