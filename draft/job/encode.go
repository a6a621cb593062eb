package job

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"maps"
	"slices"
	"strconv"

	"chalkfold/draft/body"
	"chalkfold/draft/piece"
	"chalkfold/draft/rules"
	"chalkfold/draft/unit"
)

// Encode writes the job in its one canonical form: keys in a fixed order, two
// blanks for each level, what is empty left out. The error is a *Bad when the
// job could not be read back, or what w says.
func (j Job) Encode(w io.Writer) error {
	e := &encoder{}
	e.job(j)
	e.buf.WriteByte('\n')
	if _, err := Decode(bytes.NewReader(e.buf.Bytes())); err != nil {
		return err
	}
	if _, err := w.Write(e.buf.Bytes()); err != nil {
		return fmt.Errorf("write job: %w", err)
	}
	return nil
}

// encoder writes JSON with the keys in the order given.
type encoder struct {
	buf   bytes.Buffer
	depth int
	some  bool // something stands before in this object or list
}

func (e *encoder) open(bracket byte) {
	e.buf.WriteByte(bracket)
	e.depth++
	e.some = false
}

func (e *encoder) shut(bracket byte) {
	e.depth--
	if e.some {
		e.line()
	}
	e.buf.WriteByte(bracket)
	e.some = true
}

func (e *encoder) line() {
	e.buf.WriteByte('\n')
	for range e.depth {
		e.buf.WriteString("  ")
	}
}

// next begins a new entry.
func (e *encoder) next() {
	if e.some {
		e.buf.WriteByte(',')
	}
	e.line()
	e.some = true
}

func (e *encoder) key(k string) {
	e.next()
	e.str(k)
	e.buf.WriteString(": ")
}

func (e *encoder) str(s string) {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	_ = enc.Encode(s) // a text always can be
	e.buf.Write(bytes.TrimSuffix(b.Bytes(), []byte("\n")))
}

// text writes a key with a text, unless that is empty.
func (e *encoder) text(k, v string) {
	if v != "" {
		e.key(k)
		e.str(v)
	}
}

func (e *encoder) length(k string, q unit.Quantity) { e.text(k, q.String()) }

func (e *encoder) job(j Job) {
	e.open('{')
	e.key("chalkfold")
	e.buf.WriteString(strconv.Itoa(Version))
	e.text("name", j.Name)
	e.key("garment")
	e.str(j.Garment)
	e.text("figure", string(j.Figure))
	e.units(j.Units)
	e.takings(j.Measurements)
	e.text("method", or(string(j.Method), string(Quarter)))
	e.text("drafting", or(string(j.Drafting), string(Trued)))
	if len(j.Untrued) > 0 {
		e.key("untrued")
		e.open('[')
		for _, t := range j.Untrued {
			e.next()
			e.str(t)
		}
		e.shut(']')
	}
	e.pairs("style", j.Style)
	e.rules(j.Rules)
	e.cloths(j.Cloth)
	e.shut('}')
}

func or(v, otherwise string) string {
	if v == "" {
		return otherwise
	}
	return v
}

func (e *encoder) units(u Units) {
	e.key("units")
	e.open('{')
	e.text("system", u.System.String())
	if u.Fraction != 0 {
		e.key("fraction")
		e.buf.WriteString(strconv.Itoa(u.Fraction))
	}
	e.shut('}')
}

// takings are written in the order in which they are best taken; a name that
// is not known goes last, to be refused.
func (e *encoder) takings(t body.Takings) {
	ids := make([]body.ID, 0, len(t))
	for _, d := range body.Defs() {
		if t[d.ID].Value.Set() {
			ids = append(ids, d.ID)
		}
	}
	for _, id := range slices.Sorted(maps.Keys(t)) {
		if t[id].Value.Set() && !slices.Contains(ids, id) {
			ids = append(ids, id)
		}
	}
	if len(ids) == 0 {
		return
	}
	e.key("measurements")
	e.open('{')
	for _, id := range ids {
		got := t[id]
		if got.Of == body.OfBody {
			e.length(string(id), got.Value)
			continue
		}
		e.key(string(id))
		e.open('{')
		e.length("value", got.Value)
		e.text("of", got.Of.String())
		e.shut('}')
	}
	e.shut('}')
}

func (e *encoder) pairs(k string, m map[string]string) {
	if len(m) == 0 {
		return
	}
	e.key(k)
	e.open('{')
	for _, name := range slices.Sorted(maps.Keys(m)) {
		e.key(name)
		e.str(m[name])
	}
	e.shut('}')
}

func (e *encoder) rules(r Rules) {
	if len(r.House)+len(r.Client)+len(r.Job) == 0 {
		return
	}
	e.key("rules")
	e.open('{')
	for _, l := range []struct {
		level  rules.Level
		values rules.Values
	}{{rules.House, r.House}, {rules.Client, r.Client}, {rules.Job, r.Job}} {
		m := make(map[string]string, len(l.values))
		for id, v := range l.values {
			m[string(id)] = v
		}
		e.pairs(l.level.String(), m)
	}
	e.shut('}')
}

func (e *encoder) cloths(cloths []Cloth) {
	if len(cloths) == 0 {
		return
	}
	e.key("cloth")
	e.open('[')
	for _, c := range cloths {
		e.next()
		e.open('{')
		e.text("name", c.Name)
		e.text("kind", or(string(c.Kind), string(piece.Main)))
		e.length("width", c.Width)
		e.length("length", c.Length)
		e.text("fold", or(string(c.Fold), string(Open)))
		if c.OneWay {
			e.key("one_way")
			e.buf.WriteString("true")
		}
		e.length("margin", c.Margin)
		e.length("gap", c.Gap)
		e.shut('}')
	}
	e.shut(']')
}
