package drafting

import (
	"os"
	"strings"
	"testing"

	"chalkfold/draft"
	"chalkfold/draft/job"
	"chalkfold/draft/proof"
	"chalkfold/draft/unit"
	"chalkfold/ui/kit"
)

func made(t testing.TB, name string) *draft.Result {
	t.Helper()
	f, err := os.Open("../../testdata/jobs/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	j, err := job.Decode(f)
	if err != nil {
		t.Fatal(err)
	}
	r, err := draft.Make(j)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func TestFigures(t *testing.T) {
	inches, cm := unit.Format{}, unit.Format{System: unit.Centimetres}
	mm := func(v float64) proof.Figure { return proof.Figure{V: v} }
	at := func(v float64) *proof.Figure { return &proof.Figure{V: v} }
	tests := []struct {
		name string
		f    proof.Finding
		in   unit.Format
		want string
	}{
		{"short of it", proof.Finding{Figure: mm(1050.9), Want: mm(1104.9), Tolerance: mm(3)}, inches, "41⅜ in, wanted 43½ in; may be off by ⅛ in"},
		{"in centimetres", proof.Finding{Figure: mm(1050.9), Want: mm(1104.9), Tolerance: mm(3)}, cm, "105.1 cm, wanted 110.5 cm; may be off by 3 mm"},
		{"as it should be", proof.Finding{Figure: mm(0), Want: mm(0), Tolerance: mm(1.5)}, inches, "0 in; may be off by 1/16 in"},
		{"nearer than the tape shows", proof.Finding{Figure: mm(0.9), Want: mm(0), Tolerance: mm(0.5)}, inches, "1/32 in, wanted 0 in; may be off by 0.5 mm"},
		{"degrees", proof.Finding{Figure: proof.Figure{V: 86.04, Degrees: true}, Want: proof.Figure{V: 90, Degrees: true}, Tolerance: proof.Figure{V: 3, Degrees: true}}, inches, "86.0°, wanted 90.0°; may be off by 3°"},
		{"at least", proof.Finding{Figure: mm(152.4), Want: mm(146.05), Least: at(146.05)}, inches, "6 in; at least 5¾ in"},
		{"at most", proof.Finding{Figure: mm(152.4), Want: mm(146.05), Most: at(146.05)}, inches, "6 in; at most 5¾ in"},
		{"between", proof.Finding{Figure: mm(152.4), Want: mm(127), Least: at(127), Most: at(177.8)}, inches, "6 in; from 5 in to 7 in will do"},
	}
	for _, tt := range tests {
		if got := figures(tt.f, tt.in); got != tt.want {
			t.Errorf("%s: %q, want %q", tt.name, got, tt.want)
		}
	}
}

func TestVerdict(t *testing.T) {
	for name, want := range map[string]struct {
		tone kit.Tone
		text string
	}{
		"alto-3.json":        {kit.Fine, "It can be cut"},
		"alto-3-spoken.json": {kit.Stop, "Do not cut: 2 things to mend"},
	} {
		tone, text := Verdict(Findings(made(t, name)))
		if tone != want.tone || !strings.HasPrefix(text, want.text) {
			t.Errorf("%s: %s %q, want %s %q", name, tone, text, want.tone, want.text)
		}
	}
	if tone, text := Verdict([]Finding{{Tone: kit.Mind}, {Tone: kit.Fine}}); tone != kit.Mind || text != "It can be cut; mind 1 thing" {
		t.Errorf("%s %q", tone, text)
	}
}

// The worst finding comes first, with where it is and what to do.
func TestFindingsOfTheSpokenDraft(t *testing.T) {
	r := made(t, "alto-3-spoken.json")
	all := Findings(r)
	for i, f := range all {
		if (f.Tone == kit.Stop) != (i < 2) {
			t.Errorf("finding %d is %s", i+1, f.Tone)
		}
		if f.Tone != kit.Fine && (f.Mend == "" || f.Say == "" || f.Figures == "") {
			t.Errorf("%s says too little: %+v", f.Check, f)
		}
	}
	if len(Changes(r)) != 0 {
		t.Error("a draft as it is spoken has changes by truing")
	}
}

func TestChangesAndSums(t *testing.T) {
	r := made(t, "alto-3.json")
	var names []string
	for _, c := range Changes(r) {
		names = append(names, c.Name)
		for _, s := range c.Steps {
			if strings.Contains(s, ": 0 in") {
				t.Errorf("%s: %q moves nothing", c.Name, s)
			}
		}
	}
	for _, want := range []string{"hip kept square to the seat line", "sides made equal", "inseams made equal"} {
		if !strings.Contains(strings.Join(names, "|"), want) {
			t.Errorf("%q is not among %q", want, names)
		}
	}
	seen := map[string]bool{}
	part := ""
	for _, s := range Sums(r) {
		if s.Part != part && seen[s.Part] {
			t.Errorf("the sums of %q are not together", s.Part)
		}
		part, seen[s.Part] = s.Part, true
		for _, why := range Reasons(r, s.Step) {
			if why.Label == "" || why.Text == "" || why.Depth < 1 {
				t.Errorf("%s: an empty reason %+v", s.Step, why)
			}
		}
	}
	// Worked by hand: 42 ÷ 4 = 10½.
	if why := Reasons(r, "quarter_hip"); len(why) != 1 || why[0].Text != "42 in, measured" {
		t.Errorf("the hip quarter comes from %+v", why)
	}
}

// What is pointed at is drawn once, on its own piece.
func TestPicture(t *testing.T) {
	r := made(t, "alto-3.json")
	whole := Picture(r.Pieces, Lit{})
	for _, p := range r.Pieces {
		first, _, _ := strings.Cut(p.Name, " ")
		if !strings.Contains(whole, first) {
			t.Errorf("%s has no name in the picture", p.Name)
		}
	}
	if strings.Contains(whole, "spot") || strings.Contains(whole, "lit") || strings.Contains(whole, "NaN") || strings.Contains(whole, "style=") {
		t.Error("a light where nothing is pointed at, a figure that is none, or a style that the page forbids")
	}
	spots := 0
	for _, f := range Findings(r) {
		got := strings.Count(Picture(r.Pieces, f.Lit), `class="spot"`)
		if f.Lit.Panel != "" {
			spots++
			if got != 1 {
				t.Errorf("%s lights %d places on %s", f.Check, got, f.Lit.Panel)
			}
		}
	}
	if spots == 0 {
		t.Error("no finding has a place")
	}
}

func BenchmarkPicture(b *testing.B) {
	r := made(b, "alto-3.json")
	for b.Loop() {
		Picture(r.Pieces, Lit{})
	}
}

func BenchmarkFindings(b *testing.B) {
	r := made(b, "alto-3.json")
	for b.Loop() {
		Findings(r)
	}
}
