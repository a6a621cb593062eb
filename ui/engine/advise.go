package engine

import (
	"bytes"

	"chalkfold/draft"
	"chalkfold/draft/job"
	"chalkfold/draft/lay"
	"chalkfold/draft/plain"
	"chalkfold/draft/unit"
)

// Gift is one way to make more of the cloth: what is changed, what that saves,
// and what it costs the garment, in the words of the order.
type Gift struct {
	Does  []string
	Costs []string
	Leave bool // only by the client's leave
	Saves unit.Length
	Short unit.Length // what is wanting still
	Fits  bool
	// Job is the job file with the change made; of garments that are laid together
	// that of their cloths, and Of has those of the garments that are changed.
	Job []byte
	Of  []Garment
	// Together: of all that was worked out, what makes it fit at least harm.
	Together bool
}

// advise works out what can give, and tells each gift as it is worked out.
func (r *run) advise(made *draft.Result, o Order) ([]byte, error) {
	cut, err := lay.ReadWant(o.Cut)
	if err != nil {
		return nil, err
	}
	var found *lay.Result
	if len(o.Laid) > 0 {
		l, err := laidOf(made, o)
		if err != nil {
			return nil, err
		}
		found = &l.Result
	}
	a, err := r.bench.maker.Advise(made, o.Cloth, draft.Advising{
		Cut: cut, Seed: o.Seed, Work: o.Work, Looks: Seeds, Found: found, Stop: func() bool { return !r.goOn() },
		Tried: func(t draft.Try) {
			r.now++
			if data := giftOf(made, t).encode(); t.Helps && data != nil {
				r.tell(Answer{ID: r.id, Is: Part, Now: r.now, Data: data})
			}
		},
	})
	if err != nil {
		return nil, err
	}
	if len(a.Together.Gifts) < 2 || a.Together.Laid == nil {
		return nil, nil // one gift alone has been told
	}
	g := giftOf(made, a.Together)
	g.Together = true
	return g.encode(), nil
}

func giftOf(made *draft.Result, t draft.Try) Gift {
	g := Gift{Costs: t.Costs, Saves: t.Saves, Short: t.ShortBy(), Fits: t.Fits()}
	for _, of := range t.Gifts {
		g.Does, g.Leave = append(g.Does, of.Say), g.Leave || of.Leave
	}
	g.Job = fileOf(t.Job)
	for i, j := range t.Of {
		if t.Changes(i) {
			g.Of = append(g.Of, Garment{Key: made.Of[i].Key, Job: fileOf(j)})
		}
	}
	return g
}

// fileOf is a job file; nil when it cannot be written.
func fileOf(j job.Job) []byte {
	var file bytes.Buffer
	if j.Encode(&file) != nil {
		return nil
	}
	return file.Bytes()
}

// perMM is how finely the lengths of a gift are told.
const perMM = 1000

// encode writes a gift; nil when its job cannot be written.
func (g Gift) encode() []byte {
	w := &plain.Writer{}
	texts := func(key string, all []string) {
		w.Key(key).Open('[')
		for _, s := range all {
			w.Next().Text(s)
		}
		w.Shut(']')
	}
	w.Open('{')
	texts("does", g.Does)
	texts("costs", g.Costs)
	w.TruthIf("leave", g.Leave)
	w.IntIf("saves", int64(g.Saves.MM()*perMM))
	w.IntIf("short", int64(g.Short.MM()*perMM))
	w.TruthIf("fits", g.Fits)
	w.TruthIf("together", g.Together)
	w.Key("job").Raw(g.Job)
	writeParts(w, g.Of)
	w.Shut('}')
	data, err := w.Done()
	if err != nil {
		return nil
	}
	return data
}

// ReadGift reads what an Advise has told; false when it is none.
func ReadGift(data []byte) (g Gift, ok bool) {
	r := plain.Read(data)
	for key := range r.Object() {
		switch key {
		case "does":
			for range r.List() {
				g.Does = append(g.Does, r.Text())
			}
		case "costs":
			for range r.List() {
				g.Costs = append(g.Costs, r.Text())
			}
		case "leave":
			g.Leave = r.Truth()
		case "saves":
			g.Saves = unit.Length(r.Int()) / perMM
		case "short":
			g.Short = unit.Length(r.Int()) / perMM
		case "fits":
			g.Fits = r.Truth()
		case "together":
			g.Together = r.Truth()
		case "job":
			g.Job = r.Raw()
		case "parts":
			g.Of = readParts(r)
		}
	}
	return g, len(data) > 0 && r.End() == nil
}
