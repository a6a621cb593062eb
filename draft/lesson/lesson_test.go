package lesson_test

import (
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"

	"chalkfold/draft"
	"chalkfold/draft/construct"
	"chalkfold/draft/lesson"
	"chalkfold/draft/plain"
	"chalkfold/draft/prove"
	"chalkfold/draft/prove/provetest"
	"chalkfold/draft/unit"
	"chalkfold/testdata/jobs"
)

// tapes are those that makers have.
func tapes() []unit.Format {
	return []unit.Format{{}, {Den: 4}, {Den: 16}, {System: unit.Centimetres}}
}

// drafts are of surveyed bodies (ANSUR II, testdata/body), of every garment, in
// styles that lie apart.
func drafts(t *testing.T) []*draft.Result {
	t.Helper()
	every := 1000
	if testing.Short() {
		every = 3000
	}
	var out []*draft.Result
	var m draft.Maker
	for i, b := range provetest.Bodies(t, every) {
		for _, g := range draft.Garments() {
			styles := prove.StylesOf(g, 24)
			for _, s := range []prove.Style{styles[(2*i)%24], styles[(2*i+11)%24]} {
				r, err := m.Make(s.Job(b))
				if err == nil { // whoever cannot be drafted is no matter here
					out = append(out, r)
				}
			}
		}
	}
	return out
}

// each calls do for every question of the drafts, on every tape, with the sum as
// it is written there.
func each(t *testing.T, do func(l *lesson.Lesson, f unit.Format, i int, q lesson.Question, figures string)) {
	t.Helper()
	asked := 0
	for _, r := range drafts(t) {
		for _, f := range tapes() {
			l := lesson.Of(r.Record, f)
			for i := l.Next(0); i < l.Steps(); i = l.Next(i + 1) {
				q := l.Question(i)
				_, figures := r.Record.Written(q.Step, q.Step.Formula, f)
				do(l, f, i, q, figures)
				asked++
			}
			if n := l.Questions(l.Steps()); n < 15 {
				t.Errorf("%s on a tape of %v: only %d questions", r.Garment.ID, f.Finest(), n)
			}
		}
	}
	if asked < 1000 {
		t.Errorf("only %d questions were asked", asked)
	}
}

func ofTape(f unit.Format, v float64) unit.Length {
	return f.Round(unit.Length(v * f.System.One().MM()))
}

// What the draft has, and what the figures give that the student is shown, is
// right on every tape, as the tape shows it.
func TestRightIsRight(t *testing.T) {
	each(t, func(l *lesson.Lesson, f unit.Format, i int, q lesson.Question, figures string) {
		v, err := reckon(figures)
		if err != nil {
			t.Fatalf("%s: %s: %v", q.Step.Name, figures, err)
		}
		for _, answer := range []unit.Length{f.Round(q.Step.Mm()), ofTape(f, v)} {
			if reply, err := l.Check(i, f.Text(answer)); err != nil || !reply.Right {
				t.Errorf("%s = %s: %s is called wrong (%v)", q.Step.Name, figures, f.Text(answer), err)
			}
		}
	})
}

// Whatever is a step of the tape or more from both is wrong, and what is said of
// it is true: the formula gives the right figure, and the sum that is said to be
// hers gives hers.
func TestWrongIsWrong(t *testing.T) {
	said := map[string]int{}
	each(t, func(l *lesson.Lesson, f unit.Format, i int, q lesson.Question, figures string) {
		right := q.Step.Mm()
		shown, _ := reckon(figures)
		other := unit.Length(shown * f.System.One().MM())
		far := func(a unit.Length) bool {
			return math.Abs((a-right).MM()) >= f.Finest().MM() && math.Abs((a-other).MM()) >= f.Finest().MM()
		}
		for _, a := range []unit.Length{
			right / 2, right * 2, right / 4, right + f.Finest(), right - f.Finest(), right + f.Finest()*3/2, right + unit.Inch, right - unit.Inch/2,
			right * 2.54, right / 2.54, right * 10, right + 3*unit.Inch/4,
		} {
			a = f.Round(a)
			if a <= 0 || !far(a) {
				continue
			}
			reply, err := l.Check(i, f.Text(a))
			if err != nil || reply.Right {
				t.Fatalf("%s = %s is %s: %s is called right (%v)", q.Step.Name, figures, f.Text(right), f.Text(a), err)
			}
			words := strings.Fields(reply.Slip)
			said[strings.Join(words[:min(2, len(words))], " ")]++
			isTrue(t, f, q, reply, a)
		}
	})
	if len(said) < 5 {
		t.Errorf("wrong answers are explained in %d ways alone: %v", len(said), said)
	}
}

// isTrue holds what is said of a wrong answer against sums worked out anew.
func isTrue(t *testing.T, f unit.Format, q lesson.Question, reply lesson.Reply, hers unit.Length) {
	t.Helper()
	sum := reply.Sum
	if sum == "" {
		sum = reply.Rule // figures alone
	}
	v, err := reckon(sum)
	if off := math.Abs(v*f.System.One().MM() - q.Step.Value); err != nil || off >= f.Finest().MM() {
		t.Errorf("%s: the rule %q gives %v, %.2f mm off %s (%v)", q.Step.Name, sum, v, off, f.Text(q.Step.Mm()), err)
	}
	if reply.Slip == "" {
		t.Errorf("%s: nothing is said of %s", q.Step.Name, f.Text(hers))
	}
	if reply.Hers == "" {
		return
	}
	left, value, ok := strings.Cut(reply.Hers, " = ")
	if !ok {
		if left, value, ok = strings.Cut(reply.Hers, " ≈ "); !ok {
			value = left
		}
	}
	a, err := reckon(left)
	b, errB := reckon(value)
	one, step := f.System.One().MM(), f.Finest().MM()
	if err != nil || errB != nil || math.Abs(a-b)*one > step/2+1e-9 || math.Abs(a*one-hers.MM()) >= step {
		t.Errorf("%s: %s is said to come of %q, which gives %v and %v (%v, %v)", q.Step.Name, f.Text(hers), reply.Hers, a, b, err, errB)
	}
}

// alto is the sample: hip 42, waist 34, a plain rule of ease.
func alto(t *testing.T) (*draft.Result, *lesson.Lesson) {
	t.Helper()
	r := jobs.Made(t, "alto-3.json")
	return r, lesson.Of(r.Record, r.Format)
}

func stepOf(t *testing.T, r *construct.Record, name string) int {
	t.Helper()
	for i, s := range r.Steps() {
		if s.Name == name {
			return i
		}
	}
	t.Fatalf("no step %q", name)
	return 0
}

// The slips that a teacher knows, told as she would.
func TestSlipsAreRecognised(t *testing.T) {
	r, l := alto(t)
	for _, tt := range []struct{ step, answer, slip, hers string }{
		{"quarter_hip", "21", "Did you take a half? It is a quarter.", "42 ÷ 2 = 21"},
		{"quarter_hip", "42", "Did you leave out to divide or to multiply? By 4", "42"},
		{"quarter_hip", "26 5/8", "That is the figure in centimetres; this tape is in inches.", ""},
		{"quarter_hip", "12 1/2", "The fraction is right. Count the whole again.", ""},
		{"quarter_hip", "10 3/4", "It is ¼ in too much.", ""},
		{"quarter_hip", "10", "It is ½ in too little.", ""},
	} {
		reply, err := l.Check(stepOf(t, r.Record, tt.step), tt.answer)
		if err != nil || reply.Right || reply.Slip != tt.slip || reply.Hers != tt.hers {
			t.Errorf("%s = %s: %+v (%v), want %q and %q", tt.step, tt.answer, reply, err, tt.slip, tt.hers)
		}
	}
	if reply, _ := l.Check(stepOf(t, r.Record, "quarter_hip"), "26.7 cm"); !reply.Right {
		t.Errorf("the right figure in centimetres, said to be so, is called wrong: %+v", reply)
	}
	if _, err := l.Check(stepOf(t, r.Record, "quarter_hip"), "wide"); err == nil {
		t.Error("a word is taken for an answer")
	}
}

// small is a construction with every kind of sum.
func small(t *testing.T) (*construct.Record, *lesson.Lesson) {
	t.Helper()
	in := func(name, label string, v float64) construct.Quantity {
		return construct.Quantity{Name: name, Label: label, Value: v * 25.4, Length: true, Source: "measured"}
	}
	b := construct.New([]construct.Quantity{
		in("waist_girth", "waist", 30), in("hip_girth", "hip", 40), in("ease", "ease", 2), in("dart", "dart", 1), in("band", "band", 1.5), in("rise", "rise", 11),
		{Name: "parts", Label: "parts", Value: 16},
	}, nil, nil)
	b.Value("hip", "hip of one panel", "(hip_girth + ease)/4", "")
	b.Value("waist", "waist of one panel", "waist_girth/4 + dart", "")
	b.Value("fork", "fork line", "rise - band", "")
	b.Value("reach", "fork", "hip_girth/parts", "")
	b.Value("least", "fly", "least(7 in, hip)", "")
	b.Value("strip", "strip", "5 * dart", "")
	b.Value("same", "the hip again", "hip", "carried on")
	b.Value("root", "a root", "root(hip * hip)", "")
	b.Value("again", "the fork line again", "rise - band", "the same sum")
	rec, err := b.Record()
	if err != nil {
		t.Fatal(err)
	}
	return rec, lesson.Of(rec, unit.Format{})
}

func TestEverySlip(t *testing.T) {
	rec, l := small(t)
	for _, tt := range []struct{ step, answer, slip, hers string }{
		{"hip", "10", "Did you leave this out? ease (2)", "40 ÷ 4 = 10"},
		{"hip", "9½", "Did you take this away? It is added: ease (2)", "(40 − 2) ÷ 4 = 9½"},
		{"hip", "21", "Did you take a half? It is a quarter.", "(40 + 2) ÷ 2 = 21"},
		{"hip", "40½", "Work this out first: hip + ease (40 + 2)", "40 + 2 ÷ 4 = 40½"},
		{"hip", "8", "Did you use the waist? This is for the hip (40).", "(30 + 2) ÷ 4 = 8"},
		{"waist", "7½", "Did you leave this out? dart (1)", "30 ÷ 4 = 7½"},
		{"fork", "11", "Did you leave this out? band (1½)", "11"},
		{"fork", "12½", "Did you add this? It is taken away: band (1½)", "11 + 1½ = 12½"},
		{"reach", "5", "Did you take an eighth? It is a sixteenth.", "40 ÷ 8 = 5"},
		{"least", "10½", "Did you take the wrong one of the two? It is the smaller of 7 and hip of one panel (the smaller of 7 and 10½).", "the larger of 7 and 10½ = 10½"},
		{"strip", "1", "Did you leave out to divide or to multiply? By 5", "1"},
	} {
		reply, err := l.Check(stepOf(t, rec, tt.step), tt.answer)
		if err != nil || reply.Slip != tt.slip || reply.Hers != tt.hers {
			t.Errorf("%s = %s: %+v (%v)\nwant %q and %q", tt.step, tt.answer, reply, err, tt.slip, tt.hers)
		}
	}
	for _, name := range []string{"same", "root", "again"} {
		if l.Asks(stepOf(t, rec, name)) {
			t.Errorf("%s is asked for", name)
		}
	}
	q := l.Question(stepOf(t, rec, "reach"))
	if got := fmt.Sprint(q.Given); got != "[{hip 40 measured} {parts 16 }]" {
		t.Errorf("the fork is asked with %s", got)
	}
}

// A sitting keeps every try, counts none after the right one, and is the same
// when it is read again.
func TestSitting(t *testing.T) {
	rec, l := small(t)
	var s lesson.Sitting
	try := func(name, text string) {
		t.Helper()
		if _, err := s.Try(l, stepOf(t, rec, name), text); err != nil {
			t.Fatal(err)
		}
	}
	s.Student = "Second bench"
	try("hip", "10½")
	try("hip", "11") // too late
	try("waist", "7½")
	try("waist", "8½")
	try("fork", "11")
	s.Show(l, stepOf(t, rec, "fork"))
	try("fork", "9½") // it was shown
	try("reach", "3")
	s.Go(l, stepOf(t, rec, "least"))
	m := s.Marks(nil)
	if got, want := m.Say(nil), "1 of 4 right at once, 1 after more tries, 1 shown."; got != want {
		t.Errorf("marks are %q, want %q", got, want)
	}
	var rows []string
	for _, r := range m.Rows {
		rows = append(rows, r.Sign()+" "+r.Label+": "+r.Hers+" ("+r.Is+"), "+r.Said)
	}
	want := []string{
		"✓ hip of one panel: 10½ (10½), at once", "✓ waist of one panel: 7½; 8½ (8½), 2 tries",
		"✕ fork line: 11 (9½), shown", "✕ fork: 3 (2½), not found yet",
	}
	if !reflect.DeepEqual(rows, want) {
		t.Errorf("rows are\n%s\nwant\n%s", strings.Join(rows, "\n"), strings.Join(want, "\n"))
	}
	w := &plain.Writer{}
	w.Open('{')
	s.Write(w)
	w.Shut('}')
	data, err := w.Done()
	if err != nil {
		t.Fatal(err)
	}
	again, err := lesson.Decode(data)
	if err != nil || !reflect.DeepEqual(again, s) {
		t.Errorf("read again it is %+v (%v), was %+v", again, err, s)
	}
	if got := again.Place(l); got != stepOf(t, rec, "least") {
		t.Errorf("she has come to step %d", got)
	}
	if s.Go(l, l.Steps()); !s.Over {
		t.Error("past the last step it goes on")
	}
}
