package main

import (
	"chalkfold/draft"
	"chalkfold/draft/body"
	"chalkfold/draft/garment"
)

// tables gathers the names and explanations that are kept in the core's tables
// and said where they are shown.
func (s *said) tables() {
	for _, d := range body.Defs() {
		s.table("draft/body", d.Name, d.Definition, d.HowTo)
	}
	for _, g := range draft.Garments() {
		where := "draft/garment"
		s.table(where, g.Name)
		for _, o := range g.Options {
			s.table(where, o.Name, o.Explain)
			s.choices(where, o.Choices)
		}
		s.choices(where, g.Methods)
		s.choices(where, g.Truings)
		for _, r := range g.Rules {
			s.table(where, r.Name, r.Explain, r.Group)
		}
	}
}

func (s *said) choices(where string, all []garment.Choice) {
	for _, c := range all {
		s.table(where, c.Name)
	}
}

func (s *said) table(where string, texts ...string) {
	for _, t := range texts {
		s.add(text{english: t}, where)
	}
}
