// Package garment is what every garment supplies to the core: its options of
// style, its house rules, the measurements it needs, and a function that
// drafts it. The core knows garments only through this package.
package garment

import (
	"errors"
	"maps"
	"slices"
	"strings"

	"chalkfold/draft/bench"
	"chalkfold/draft/body"
	"chalkfold/draft/construct"
	"chalkfold/draft/piece"
	"chalkfold/draft/rules"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// BadTruing is a truing that the garment does not have. Match it with
// errors.As.
type BadTruing struct {
	Name string
	Why  say.Msg
}

// Error names the truing and those there are.
func (e *BadTruing) Error() string { return e.In(nil) }

// In is Error in the language of w.
func (e *BadTruing) In(w *say.Words) string { return w.F("untrued: %q %s", e.Name, e.Why) }

// Choice is one value of an option.
type Choice struct {
	ID   string // "pressed"
	Name string // "pressed, not sewn"
}

// Option is one question of style.
type Option struct {
	ID      string // "front_dart"
	Name    string // "front dart"
	Explain string
	Choices []Choice // the first is the default
	// OfFigure: it is asked of the figure, and kept with the client.
	OfFigure bool
}

// Clash is an answer that cannot go with that to another question.
type Clash struct {
	Option, With string // IDs of the questions
	Why          string // English, to be said
}

// Style is the answers, by option. A missing answer means the default.
type Style map[string]string

// BadStyle is an answer that cannot be used. Match it with errors.As.
type BadStyle struct {
	Option, Value string
	Why           say.Msg
}

// Error says which option, what was given and what to do.
func (e *BadStyle) Error() string { return e.In(nil) }

// In is Error in the language of w.
func (e *BadStyle) In(w *say.Words) string {
	return w.F("style %q: %q %s", e.Option, e.Value, e.Why)
}

// Garment is one kind of garment.
type Garment struct {
	ID      string // "trousers"
	Name    string
	Options []Option
	Methods []Choice // the ways it can be drafted; the first is the default
	// Clashes are the answers, of a complete style, that cannot go together; nil
	// when all can.
	Clashes func(Style) []Clash
	Truings []Choice // the truings of its methods, in order
	Builds  []Build  // what its rules become for other figures than the middle one
	Rules   []rules.Def
	Needs   []body.ID // estimated when not taken, if they can be
	// MethodNeeds are what a method needs besides.
	MethodNeeds map[string][]body.ID
	Draft       func(Input) (*Draft, error)
	// Work tells the tasks by which these pieces, drafted of that input, are sewn.
	Work func(in Input, rec *construct.Record, pieces []piece.Piece, by bench.Setting) []bench.Task
	// Gifts are what it can give when cloth is short, least harm first, in this
	// style and by these rules; nil when there is nothing.
	Gifts func(s Style, set rules.Set, metric bool) []Gift
	// Alterations are how it is altered after a fitting, and Signs what is seen
	// then; nil when there are none.
	Alterations func() []Alteration
	Signs       func() []Sign
}

// Input is all that a draft depends on.
type Input struct {
	Body     body.Values
	Rules    rules.Set
	Style    Style               // complete: see Garment.Complete
	Method   string              // one of the garment's methods
	Spoken   bool                // no truing at all
	Untrued  []string            // truings switched off
	Hand     piece.Hand          // the half that is drafted; BothHands where they are alike
	Altered  []Altered           // in the order in which they were seen
	Formulas *construct.Formulas // kept between drafts; may be nil
	Format   unit.Format         // of the lengths in what is said, and its language
}

// Trues reports whether the truing of that name is on.
func (in Input) Trues(name string) bool { return !in.Spoken && !slices.Contains(in.Untrued, name) }

// Draft is a drafted garment: the record of its construction, the panels that
// the record draws, the pieces cut for them, what is claimed of them, how they
// look when they are worn, and which of their curves need a card.
type Draft struct {
	Record *construct.Record
	Panels []piece.Panel
	Pieces []piece.Piece
	Claims piece.Claims
	Worn   piece.Worn
	Cards  []construct.Card // the curves that a tape cannot draw
	// Notions are what is bought besides the cloths.
	Notions []piece.Notion
}

// Impossible says that no draft can be made of these measurements and rules,
// and what to mend, in the language of the input.
type Impossible struct {
	What, Mend string
	Mends      []piece.Mend // what may be changed so that it can be drafted, each to a given answer
}

// Error is what and mend in one sentence.
func (e *Impossible) Error() string { return e.What + ": " + e.Mend }

// In is Error, which is in the reader's language as it was made.
func (e *Impossible) In(*say.Words) string { return e.Error() }

// Has reports whether the garment can be drafted by this method.
func (g Garment) Has(method string) bool {
	return slices.ContainsFunc(g.Methods, func(c Choice) bool { return c.ID == method })
}

// Needed are the measurements that a draft by this method needs.
func (g Garment) Needed(method string) []body.ID {
	return append(slices.Clone(g.Needs), g.MethodNeeds[method]...)
}

// Complete fills the missing answers of s with the defaults and refuses
// unknown options and answers, all at once, each as a *BadStyle.
func (g Garment) Complete(s Style) (Style, error) {
	out := make(Style, len(g.Options))
	var errs []error
	for _, o := range g.Options {
		v, given := s[o.ID]
		switch {
		case !given || v == "":
			out[o.ID] = o.Choices[0].ID
		case slices.ContainsFunc(o.Choices, func(c Choice) bool { return c.ID == v }):
			out[o.ID] = v
		default:
			ids := make([]string, len(o.Choices))
			for i, c := range o.Choices {
				ids[i] = c.ID
			}
			errs = append(errs, &BadStyle{o.ID, v, say.Of("is not a choice; take one of %s", strings.Join(ids, ", "))})
		}
	}
	var names []string
	for _, o := range g.Options {
		names = append(names, o.ID)
	}
	keys := make([]string, 0, len(s))
	for k := range s {
		keys = append(keys, k)
	}
	slices.Sort(keys)
	for _, k := range keys {
		if !slices.Contains(names, k) {
			errs = append(errs, &BadStyle{k, s[k], say.Of("answers no question of %s; they are %s", g.ID, strings.Join(names, ", "))})
		}
	}
	return out, errors.Join(errs...)
}

// Check refuses answers that cannot go together, all at once, each as a
// *BadStyle. The style is complete.
func (g Garment) Check(s Style) error {
	if g.Clashes == nil {
		return nil
	}
	var errs []error
	for _, c := range g.Clashes(s) {
		errs = append(errs, &BadStyle{c.Option, s[c.Option], say.Of("does not go with %s: %s, %s", g.option(c.With), g.choice(c.With, s[c.With]), say.Name(c.Why))})
	}
	return errors.Join(errs...)
}

// Together is the complete style with the other answers given up that cannot
// go with that to this option.
func (g Garment) Together(s Style, option string) Style {
	if g.Clashes == nil {
		return s
	}
	s = maps.Clone(s)
	for _, c := range g.Clashes(s) {
		give := c.Option
		if give == option {
			give = c.With
		}
		for _, o := range g.Options {
			if o.ID != give {
				continue
			}
			s[give] = o.Choices[0].ID
			if slices.ContainsFunc(o.Choices, func(c Choice) bool { return c.ID == "none" }) {
				s[give] = "none"
			}
		}
	}
	return s
}

// option is the name of a question.
func (g Garment) option(id string) say.Name {
	for _, o := range g.Options {
		if o.ID == id {
			return say.Name(o.Name)
		}
	}
	return say.Name(id)
}

// choice is the name of an answer.
func (g Garment) choice(option, id string) say.Name {
	for _, o := range g.Options {
		for _, c := range o.Choices {
			if o.ID == option && c.ID == id {
				return say.Name(c.Name)
			}
		}
	}
	return say.Name(id)
}

// Named is the name of an answer, in English.
func (g Garment) Named(option, id string) string { return string(g.choice(option, id)) }

// CheckTruings refuses names of truings that the garment does not have, each
// as a *BadTruing.
func (g Garment) CheckTruings(off []string) error {
	var errs []error
	for _, n := range off {
		if !slices.ContainsFunc(g.Truings, func(c Choice) bool { return c.ID == n }) {
			ids := make([]string, len(g.Truings))
			for i, c := range g.Truings {
				ids[i] = c.ID
			}
			errs = append(errs, &BadTruing{n, say.Of("is no truing; they are %s", strings.Join(ids, ", "))})
		}
	}
	return errors.Join(errs...)
}
