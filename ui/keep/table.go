package keep

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/say"
	"chalkfold/ui/kit"
)

// Table is clients and measurements as a table for a spreadsheet, out and in.
type Table struct {
	*say.Words
	Sends bool     // the browser hands a file to another program
	Jobs  bool     // there are jobs to save
	Found []string // what is in the table that was chosen; none when none is
	Fresh bool     // some of it is new
	Like  string   // the ticket of the open job, which new ones can be made like
	Told  string   // what became of a table

	OnSave  func(send bool)
	OnFile  func(text string)
	OnTake  func(asOpen bool)
	OnLeave func()
}

// TableID is the id of the input that takes a table.
const TableID = "table-file"

// Render returns its nodes.
func (t Table) Render() app.UI {
	return kit.Div().ID("table").Class("keep").Body(
		kit.H2().Text(t.T("Table of measurements")),
		kit.P().Class("quiet").Text(t.T("For a spreadsheet (CSV): one row for each job, one column for each measurement. A table of many bodies can be taken in as well, such as for uniforms.")),
		kit.FileInput(TableID, ".csv,.tsv,.txt,text/csv,text/plain", t.OnFile),
		kit.Div().Class("actions").Body(
			second(t.T("Save the table"), func() { t.OnSave(false) }).Hidden(!t.Jobs),
			second(t.T("Send the table"), func() { t.OnSave(true) }).Hidden(!t.Jobs || !t.Sends),
			second(t.T("Take a table in"), func() { kit.ChooseFile(TableID) }),
		),
		kit.P().ID("table-told").Role("status").Hidden(t.Told == "").Text(t.Told),
		kit.Div().ID("table-found").Class("card").Hidden(len(t.Found) == 0).Body(
			app.Range(t.Found).Slice(func(i int) app.UI { return kit.P().Text(t.Found[i]) }),
			kit.Act("table-take", "action", t.T("Take them in"), func() { t.OnTake(false) }).Hidden(!t.Fresh),
			kit.Act("table-like", "choice", t.F("Take them in, made like %s", t.Like), func() { t.OnTake(true) }).Hidden(!t.Fresh || t.Like == ""),
			kit.Act("table-leave", "choice", t.T("Leave it"), t.OnLeave),
		),
	)
}
