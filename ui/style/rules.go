package style

import (
	"slices"

	"chalkfold/draft/rules"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// Rule is one house rule as shown.
type Rule struct {
	Def   rules.Def
	Level rules.Level // where its value comes from
	Text  string      // what its field holds
	Value string      // as it counts, with its unit
	Echo  string      // a length in the tape's other unit
	Bad   string      // why it cannot be used
}

// Group is the rules that are shown together.
type Group struct {
	Name    string
	Rules   []Rule
	Changed int // how many are not the default
	Bad     int // how many cannot be used
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
