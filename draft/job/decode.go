package job

import (
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"chalkfold/draft/body"
	"chalkfold/draft/plain"
	"chalkfold/draft/rules"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// Decode reads one job, the whole of r. The error is a *Bad.
func Decode(r io.Reader) (Job, error) {
	d := &decoder{}
	n := d.readTree(r)
	if d.fatal || n == nil {
		return Job{}, &Bad{d.problems}
	}
	j := d.job(n)
	if len(d.problems) > 0 {
		return Job{}, &Bad{d.problems}
	}
	return j, nil
}

// decoder gathers the problems of one file.
type decoder struct {
	problems []*Problem
	fatal    bool // no use reading on
}

func (d *decoder) fail(path, value string, why say.Msg) {
	d.problems = append(d.problems, &Problem{Path: path, Value: value, Why: why})
}

func (d *decoder) stop(path string, why say.Msg) {
	d.fail(path, "", why)
	d.fatal = true
}

// keys are the keys of a job, in the order in which they are written.
func keys() []string {
	return []string{
		"chalkfold", "name", "garment", "figure", "units", "measurements",
		"method", "drafting", "untrued", "style", "rules", "alterations", "cloth",
	}
}

func (d *decoder) job(n *node) Job {
	if !d.is(n, "", plain.Object) || !d.version(n) {
		return Job{}
	}
	d.known(n, "", keys())
	var j Job
	j.Name = d.text(n, "name", "name")
	j.Garment = d.text(n, "garment", "garment")
	if v, given := n.at["garment"]; !given || v != nil && v.kind == plain.Text && v.text == "" {
		d.fail("garment", "", say.Of(`missing; write what is being made, such as "trousers"`))
	}
	j.Figure = body.Figure(d.choice(n, "figure", "figure", string(body.Unknown), string(body.Women), string(body.Men)))
	j.Units = d.units(n.at["units"])
	j.Measurements = d.takings(n.at["measurements"])
	j.Method = Method(d.choice(n, "method", "method", string(Quarter), string(Balanced)))
	j.Drafting = Drafting(d.choice(n, "drafting", "drafting", string(Trued), string(Spoken)))
	j.Untrued = d.texts(n.at["untrued"], "untrued")
	j.Style = d.pairs(n.at["style"], "style")
	j.Rules = d.rules(n.at["rules"])
	j.Alterations = d.alterations(n)
	j.Cloth = d.cloths(n.at["cloth"])
	return j
}

// version refuses what this program cannot know how to read.
func (d *decoder) version(n *node) bool {
	const path = "chalkfold"
	v, given := n.at[path]
	if !given {
		d.fail(path, "", say.Of(`missing; a job file begins with "chalkfold": %d`, Version))
		return false
	}
	if !d.is(v, path, plain.Number) {
		return false
	}
	i, err := strconv.Atoi(v.text)
	switch {
	case err != nil || i < 1:
		d.fail(path, v.text, say.Of("no version of a job file; write %d", Version))
	case i > Version:
		d.fail(path, v.text, say.Of("written by a newer Chalkfold; this one reads up to version %d, so bring it up to date", Version))
	default:
		return true
	}
	return false
}

// is tells whether n is of a kind, and says so when it is not. A nil node has
// been reported already.
func (d *decoder) is(n *node, path string, k plain.Kind) bool {
	if n == nil {
		return false
	}
	if n.kind != k {
		d.fail(path, n.shown(), say.Of("must be %s, not %s", say.Name(k.String()), say.Name(n.kind.String())))
		return false
	}
	return true
}

// known refuses the keys of n that are not listed.
func (d *decoder) known(n *node, path string, keys []string) {
	for _, k := range n.keys {
		if !slices.Contains(keys, k) {
			d.fail(join(path, k), "", say.Of("no such key; take it out, or write one of %s", strings.Join(keys, ", ")))
		}
	}
}

func (d *decoder) text(n *node, key, path string) string {
	v, given := n.at[key]
	if !given || !d.is(v, path, plain.Text) {
		return ""
	}
	return v.text
}

// choice reads one of the given texts; the first is taken when none is given.
func (d *decoder) choice(n *node, key, path string, from ...string) string {
	v, given := n.at[key]
	if !given || !d.is(v, path, plain.Text) {
		return from[0]
	}
	if slices.Contains(from, v.text) {
		return v.text
	}
	quoted := make([]string, len(from))
	for i, f := range from {
		quoted[i] = strconv.Quote(f)
	}
	d.fail(path, clip(v.text), say.Of("not known; write %s", say.Either(quoted...)))
	return from[0]
}

func (d *decoder) units(n *node) Units {
	var u Units
	if n == nil || !d.is(n, "units", plain.Object) {
		return u
	}
	d.known(n, "units", []string{"system", "fraction"})
	if d.choice(n, "system", "units.system", unit.Inches.String(), unit.Centimetres.String()) == unit.Centimetres.String() {
		u.System = unit.Centimetres
	}
	if f, given := n.at["fraction"]; given && d.is(f, "units.fraction", plain.Number) {
		switch f.text {
		case "4", "8", "16":
			u.Fraction, _ = strconv.Atoi(f.text)
		default:
			d.fail("units.fraction", f.text, say.Of("not known; write 4, 8 or 16"))
		}
	}
	return u
}

func (d *decoder) takings(n *node) body.Takings {
	if n == nil || !d.is(n, "measurements", plain.Object) || len(n.keys) == 0 {
		return nil
	}
	out := body.Takings{}
	for _, k := range n.keys {
		path := join("measurements", k)
		if _, ok := body.Find(body.ID(k)); !ok {
			d.fail(path, n.at[k].shownOr(), say.Of("no such measurement; take it out, or write one of %s", nearest(k)))
			continue
		}
		if t, ok := d.taking(n.at[k], path); ok {
			out[body.ID(k)] = t
		}
	}
	return out
}

// taking reads "42 in" or {"value": "42 in", "of": "garment"}.
func (d *decoder) taking(n *node, path string) (body.Taking, bool) {
	var t body.Taking
	var ok bool
	switch {
	case n == nil:
		return t, false
	case n.kind != plain.Object:
		t.Value, ok = d.quantity(n, path)
		return t, ok
	}
	d.known(n, path, []string{"value", "of"})
	if d.choice(n, "of", path+".of", body.OfBody.String(), body.OfGarment.String()) == body.OfGarment.String() {
		t.Of = body.OfGarment
	}
	v, given := n.at["value"]
	if !given {
		d.fail(path+".value", "", say.Of("missing; write a length such as 42 in"))
		return t, false
	}
	t.Value, ok = d.quantity(v, path+".value")
	return t, ok
}

// quantity reads a length that names its unit, nought or more.
func (d *decoder) quantity(n *node, path string) (unit.Quantity, bool) {
	if n != nil && n.kind == plain.Number {
		d.fail(path, n.shown(), say.Of(`no unit; write it as a text with its unit, such as "%s in"`, clip(n.text)))
		return unit.Quantity{}, false
	}
	if n == nil || !d.is(n, path, plain.Text) {
		return unit.Quantity{}, false
	}
	q, why := length(n.text)
	if !why.None() {
		d.fail(path, clip(n.text), why)
		return unit.Quantity{}, false
	}
	return q, true
}

func (d *decoder) texts(n *node, path string) []string {
	if n == nil || !d.is(n, path, plain.List) {
		return nil
	}
	var out []string
	for i, v := range n.list {
		at := fmt.Sprintf("%s[%d]", path, i)
		if !d.is(v, at, plain.Text) {
			continue
		}
		if slices.Contains(out, v.text) {
			d.fail(at, clip(v.text), say.Of("given twice; keep one"))
			continue
		}
		out = append(out, v.text)
	}
	return out
}

// pairs reads an object of texts; nil when it is empty.
func (d *decoder) pairs(n *node, path string) map[string]string {
	if n == nil || !d.is(n, path, plain.Object) || len(n.keys) == 0 {
		return nil
	}
	out := make(map[string]string, len(n.keys))
	for _, k := range n.keys {
		v, at := n.at[k], join(path, k)
		if v != nil && (v.kind == plain.Number || v.kind == plain.Truth) {
			d.fail(at, v.shown(), say.Of(`must be a text; write it as "%s"`, clip(v.text)))
			continue
		}
		if d.is(v, at, plain.Text) {
			out[k] = v.text
		}
	}
	return out
}

func (d *decoder) rules(n *node) Rules {
	var r Rules
	if n == nil || !d.is(n, "rules", plain.Object) {
		return r
	}
	levels := []struct {
		level rules.Level
		into  *rules.Values
	}{{rules.House, &r.House}, {rules.Client, &r.Client}, {rules.Job, &r.Job}}
	var names []string
	for _, l := range levels {
		name := l.level.String()
		names = append(names, name)
		read := d.pairs(n.at[name], "rules."+name)
		if len(read) == 0 {
			continue
		}
		*l.into = make(rules.Values, len(read))
		for k, v := range read {
			(*l.into)[rules.ID(k)] = v
		}
	}
	d.known(n, "rules", names)
	return r
}
