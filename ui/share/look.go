package share

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/ui/kit"
)

// Looking is a job that came by a link or in a file, and is only looked at.
type Looking struct {
	Title  string
	Fault  string   // why it was not opened
	Lines  []string // what it has
	Stop   []string // why it must not be cut, or cannot be drafted
	Sketch string   // of the garment
	Middle bool     // on a middle figure
	Pieces string   // of the draft
	Teach  bool     // a lesson can be taken of it
}

// The drawings of what came.
const (
	lookSketch = "look-sketch"
	lookPieces = "look-pieces"
)

// looking shows what came before anything is done with it.
func (v View) looking() app.UI {
	l := v.Looking
	if l.Fault != "" {
		return some("stack", false,
			kit.Note(kit.Stop, v.T("It was not opened, and nothing is changed"), l.Fault),
			some("choices", false, kit.Act("look-leave", "choice", v.T("Leave it"), v.OnLeave)),
		)
	}
	under := v.T("The garment as it is worn")
	if l.Middle {
		under = v.T("The garment on a middle figure")
	}
	return kit.Div().Class("card").ID("looking").Body(
		kit.H2().Text(l.Title),
		app.Range(l.Lines).Slice(func(i int) app.UI { return line(l.Lines[i]) }),
		app.If(len(l.Stop) > 0, func() app.UI { return kit.Note(kit.Stop, v.T("It cannot be cut as it stands"), l.Stop...) }),
		kit.Div().Class("looks").Body(
			app.If(l.Sketch != "", func() app.UI {
				return &kit.Drawing{Words: v.Words, Name: lookSketch, SVG: l.Sketch, Label: under, Size: "seen", Still: true}
			}),
			app.If(l.Pieces != "", func() app.UI {
				return &kit.Drawing{Words: v.Words, Name: lookPieces, SVG: l.Pieces, Label: v.T("The pieces of the draft"), Size: "seen", Still: true}
			}),
		),
		kit.P().Class("quiet").Hidden(!l.Middle || l.Sketch == "").Text(under),
		kit.P().Class("quiet").Text(v.T("It becomes a job of its own; the job on the desk stays as it is.")),
		kit.Div().Class("actions").Body(
			kit.Act("job-keep", "action", v.T("Keep it as a new job"), v.OnKeep),
			kit.Act("job-lesson", "choice", v.T("Take the lesson"), v.OnLesson).Hidden(!l.Teach),
			kit.Act("job-leave", "choice", v.T("Leave it"), v.OnLeave),
		),
		v.told("kept"),
	)
}
