package draft_test

import (
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"chalkfold/draft"
	"chalkfold/draft/body"
	"chalkfold/draft/chalk"
	"chalkfold/draft/garment"
	"chalkfold/draft/job"
	"chalkfold/draft/lay"
	"chalkfold/draft/say"
	"chalkfold/draft/sheet"
	"chalkfold/draft/unit"
	"chalkfold/static/words/wordstest"
)

// styles are the job as it is, every choice of style in turn, and as spoken.
func styles(j job.Job) []job.Job {
	out := []job.Job{j}
	g, _ := draft.Find(j.Garment)
	for _, o := range g.Options {
		for _, c := range o.Choices {
			one := j.Clone()
			if one.Style == nil {
				one.Style = garment.Style{}
			}
			one.Style[o.ID] = c.ID
			if whole, err := g.Complete(one.Style); err == nil {
				one.Style = g.Together(whole, o.ID)
			}
			out = append(out, one)
		}
	}
	spoken := j.Clone()
	spoken.Drafting = job.Spoken
	var half unit.Quantity
	_ = half.UnmarshalText([]byte("1/8 in"))
	altered := j.Clone() // once in everything
	for i, a := range g.Alterations() {
		if i%2 == 0 {
			altered.Alterations = append(altered.Alterations, job.Alteration{Kind: a.ID, By: half})
		}
	}
	return append(out, spoken, altered)
}

func TestEveryWordIsLookedUp(t *testing.T) {
	natively(t)
	files, err := filepath.Glob("../testdata/jobs/*.json")
	if err != nil || len(files) == 0 {
		t.Fatal(err, files)
	}
	m := draft.Maker{Words: wordstest.Marked(t)}
	for _, file := range files {
		f, err := os.Open(file)
		if err != nil {
			t.Fatal(err)
		}
		j, err := job.Decode(f)
		f.Close()
		if err != nil {
			t.Fatal(err)
		}
		for i, j := range styles(j) {
			r, err := m.Make(j)
			if err != nil {
				t.Errorf("%s: %v", file, err)
				continue
			}
			look := func(where, text string) {
				for _, c := range j.Cloth {
					if c.Name != "" {
						text = strings.ReplaceAll(text, c.Name, "")
					}
				}
				if rest := wordstest.Bare(strings.ReplaceAll(text, j.Name, "")); rest != "" {
					t.Errorf("%s: %s: %q is not looked up in %q", filepath.Base(file), where, rest, text)
				}
			}
			told(r, look)
			if i == 0 {
				drawings(r, look)
			}
			if t.Failed() {
				return
			}
		}
	}
}

// told hands every text that a result tells to look.
func told(r *draft.Result, look func(where, text string)) {
	w, f := r.Format.Words, r.Format
	for _, s := range r.Record.Steps() {
		look("label of "+s.Name, s.Label)
		look("part of "+s.Name, w.T(s.Part))
		look("way of "+s.Name, s.Way)
		look("from of "+s.Name, r.Record.Label(s.From))
		look("why of "+s.Name, s.Why)
		look("sum of "+s.Name, r.Record.SumOf(s, f))
		look("reason of "+s.Name, r.Record.Because(s.Name, f))
		for _, why := range r.Record.Why(s.Name, f) {
			look("why "+s.Name, why.Label+why.Sum+why.Source)
		}
	}
	for _, c := range r.Record.Tell(f) {
		look("change "+c.Step, c.What+c.Why)
	}
	for _, g := range r.Report.Girths {
		look("girth", w.T(g.Name))
	}
	for _, x := range r.Report.Findings {
		look("finding "+x.Check, x.Name+x.Say+x.Mend+x.Figure.Text(f)+x.Want.Text(f)+w.T(x.Level.String()))
	}
	for _, d := range r.Doubts {
		look("doubt", w.Say(d.Text))
	}
	for _, e := range r.Estimates {
		look("estimate", w.T(e.Name)+w.Say(e.How))
	}
	for id, v := range r.Body {
		d, _ := body.Find(id)
		look("measurement", w.T(d.Name)+w.T(d.Definition)+w.T(d.HowTo)+w.Say(v.Given)+w.Say(v.How))
	}
	for _, d := range r.Rules.Defs() {
		look("rule", w.T(d.Name)+w.T(d.Explain)+w.T(d.Group)+w.Say(r.Rules.Told(d.ID))+w.T(r.Rules.Level(d.ID).String()))
	}
	for _, p := range r.Pieces {
		look("piece "+p.ID, w.T(p.Name)+p.Note)
	}
	for _, s := range draft.Chalk(r) {
		look("section "+s.Piece, s.Title+s.Note)
		for _, m := range s.Marks {
			marks(m, w, look)
		}
	}
}

// drawings hands every text in what can be drawn of a result to look.
func drawings(r *draft.Result, look func(where, text string)) {
	w, f := r.Format.Words, r.Format
	drawn(sheet.Draft(r.Pieces, sheet.Options{Job: r.Job.Name, Words: w}), look)
	if tiled, err := draft.Sheets(r, draft.Paper{Paper: sheet.A4(), Work: 1}); err == nil {
		for _, s := range tiled.Pages {
			drawn(s.Sheet, look)
		}
	}
	for i := range r.Job.Cloth {
		laid, err := draft.Lay(r, i, lay.Options{Work: 1})
		if err != nil {
			look("lay", named.ReplaceAllString(w.Err(err), ""))
			continue
		}
		drawn(laid.Drawing(f, sheet.Options{Job: r.Job.Name, Words: w}), look)
	}
}

func marks(m chalk.Mark, w *say.Words, look func(where, text string)) {
	look("mark "+m.Step, w.T(m.Kind.String())+m.Name+m.From+m.To+m.Way+m.ThenWay+m.Because+m.CornerAt)
	for _, o := range m.Ordinates {
		look("ordinate "+m.Step, o.Side)
	}
}

func drawn(d sheet.Drawing, look func(where, text string)) {
	for _, it := range d.Items {
		switch it := it.(type) {
		case sheet.Text:
			look("drawing", it.S)
		case sheet.Group:
			look("group "+it.ID, it.Title)
		}
	}
}

// named is what a refusal names of the file: a path, a value.
var named = regexp.MustCompile(`[a-z_]+(\.[a-z_]+|\[\d\])+:|"[^"]*"`)

// What is refused is said too.
func TestRefusalsAreSaid(t *testing.T) {
	w := wordstest.Marked(t)
	for _, tt := range []struct {
		name, file string
		keys       string // of the file, which are named
	}{
		{"a measurement out of bounds", strings.Replace(hip42, "42 in", "4 in", 1), ""},
		{"a measurement that is missing", strings.Replace(hip42, `"hip_girth": "42 in",`, "", 1), ""},
		{"a rule out of range", withKey(`"rules": {"house": {"hem_allowance": "9 in"}}`), ""},
		{"a style that is not known", withKey(`"style": {"leg": "balloon"}`), "straight, tapered, free, flared, wide"},
		{"a truing that is not known", withKey(`"untrued": ["seams"]`), "level, ease, dart, reach, thigh, tilt, hip, leg, waist, side, inseam, fork"},
		{"no leg to draw", strings.Replace(hip42, "40 in", "14 in", 1), ""},
	} {
		j := read(t, tt.file)
		_, err := (&draft.Maker{Words: w}).Make(j)
		if err == nil {
			t.Errorf("%s: drafted", tt.name)
			continue
		}
		text := strings.ReplaceAll(named.ReplaceAllString(w.Err(err), ""), tt.keys, "")
		if rest := wordstest.Bare(text); rest != "" {
			t.Errorf("%s: %q is not looked up in %q", tt.name, rest, w.Err(err))
		}
	}
}

func withKey(key string) string { return strings.TrimSuffix(hip42, "}") + ", " + key + "}" }

// The draft itself does not depend on the language.
func TestSameDraftInEveryLanguage(t *testing.T) {
	natively(t)
	j := read(t, hip42)
	english, err := draft.Make(j)
	if err != nil {
		t.Fatal(err)
	}
	said, err := (&draft.Maker{Words: wordstest.Marked(t)}).Make(j)
	if err != nil {
		t.Fatal(err)
	}
	if !maps.EqualFunc(steps(english), steps(said), func(a, b float64) bool { return a == b }) {
		t.Error("the sums differ")
	}
	for i, f := range said.Report.Findings {
		if e := english.Report.Findings[i]; e.Check != f.Check || e.Figure != f.Figure || e.Level != f.Level {
			t.Errorf("%s: %v, in English %s: %v", f.Check, f.Figure, e.Check, e.Figure)
		}
	}
}

func steps(r *draft.Result) map[string]float64 {
	out := map[string]float64{}
	for _, s := range r.Record.Steps() {
		out[s.Name] = s.Value
	}
	return out
}
