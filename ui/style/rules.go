package style

import (
	"slices"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/rules"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
	"chalkfold/ui/kit"
)

// Rule is one house rule as shown.
type Rule struct {
	Def   rules.Def
	Level rules.Level // where its value comes from
	Text  string      // what its field holds
	Value string      // as it counts, with its unit
	Echo  string      // a length in the tape's other unit
	Bad   string      // why it cannot be used
	Moved string      // what the figure makes of it; empty when it is left as it is
}

// Group is the rules that are shown together.
type Group struct {
	Name    string
	Rules   []Rule
	Changed int // how many are not the default
	Bad     int // how many cannot be used
}

// Render returns the group: a line that opens to its rules. before stands before
// the name in the id of the line.
func (g Group) Render(w *say.Words, before, open string, on func(name string), rule func(Rule) app.UI) app.UI {
	aside := ""
	switch {
	case g.Bad > 0:
		aside = w.N(g.Bad, "%d to mend", "%d to mend")
	case g.Changed > 0:
		aside = w.N(g.Changed, "%d changed", "%d changed")
	}
	return kit.Div().Body(
		kit.Disclose(before+g.Name, kit.Sentence(w.T(g.Name)), aside, open == g.Name, func() { on(g.Name) }),
		app.If(open == g.Name, func() app.UI {
			return kit.Div().Class("rows").Body(app.Range(g.Rules).Slice(func(i int) app.UI { return rule(g.Rules[i]) }))
		}),
	)
}

// Groups gathers the rules by group, in the garment's order.
func Groups(all []Rule) []Group {
	var out []Group
	for _, r := range all {
		i := slices.IndexFunc(out, func(g Group) bool { return g.Name == r.Def.Group })
		if i < 0 {
			i = len(out)
			out = append(out, Group{Name: r.Def.Group})
		}
		g := &out[i]
		g.Rules = append(g.Rules, r)
		if r.Level != rules.Built {
			g.Changed++
		}
		if r.Bad != "" {
			g.Bad++
		}
	}
	return out
}

// Echo is a length as written, in the unit that it is not written in: "= 1.3
// cm". It is empty for what is no length.
func Echo(d rules.Def, text string, tape unit.System, w *say.Words) string {
	if d.Kind != rules.Length {
		return ""
	}
	q, err := unit.ParseSigned(text, tape)
	if err != nil {
		return ""
	}
	f := unit.Format{System: unit.Centimetres, Words: w}
	if q.System().Metric() {
		f = unit.Format{System: unit.Inches, Den: 16, Words: w}
	}
	return "= " + f.Text(q.Length())
}
