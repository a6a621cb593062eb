package share

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/ui/engine"
	"chalkfold/ui/kit"
)

// A form is a file that can be made of the draft, with a word on what it is for.
type form struct{ id, name, use string }

// The groups of forms.
const (
	groupTable   = "table"
	groupKeep    = "keep"
	groupMachine = "machine"
)

// GroupOf is the group of a form whose sheets are counted.
func GroupOf(form string) string {
	if form == engine.Cards {
		return groupTable
	}
	return groupKeep
}

// forms are the other files that can be made, in groups of which one is open.
func (v View) forms() app.UI {
	return card("forms", v.T("Other forms"),
		line(v.T("Without sheets to join: on the paper chosen above, or no paper at all.")),
		v.group(groupTable, v.T("To chalk by"),
			form{engine.Cards, v.T("Curve cards"), v.T("Only the curves, a sheet or two; the straight lines are chalked by tape (PDF).")},
			form{engine.Strip, v.T("Receipt strip"), v.T("The chalk guide for a 58 mm receipt printer (PNG).")},
		),
		v.group(groupKeep, v.T("To keep or teach"),
			form{engine.Miniature, v.T("Miniature"), v.T("The whole draft small with every number, for a notebook (PDF).")},
			form{engine.Lesson, v.T("Lesson sheets"), v.T("The construction in steps, for an apprentice (PDF).")},
			form{engine.Handover, v.T("Handover page"), v.T("Sketch, measurements, pieces, lay and notions, to go with the job. It names no client (PDF).")},
		),
		v.group(groupMachine, v.T("For a machine"),
			form{engine.Machine, v.T("Pieces, named layers"), v.T("For a cutter or a drawing program (DXF).")},
			form{engine.Numbered, v.T("Pieces, numbered layers"), v.T("For pattern machines; try one piece first (DXF).")},
		),
	)
}

// group is forms of one use, shown when it is open.
func (v View) group(id, name string, all ...form) app.UI {
	open := v.Group == id
	return some("stack", false,
		kit.Disclose("forms-"+id, name, "", open, func() { v.OnGroup(id) }),
		some("stack", !open, app.Range(all).Slice(func(i int) app.UI {
			f := all[i]
			return some("stack", false, kit.Strong().Text(f.name), line(f.use), aside("quiet", v.Tally[f.id]), v.keys("forms", f.id))
		})),
	)
}
