package draft

import (
	"maps"

	"chalkfold/draft/garment"
	"chalkfold/draft/job"
	"chalkfold/draft/rules"
)

// kept is what a Maker needs not work out again while the maker of the garment
// turns one measurement or answers one question of style.
type kept struct {
	id  string
	g   garment.Garment
	by  job.Rules // the rules that set was resolved from ...
	cm  bool      // ... over metric defaults
	set rules.Set
	has bool // set is resolved
}

// garment is Find, kept.
func (k *kept) garment(id string) (garment.Garment, bool) {
	if k.id == id && id != "" {
		return k.g, true
	}
	g, ok := Find(id)
	if ok {
		*k = kept{id: id, g: g}
	}
	return g, ok
}

// rules resolves the levels over the garment's defaults, metric ones for a
// metric tape, kept. A Set is never changed, so it can be shared by results.
func (k *kept) rules(g garment.Garment, by job.Rules, cm bool) (rules.Set, error) {
	if k.has && k.cm == cm && maps.Equal(k.by.House, by.House) && maps.Equal(k.by.Client, by.Client) && maps.Equal(k.by.Job, by.Job) {
		return k.set, nil
	}
	defs := g.Rules
	if cm {
		defs = rules.InCentimetres(defs)
	}
	set, err := rules.Resolve(defs, by.House, by.Client, by.Job)
	if err != nil {
		return rules.Set{}, err
	}
	k.by = job.Rules{House: maps.Clone(by.House), Client: maps.Clone(by.Client), Job: maps.Clone(by.Job)}
	k.set, k.has, k.cm = set, true, cm
	return set, nil
}
