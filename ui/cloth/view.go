// Package cloth is the stage where the pieces are laid on the cloth at hand.
package cloth

import (
	"strconv"

	"chalkfold/draft/say"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/job"
	"chalkfold/ui/kit"
)

// View is what the stage shows and whom it tells.
type View struct {
	*say.Words

	Cloths []string // the cloths of the job, then those still wanting
	At     int      // the one that is open
	Key    string   // names it for its fields

	Width, Length string // as typed
	BadWidth      string // why the width cannot be used
	BadLength     string
	Fold          job.Fold
	OneWay        bool

	Missing string // why there is no lay
	Working bool   // a better lay is being looked for
	Drawing string // SVG
	Tone    kit.Tone
	Verdict string // "It fits", "Short by 4 in"
	Lines   []string
	List    []string // names of the pieces that have numbers

	OnAt              func(i int)
	OnWidth, OnLength func(text string)
	OnFold            func(fold job.Fold)
	OnOneWay          func(yes bool)
}

// Render returns the nodes of the stage.
func (v View) Render() app.UI {
	at := "cloth-" + v.Key + "-"
	cloths := make([]kit.Choice, len(v.Cloths))
	for i, name := range v.Cloths {
		cloths[i] = kit.Choice{ID: strconv.Itoa(i), Name: kit.Sentence(name)}
	}
	fold := string(v.Fold)
	if fold == "" {
		fold = string(job.Open)
	}
	return kit.Stage("Cloth").Body(
		kit.Views("Cloths", cloths, strconv.Itoa(v.At), func(id string) {
			i, _ := strconv.Atoi(id)
			v.OnAt(i)
		}),
		kit.Div().Class("pair").Body(
			input(at+"width", "Width", "60 in", v.Width, v.BadWidth, v.OnWidth),
			input(at+"length", "Length at hand", "the bolt", v.Length, v.BadLength, v.OnLength),
		),
		kit.Choose(at+"fold", "Laid", "", []kit.Choice{
			{ID: string(job.Lengthwise), Name: "folded, selvedges together"},
			{ID: string(job.Open), Name: "open"},
			{ID: string(job.Crosswise), Name: "folded across"},
		}, fold, func(_, choice string) { v.OnFold(job.Fold(choice)) }),
		kit.Choose(at+"nap", "Nap or print", "", []kit.Choice{{ID: "no", Name: "either way up"}, {ID: "yes", Name: "one way only"}},
			map[bool]string{true: "yes", false: "no"}[v.OneWay], func(_, choice string) { v.OnOneWay(choice == "yes") }),
		v.result(),
	)
}

func (v View) result() app.UI {
	working := kit.P().ID("laying").Class("quiet").Role("status").Hidden(!v.Working).Text("Looking for a shorter lay…")
	if v.Drawing == "" {
		return kit.Div().Body(
			working,
			app.If(v.Missing != "", func() app.UI { return kit.Note(kit.Mind, "No lay yet", v.Missing) }),
		)
	}
	return kit.Div().Class("lay").Body(
		kit.Div().ID("lay-verdict").Body(kit.Note(v.Tone, v.Verdict, v.Lines...)),
		working,
		&kit.Drawing{Words: v.Words, SVG: v.Drawing, Label: v.T("The pieces laid on the cloth"), Size: "on-cloth"},
		kit.List(true).Class("numbers").Hidden(len(v.List) == 0).Body(
			app.Range(v.List).Slice(func(i int) app.UI { return kit.Entry().Text(v.List[i]) }),
		),
	)
}

func input(id, label, hint, text, bad string, on func(text string)) app.UI {
	return kit.Div().Class("row").Body(
		kit.Label(id, label),
		&kit.Field{
			ID: id, Text: text, Numeric: true, Bad: bad != "", Note: id + "-note", Most: 40, Hint: hint,
			OnText: func(_, text string) { on(text) },
		},
		kit.P().ID(id+"-note").Class("bad").Hidden(bad == "").Text(bad),
	)
}
