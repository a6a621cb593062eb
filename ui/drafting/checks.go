package drafting

import (
	"strconv"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/say"
	"chalkfold/ui/kit"
)

// Verdict is the one line above all findings.
func Verdict(findings []Finding, w *say.Words) (tone kit.Tone, text string) {
	var stops, minds int
	for _, f := range findings {
		switch f.Tone {
		case kit.Stop:
			stops++
		case kit.Mind:
			minds++
		case kit.Fine:
		}
	}
	switch {
	case stops > 0:
		return kit.Stop, w.N(stops, "Do not cut: %d thing to mend", "Do not cut: %d things to mend")
	case minds > 0:
		return kit.Mind, w.N(minds, "It can be cut; mind %d thing", "It can be cut; mind %d things")
	}
	return kit.Fine, w.N(len(findings), "It can be cut: the one check holds", "It can be cut: all %d checks hold")
}

func (v View) checks() app.UI {
	tone, verdict := Verdict(v.Findings, v.Words)
	fine := 0
	for _, f := range v.Findings {
		if f.Tone == kit.Fine {
			fine++
		}
	}
	if len(v.Whys) > 0 { // what is drawn is the draft before
		return kit.Div().Class("findings").Body(v.card(), kit.Note(kit.Stop, v.T("No draft until this is mended")))
	}
	return kit.Div().ID("findings").Class("findings").Body(
		v.card(),
		kit.Div().ID("verdict").Role("status").Body(kit.Note(tone, verdict)),
		kit.Div().ID("signs").Class("signs").Hidden(!v.Learn).Body(append(kit.Signs(v.Words), kit.Act("signs-known", "choice", v.T("I know these now"), v.OnLearnt))...),
		v.mended(),
		app.Range(v.Findings).Slice(func(i int) app.UI {
			f := v.Findings[i]
			if f.Tone == kit.Fine && !v.Fine {
				return kit.Div().Hidden(true)
			}
			return v.finding(f, i+1)
		}),
		kit.P().Class("estimate").Hidden(len(v.Rests) == 0).Text(v.F("Rests on what was not taken: %s", v.Join(v.Rests))),
		app.If(fine > 0, func() app.UI {
			return kit.Disclose("fine", v.N(fine, "%d check holds", "%d checks hold"), "", v.Fine, v.OnFine)
		}),
		kit.Disclose("cut-list", v.T("What is cut"), v.N(len(v.Cut), "%d piece", "%d pieces"), v.ShowCut, v.OnCut),
		app.If(v.ShowCut, func() app.UI { return v.cutList() }),
	)
}

func (v View) finding(f Finding, n int) app.UI {
	return kit.Div().Class("found").Body(
		kit.Key().Class("note", "finding", "note-"+string(f.Tone)).
			Aria("pressed", kit.YesNo(v.Lit == n)).
			DataSet("check", f.Check).
			Body(
				kit.Span().Class("sign").Aria("hidden", "true").Text(f.Tone.Sign()),
				kit.Span().Class("words").Body(
					kit.Strong().Text(f.Name),
					kit.Span().Text(kit.Sentence(f.Say)),
					kit.Span().Class("figures").Text(f.Figures),
					kit.Span().Class("mend").Hidden(f.Mend == "").Text(v.F("Mend: %s", f.Mend)),
				),
			).
			OnClick(func(app.Context, app.Event) { v.OnLit(n) }, app.EventScope(n)),
		v.cures(n),
	)
}

// cures are the keys that mend a finding, or what stands in the way of a draft.
func (v View) cures(n int) app.UI {
	cures := v.Cures[n]
	return app.Range(cures).Slice(func(i int) app.UI {
		class := "cure"
		if cures[i].ByHand {
			class = "cure by-hand"
		}
		return kit.Key().Class(class).DataSet("path", cures[i].Path).Text(cures[i].Say).
			OnClick(func(app.Context, app.Event) { v.OnCure(n, i) }, app.EventScope(n, i, cures[i].Say))
	})
}

// mended tells what the last mend did.
func (v View) mended() app.UI {
	return kit.Div().ID("mended").Class("card", "mended").Role("status").Hidden(v.Mended.What == "").Body(
		kit.Strong().Text(v.Mended.What),
		kit.P().Text(v.Mended.Gone),
		kit.Key().Class("choice").Text(v.T("Undo it")).OnClick(func(app.Context, app.Event) { v.OnUndo() }),
	)
}

// cutList names the pieces by their numbers on the drawing.
func (v View) cutList() app.UI {
	return kit.Div().Class("stack").Body(
		app.Range(v.Cut).Slice(func(i int) app.UI {
			id := pieceID(v.CutID[i])
			return kit.Key().Class("choice", "link").Aria("pressed", kit.YesNo(v.Chosen == id)).
				Text(strconv.Itoa(i+1)+" "+v.Cut[i]).
				OnClick(func(app.Context, app.Event) { v.OnChoose(id) }, app.EventScope(id))
		}),
	)
}
