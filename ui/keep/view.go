// Package keep is the part of the book that keeps the work safe: the backup
// file, what the browser promises, and the place on the home screen.
package keep

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/say"
	"chalkfold/ui/kit"
)

// View is what is shown of it and whom it tells.
type View struct {
	*say.Words

	Nudge string   // why a backup is due; "" when it is not
	Told  string   // what became of a backup file
	Found []string // what is in the file that was chosen; none when none is
	Sends bool     // a file can be handed to another program
	Raw   string   // why a copy of everything as it stands is offered; "" when it is not

	Table Table

	Copy string // how the second copy stands; "" where there can be none

	Promise string // whether the browser keeps it all
	Used    string // how much room it takes
	Photos  string // how many photos there are, and how large; "" where there are none
	Bare    bool   // a backup file goes without them

	Install bool   // the browser would put the page on the home screen now
	Way     string // how it is put there by hand; "" when it is there, or not yet due

	OnBackup  func(send bool)
	OnChoose  func()               // opens the browser's own choice of files
	OnFile    func(file app.Value) // that was chosen
	OnBare    func(bare bool)
	OnMerge   func()
	OnReplace func()
	OnLeave   func()
	OnRaw     func()
	OnInstall func()
	OnNotNow  func()
	OnCopy    func()
}

// FileID is the id of the input that takes a file.
const FileID = "backup-file"

// Render returns the nodes.
func (v *View) Render() app.UI {
	return kit.Div().ID("keep").Class("keep").Body(
		v.install(),
		kit.H2().Text(v.T("Backup")),
		kit.P().ID("nudge").Class("doubt").Hidden(v.Nudge == "").Text(v.Nudge),
		kit.RawInput(FileID, ".json,.txt,application/json,text/plain", v.OnFile),
		kit.Div().Body(app.If(v.Photos != "", v.withPhotos)),
		kit.Div().Class("actions").Body(
			v.save(),
			second(v.T("Send it to another program"), func() { v.OnBackup(true) }).Hidden(!v.Sends),
			second(v.T("Restore from a file"), v.OnChoose),
		),
		kit.P().Class("quiet").Text(v.T("One JSON file with everything: clients, measurements with their days, jobs, cloth, house rules. Other programs can read it too.")),
		kit.P().ID("told").Role("status").Hidden(v.Told == "").Text(v.Told),
		v.found(),
		v.Table.Render(),
		kit.Div().ID("second-copy").Class("keep").Hidden(v.Copy == "").Body(
			kit.H2().Text(v.T("Second copy")),
			kit.P().ID("copied").Text(v.Copy),
			kit.Div().Class("actions").Body(second(v.T("Open the second copy"), v.OnCopy)),
		),
		kit.Div().ID("raw").Class("card").Hidden(v.Raw == "").Body(
			kit.P().Text(v.Raw),
			second(v.T("Save a copy as they are"), v.OnRaw),
		),
		kit.H2().Text(v.T("Room on this device")),
		kit.P().ID("promise").Text(v.Promise),
		kit.P().ID("photos-used").Class("quiet").Hidden(v.Photos == "").Text(v.Photos),
		kit.P().ID("used").Class("quiet").Hidden(v.Used == "").Text(v.Used),
	)
}

// save is the main key of the page only when a backup is due.
func (v *View) save() app.UI {
	class := "choice"
	if v.Nudge != "" {
		class = "action"
	}
	return kit.Act("save-backup", class, v.T("Save a backup file"), func() { v.OnBackup(false) })
}

// withPhotos asks whether a backup file is to have the photos.
func (v *View) withPhotos() app.UI {
	bare := map[bool]string{true: "without", false: "with"}
	return kit.Choose("backup-photos", v.Photos, "", []kit.Choice{{ID: "with", Name: v.T("with the photos")}, {ID: "without", Name: v.T("without")}},
		bare[v.Bare], func(_, choice string) { v.OnBare(choice == "without") })
}

func (v *View) install() app.UI {
	return kit.Div().ID("install").Class("card").Hidden(v.Way == "" && !v.Install).Body(
		kit.Strong().Text(v.T("Keep Chalkfold on the home screen")),
		kit.P().Text(v.T("It opens from there without a network, and the browser is less likely to clear it away.")),
		kit.P().Class("quiet").Hidden(v.Install).Text(v.Way),
		kit.Div().Class("actions").Body(
			kit.Button(v.T("Put it there"), v.OnInstall).(app.HTMLElem).Hidden(!v.Install),
			second(v.T("Not now"), v.OnNotNow),
		),
	)
}

func (v *View) found() app.UI {
	return kit.Div().ID("found").Class("card").Hidden(len(v.Found) == 0).Body(
		app.Range(v.Found).Slice(func(i int) app.UI { return kit.P().Text(v.Found[i]) }),
		kit.Button(v.T("Merge"), v.OnMerge),
		kit.P().Class("quiet").Text(v.T("The newer of each is kept, and the other beside it.")),
		kit.Button(v.T("Replace"), v.OnReplace),
		kit.P().Class("quiet").Text(v.T("As in the file. What is here now goes to the deleted ones for 30 days.")),
		second(v.T("Leave it"), v.OnLeave),
	)
}

// second is a key that is not the first choice.
func second(name string, do func()) app.HTMLElem {
	return kit.Key().Class("choice").Text(name).
		OnClick(func(app.Context, app.Event) { do() }, app.EventScope(name))
}
