package slip

import (
	"bytes"
	"fmt"
	"slices"

	"chalkfold/draft/body"
	"chalkfold/draft/job"
	"chalkfold/draft/plain"
	"chalkfold/draft/rules"
)

// What is what of a job is given away besides rules and style. Nothing more is
// given unless it is asked for.
type What struct {
	Measurements bool // and what is kept for the client's figure, and was seen at her fitting
	Name         bool
	Cloth        bool // and the pieces that are kept in their place on it
}

// Give is that part of a job.
func Give(j job.Job, w What) job.Job {
	j = j.Clone()
	if !w.Measurements {
		j.Measurements, j.Figure, j.Rules.Client, j.Alterations = nil, body.Unknown, nil, nil
	}
	if !w.Name {
		j.Name = ""
	}
	if !w.Cloth {
		j.Cloth = nil
	}
	for i := range j.Cloth {
		c := &j.Cloth[i]
		c.Remnant = "" // it is in the maker's own book
		if !w.Name {
			c.Name = "" // which may be the client's
		}
	}
	return j
}

// Encode writes a job. The error is a *job.Bad when it could not be read back.
func Encode(j job.Job) ([]byte, error) {
	var text bytes.Buffer
	if err := j.Encode(&text); err != nil {
		return nil, err
	}
	return pack(text.Bytes())
}

// Decode reads a job. The error is ErrDamaged, ErrNewer or, where the slip is
// sound and says what no job can be, a *job.Bad.
func Decode(data []byte) (job.Job, error) {
	text, err := unpack(data)
	if err != nil {
		return job.Job{}, err
	}
	return job.Decode(bytes.NewReader(text))
}

// EncodeRules writes a rule set. Its name is cut at a letter where it is long.
func EncodeRules(l rules.Lent) ([]byte, error) {
	l, err := held(l)
	if err != nil {
		return nil, err
	}
	var w plain.Writer
	w.Open('{')
	w.TextIf("name", l.Name)
	plain.WritePairs(&w, "values", l.Values)
	w.TextIf("method", l.Method) // which a program of before leaves out
	w.Shut('}')
	text, err := w.Done()
	if err != nil {
		return nil, err
	}
	return pack(text)
}

// DecodeRules reads a rule set, in the form of before too. Whether there are
// such rules and such values is for its Judge to say.
func DecodeRules(data []byte) (rules.Lent, error) {
	if len(data) > 0 && data[0] < version {
		return rules.DecodeLent(data)
	}
	text, err := unpack(data)
	if err != nil {
		return rules.Lent{}, err
	}
	l := rules.Lent{Values: rules.Values{}}
	r := plain.Read(text)
	var seen []string
	for key := range r.Object() {
		if slices.Contains(seen, key) {
			return rules.Lent{}, ErrDamaged
		}
		seen = append(seen, key)
		switch key {
		case "name":
			l.Name = r.Text()
		case "values":
			plain.ReadPairs(r, &l.Values)
		case "method":
			l.Method = r.Text()
		}
	}
	if r.End() != nil {
		return rules.Lent{}, ErrDamaged
	}
	if l, err = held(l); err != nil {
		return rules.Lent{}, ErrDamaged
	}
	return l, nil
}

// held is the set within the bounds of what can be lent, which those of the form
// of before still are.
func held(l rules.Lent) (rules.Lent, error) {
	if !rules.SoundMethod(l.Method) {
		return rules.Lent{}, fmt.Errorf("rules: %q is the name of no method", l.Method)
	}
	data, err := l.Encode()
	if err != nil {
		return rules.Lent{}, err
	}
	out, err := rules.DecodeLent(data)
	out.Method = l.Method
	return out, err
}
