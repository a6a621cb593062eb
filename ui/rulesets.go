package ui

import (
	"fmt"
	"maps"
	"slices"
	"time"

	"chalkfold/draft/job"
	"chalkfold/draft/plain"
	"chalkfold/draft/quote"
	"chalkfold/draft/rules"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// The record of the rule sets of the house: one, with all of them.
const (
	houseKind = "house"
	houseID   = "rules"
)

// houseVersion is the version of the record.
//
//	1  the rule sets
//	2  and what the house charges by
//	3  and the method of each set
//	4  and how long it works; prices are told apart by what they are for
const houseVersion = 4

// RuleSet is a set of house rules: what differs from the garment's own.
type RuleSet struct {
	ID      string
	Name    string
	Values  rules.Values
	Method  job.Method // that new jobs are drafted by; "" is the garment's first
	Deleted int64      // when it was, ms since 1970
}

// House is the rule sets, of which one is in force: a new job begins with a
// copy of it, so that a job stays as it was cut whatever becomes of the house.
type House struct {
	InForce string // id
	Sets    []RuleSet

	Terms  quote.Terms            // of the last quote, which the next begins with
	Prices map[string]quote.Money // and what things cost in it, by the keys of their lines
	Week   quote.Quantity         // hours that are sewn in a week; nought where nobody said
}

func (h House) encode() ([]byte, error) {
	w := &plain.Writer{}
	w.Open('{')
	w.Key("version").Int(houseVersion)
	w.Key("in_force").Text(h.InForce)
	w.Key("sets").Open('[')
	for _, s := range h.Sets {
		w.Next().Open('{')
		w.Key("id").Text(s.ID)
		w.Key("name").Text(s.Name)
		plain.WritePairs(w, "values", s.Values)
		w.TextIf("method", string(s.Method))
		w.IntIf("deleted", s.Deleted)
		w.Shut('}')
	}
	w.Shut(']')
	if h.Terms != (quote.Terms{}) {
		w.Key("terms")
		h.Terms.Write(w)
	}
	if len(h.Prices) > 0 {
		w.Key("prices").Open('{')
		for _, id := range slices.Sorted(maps.Keys(h.Prices)) {
			w.Key(id).Int(int64(h.Prices[id]))
		}
		w.Shut('}')
	}
	w.IntIf("week", int64(h.Week))
	w.Shut('}')
	return w.Done()
}

func readRuleSet(r *plain.Reader) RuleSet {
	var s RuleSet
	for key := range r.Object() {
		switch key {
		case "id":
			s.ID = r.Text()
		case "name":
			s.Name = r.Text()
		case "values":
			plain.ReadPairs(r, &s.Values)
		case "method":
			s.Method = job.Method(r.Text())
		case "deleted":
			s.Deleted = r.Int()
		}
	}
	return s
}

// decodeHouse reads the record, of every version there was.
func decodeHouse(data []byte) (House, error) {
	var h House
	var version int64
	r := plain.Read(data)
	for key := range r.Object() {
		switch key {
		case "version":
			version = r.Int()
		case "in_force":
			h.InForce = r.Text()
		case "sets":
			h.Sets = nil
			for range r.List() {
				h.Sets = append(h.Sets, readRuleSet(r))
			}
		case "terms":
			h.Terms = quote.ReadTerms(r)
		case "prices":
			h.Prices = map[string]quote.Money{}
			for id := range r.Object() {
				quote.Recall(h.Prices, id, quote.Money(r.Int()))
			}
		case "week":
			h.Week = quote.Quantity(r.Int())
		}
	}
	if err := r.End(); err != nil {
		return House{}, say.Errorf("the house rules cannot be read: %v", err)
	}
	if version > houseVersion {
		return House{}, say.Errorf("the house rules have version %d, this page knows %d: %v", version, houseVersion, errNewer)
	}
	if s := h.set(h.InForce); version < 1 || s == nil || s.Deleted > 0 {
		return House{}, say.Errorf("the house rules cannot be read: none of them is in force")
	}
	return h, nil
}

// set is the set of that id, nil if there is none.
func (h House) set(id string) *RuleSet {
	i := slices.IndexFunc(h.Sets, func(s RuleSet) bool { return s.ID == id })
	if i < 0 {
		return nil
	}
	return &h.Sets[i]
}

// inForce is the set in force.
func (h House) inForce() RuleSet {
	if s := h.set(h.InForce); s != nil {
		return *s
	}
	return RuleSet{}
}

// clone shares nothing with h.
func (h House) clone() House {
	h.Sets = slices.Clone(h.Sets)
	for i := range h.Sets {
		h.Sets[i].Values = maps.Clone(h.Sets[i].Values)
	}
	return h
}

// setRule writes one rule of the set in force; an empty text takes it out.
func (h *House) setRule(d rules.Def, text string, tape unit.System) {
	s := h.set(h.InForce)
	if s.Values == nil {
		s.Values = rules.Values{}
	}
	s.Values[d.ID] = ruleText(d, text, tape)
	if s.Values[d.ID] == "" {
		delete(s.Values, d.ID)
	}
}

// force puts a set in force, unless it is gone or deleted.
func (h *House) force(id string) {
	if s := h.set(id); s != nil && s.Deleted == 0 {
		h.InForce = id
	}
}

// remove marks a set as deleted at that time, or recovers it at nought. That in
// force stays.
func (h *House) remove(id string, at int64) {
	if s := h.set(id); s != nil && id != h.InForce {
		s.Deleted = at
	}
}

// add adds a set under a name of its own.
func (h *House) add(id, name string, values rules.Values, method job.Method) {
	free := name
	for n := 2; slices.ContainsFunc(h.Sets, func(s RuleSet) bool { return s.Name == free && s.Deleted == 0 }); n++ {
		free = clip(fmt.Sprintf("%s %d", name, n))
	}
	h.Sets = append(h.Sets, RuleSet{ID: id, Name: free, Values: maps.Clone(values), Method: method})
}

// clear takes out what was deleted long ago.
func (h *House) clear(now time.Time) {
	h.Sets = slices.DeleteFunc(h.Sets, func(s RuleSet) bool {
		return s.Deleted > 0 && now.Sub(time.UnixMilli(s.Deleted)) > deletedFor
	})
}

// differing is one rule of which two sets have another value.
type differing struct {
	def        rules.Def
	here, ours string // as written, the default where nothing is
}

// compare tells where two sets of values differ, over the rules of the garment.
func compare(defs []rules.Def, here, ours rules.Values) []differing {
	var out []differing
	for _, def := range defs {
		a, b := valueOf(def, here), valueOf(def, ours)
		if !sameValue(def, a, b) {
			out = append(out, differing{def, a, b})
		}
	}
	return out
}

func valueOf(def rules.Def, values rules.Values) string {
	if v := values[def.ID]; v != "" {
		return v
	}
	return def.Default
}

// sameValue reports whether two texts are one value.
func sameValue(def rules.Def, a, b string) bool {
	if a == b || def.Kind != rules.Length {
		return a == b
	}
	x, errX := unit.ParseSigned(a, unit.Inches)
	y, errY := unit.ParseSigned(b, unit.Inches)
	return errX == nil && errY == nil && x.Length() == y.Length()
}
