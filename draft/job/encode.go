package job

import (
	"bytes"
	"fmt"
	"io"
	"maps"
	"slices"

	"chalkfold/draft/body"
	"chalkfold/draft/plain"
	"chalkfold/draft/rules"
	"chalkfold/draft/unit"
)

// Encode writes the job in its one canonical form: keys in a fixed order, two
// blanks for each level, what is empty left out. The error is a *Bad when the
// job could not be read back, or what w says.
func (j Job) Encode(w io.Writer) error {
	text, err := j.Text()
	if err != nil {
		return err
	}
	if _, err := Decode(bytes.NewReader(text)); err != nil {
		return err
	}
	if _, err := w.Write(text); err != nil {
		return fmt.Errorf("write job: %w", err)
	}
	return nil
}

// Text is what Encode writes; whether it could be read back is not looked at.
func (j Job) Text() ([]byte, error) {
	e := &encoder{plain.Writer{Lines: true}}
	e.job(j)
	text, err := e.Done()
	if err != nil {
		return nil, fmt.Errorf("write job: %w", err)
	}
	return append(text, '\n'), nil
}

// encoder writes the parts of a job.
type encoder struct{ plain.Writer }

func (e *encoder) length(k string, q unit.Quantity) { e.TextIf(k, q.String()) }

func (e *encoder) job(j Job) {
	e.Open('{')
	e.Key("chalkfold").Int(int64(Version))
	e.TextIf("name", j.Name)
	e.Key("garment").Text(j.Garment)
	e.TextIf("figure", string(j.Figure))
	e.units(j.Units)
	e.takings(j.Measurements)
	e.TextIf("method", or(string(j.Method), string(Quarter)))
	e.TextIf("drafting", or(string(j.Drafting), string(Trued)))
	if len(j.Untrued) > 0 {
		e.Key("untrued").Open('[')
		for _, t := range j.Untrued {
			e.Next().Text(t)
		}
		e.Shut(']')
	}
	plain.WritePairs(&e.Writer, "style", j.Style)
	e.rules(j.Rules)
	e.alterations(j.Alterations)
	e.cloths(j.Cloth)
	e.Shut('}')
}

func or(v, otherwise string) string {
	if v == "" {
		return otherwise
	}
	return v
}

func (e *encoder) units(u Units) {
	e.Key("units").Open('{')
	e.TextIf("system", u.System.String())
	e.IntIf("fraction", int64(u.Fraction))
	e.Shut('}')
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
	e.Key("measurements").Open('{')
	for _, id := range ids {
		got := t[id]
		if got.Of == body.OfBody {
			e.length(string(id), got.Value)
			continue
		}
		e.Key(string(id)).Open('{')
		e.length("value", got.Value)
		e.TextIf("of", got.Of.String())
		e.Shut('}')
	}
	e.Shut('}')
}

func (e *encoder) rules(r Rules) {
	if len(r.House)+len(r.Client)+len(r.Job) == 0 {
		return
	}
	e.Key("rules").Open('{')
	for _, l := range []struct {
		level  rules.Level
		values rules.Values
	}{{rules.House, r.House}, {rules.Client, r.Client}, {rules.Job, r.Job}} {
		plain.WritePairs(&e.Writer, l.level.String(), l.values)
	}
	e.Shut('}')
}
