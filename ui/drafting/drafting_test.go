package drafting

import (
	"strconv"
	"strings"
	"testing"

	"chalkfold/draft/proof"
	"chalkfold/draft/unit"
	"chalkfold/testdata/jobs"
	"chalkfold/ui/kit"
)

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
		tone, text := Verdict(Findings(jobs.Made(t, name)), nil)
		if tone != want.tone || !strings.HasPrefix(text, want.text) {
			t.Errorf("%s: %s %q, want %s %q", name, tone, text, want.tone, want.text)
		}
	}
	if tone, text := Verdict([]Finding{{Tone: kit.Mind}, {Tone: kit.Fine}}, nil); tone != kit.Mind || text != "It can be cut; mind 1 thing" {
		t.Errorf("%s %q", tone, text)
	}
}

// The worst finding comes first, with where it is and what to do.
func TestFindingsOfTheSpokenDraft(t *testing.T) {
	r := jobs.Made(t, "alto-3-spoken.json")
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
	r := jobs.Made(t, "alto-3.json")
	var names []string
	for _, c := range Changes(r) {
		names = append(names, c.Name)
		for _, s := range c.Steps {
			if strings.Contains(s.Text, ": 0 in") {
				t.Errorf("%s: %q moves nothing", c.Name, s.Text)
			}
			if !r.Record.Has(s.Step) {
				if _, ok := r.Record.Find(s.Step); !ok {
					t.Errorf("%s: no step %q to point at", c.Name, s.Step)
				}
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
	}
}

// What a finding points at is lit once, on its own piece.
func TestPiecesLit(t *testing.T) {
	r := jobs.Made(t, "alto-3.json")
	whole, _ := Pieces(r, "", Lit{})
	for _, bad := range []string{"spot", "lit", "NaN", "style="} {
		if strings.Contains(whole.SVG, bad) {
			t.Errorf("%q in the drawing of the whole", bad)
		}
	}
	for i, p := range r.Pieces {
		if !strings.Contains(whole.SVG, ">"+p.Name+"<") || !strings.Contains(whole.SVG, ">"+strconv.Itoa(i+1)+"<") && !strings.Contains(whole.SVG, `t0" x`) {
			t.Errorf("%s has no name in the drawing", p.Name)
		}
	}
	spots := 0
	for _, f := range Findings(r) {
		s, at := Pieces(r, "", f.Lit)
		if f.Lit.At == nil {
			continue
		}
		spots++
		if got := strings.Count(s.SVG, `class="spot"`); got != 1 {
			t.Errorf("%s lights %d places on %s", f.Check, got, f.Lit.Panel)
		}
		if id := s.Hit(at, 400, ""); id == "" {
			t.Errorf("%s points where nothing is", f.Check)
		}
	}
	if spots == 0 {
		t.Error("no finding has a place")
	}
}

func BenchmarkPieces(b *testing.B) {
	r := jobs.Made(b, "alto-3.json")
	for b.Loop() {
		Pieces(r, "", Lit{})
	}
}

func BenchmarkLines(b *testing.B) {
	r := jobs.Made(b, "alto-3.json")
	for b.Loop() {
		Lines(r.Record, "back", "")
	}
}

func BenchmarkFindings(b *testing.B) {
	r := jobs.Made(b, "alto-3.json")
	for b.Loop() {
		Findings(r)
	}
}
