package lesson

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/ui/engine"
	"chalkfold/ui/kit"
)

// marks is the marksheet.
func (v View) marks() app.UI {
	m := v.Marks
	on, leave, score, send, sheet := v.T("Go on"), v.T("Leave the lesson"), m.Say(v.Words), v.sending(), v.T("Print it (PDF)")
	if v.Over {
		on, leave = v.T("Leave it"), ""
	}
	if len(m.Rows) == 0 {
		score, send, sheet = v.T("Nothing is answered yet."), "", ""
	}
	told := v.Told
	if v.ToldOf != engine.Marks {
		told = ""
	}
	return stack("marksheet",
		kit.H2().Text(v.F("Marks: %s", v.Title)),
		line("lesson-score", "figures", score),
		stack("",
			kit.Label("student", v.T("Name of the student")),
			&kit.Field{ID: "student", Text: v.Student, Most: 60, Hint: v.T("only if you like"), OnText: func(_, text string) { v.OnStudent(text) }},
		),
		key("lesson-keep", "choice", v.T("Keep the marks on this phone"), v.OnKeep).Aria("pressed", kit.YesNo(v.Keeps)),
		kit.Table("lesson-rows", []string{v.T("asked"), v.T("yours"), v.T("right")}, app.Range(m.Rows).Slice(func(i int) app.UI {
			r := m.Rows[i]
			class := ""
			if !r.Right {
				class = "missed"
			}
			return kit.Row(class, r.Sign()+" "+kit.Sentence(r.Label), r.Hers, r.Is)
		})),
		keys(key("lesson-send", "choice", send, func() { v.OnSend(v.Sends) }), key("lesson-sheet", "choice", sheet, func() { v.OnFile(engine.Marks, false) })),
		kit.Progress("marks-making", v.T("Making the sheet"), v.Making, v.Percent),
		line("lesson-told", "", told),
		keys(key("lesson-on", "action", on, func() { v.OnMarks(false) }), key("lesson-leave", "choice", leave, v.OnLeave)),
	)
}

func (v View) sending() string {
	if v.Sends {
		return v.T("Send it as a text")
	}
	return v.T("Copy it as a text")
}
