// Package second is the screen of the second copy: starting one, with its words
// written down; pairing another phone; what is where; what two phones measured
// differently; taking a phone off.
package second

import (
	"strconv"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/say"
	"chalkfold/ui/kit"
)

// Step is what the screen is at.
type Step uint8

// The steps.
const (
	Offer  Step = iota // there is no second copy
	Write              // the words are shown, to be written down
	Repeat             // some of them are asked for
	Join               // a code or the words of another phone are entered
	Begun              // there is one
	Pair               // a code for another phone is shown
	Off                // a phone is to be taken off
)

// Conflict is a measurement that two phones entered differently.
type Conflict struct {
	Job, Name string
	Values    []Value // that which counts now first
}

// Value is what one of them entered, and when.
type Value struct{ Figure, Day string }

// View is what is shown and whom it tells.
type View struct {
	*say.Words
	Step Step
	Busy bool   // what was asked for is under way
	Told string // what became of the last thing that was done

	List   []string // the words, or those of the code
	Asked  []int    // which of them are asked for, from 1
	Typed  []string // what was typed for them, or one text at Join
	Wrong  string   // what is wrong with it
	Code   string   // the picture of the code
	Beside bool     // it is the code for phones side by side

	Account   []string // what is where, a line each
	Passing   bool     // it is being brought up to date
	Fault     string   // why the copy is behind
	Conflicts []Conflict
	NoServer  bool // nobody keeps copies at this address

	PhotosAsked bool   // photos are sent only when it is asked for
	Photos      string // the key that asks; "" where none is to be sent
	OnPhotos    func(asked bool)
	OnSend      func()

	Scans, Scanning bool   // codes can be read by the camera; it looks for one
	Camera          string // what is wrong with it

	OnStart, OnJoin, OnWritten, OnRepeat, OnEnter, OnBack func()
	OnType                                                func(field int, text string)
	OnCopy, OnPair, OnBeside, OnWords, OnOff, OnMove      func()
	OnSave, OnTake, OnForget, OnScan                      func()
	OnFile                                                func(text string)
	OnChoose                                              func(conflict, value int)
}

// FileID is the id of the input that takes a file of a second copy, VideoID that of the
// picture of the camera.
const (
	FileID  = "copy-file"
	VideoID = "copy-picture"
)

// Render returns the nodes.
func (v *View) Render() app.UI {
	return kit.Stage(v.T("Second copy"), "copy").Body(
		app.If(v.Step == Offer, v.offer).
			ElseIf(v.Step == Write, v.write).
			ElseIf(v.Step == Repeat, v.repeat).
			ElseIf(v.Step == Join, v.join).
			ElseIf(v.Step == Pair, v.pair).
			ElseIf(v.Step == Off, v.off).
			Else(v.begun),
		kit.P().ID("copy-told").Role("status").Hidden(v.Told == "").Text(v.Told),
	)
}

func (v *View) quiet(text string) app.UI { return kit.P().Class("quiet").Text(text) }

// second is a key that is not the first choice.
func (v *View) second(id, name string, do func()) app.HTMLElem {
	return kit.Act(id, "choice", name, do).Attr("disabled", v.Busy)
}

func (v *View) first(id, name string, do func()) app.HTMLElem {
	return kit.Act(id, "action", name, do).Attr("disabled", v.Busy)
}

// back is never kept from whoever wants to turn away.
func (v *View) back() app.HTMLElem {
	return kit.Act("copy-back", "choice", v.T("Go back"), v.OnBack)
}

// waits says that something is under way.
func (v *View) waits() app.UI {
	return kit.P().Class("quiet").Role("status").Hidden(!v.Busy).Text(v.T("One moment…"))
}

func (v *View) offer() app.UI {
	return kit.Div().Class("stack").Body(
		kit.P().Text(v.T("Your jobs are on this phone only. A second copy keeps them on a server too, and on your other phones.")),
		kit.P().Text(v.T("It is sealed on this phone before it leaves. The server cannot read it: not a name, not a figure.")),
		v.quiet(v.T("Nothing waits for the network. Without one you work as you do now, and the copy catches up later.")),
		kit.P().Class("doubt").Hidden(!v.NoServer).Text(v.T("The server of this page keeps no copies. A file carries them from phone to phone.")),
		kit.Div().Class("actions").Body(
			v.first("copy-start", v.T("Start a second copy"), v.OnStart),
			v.second("copy-join", v.T("Join one of my phones"), v.OnJoin),
		),
	)
}

func (v *View) write() app.UI {
	return kit.Div().Class("stack").Body(
		v.keyWords(),
		v.list("copy-words"),
		kit.Div().Class("actions").Body(
			v.first("copy-written", v.T("I have written them down"), v.OnWritten),
			v.back(),
		),
	)
}

// codeWords is how many words a pairing code has; a key has more.
const codeWords = 8

// keyWords says what the words of a key are.
func (v *View) keyWords() app.UI {
	return kit.Div().Class("stack").Body(
		kit.P().Text(v.T("These words are the key. Write them on paper, in this order, and keep it away from the phone.")),
		kit.P().Class("doubt").Text(v.T("Whoever has the words can read everything. If you lose the words and every phone, nobody can open the copy, not even whoever runs the server.")),
	)
}

// list shows the words by their numbers.
func (v *View) list(id string) app.UI {
	return app.Elem("ol").ID(id).Class("words").Body(
		app.Range(v.List).Slice(func(i int) app.UI {
			return kit.Entry().Body(kit.Span().Class("quiet").Text(strconv.Itoa(i+1)), kit.Strong().Text(v.List[i]))
		}),
	)
}

func (v *View) repeat() app.UI {
	return kit.Div().Class("stack").Body(
		kit.P().Text(v.T("To be sure, type these from your paper.")),
		app.Range(v.Asked).Slice(func(i int) app.UI {
			id := "copy-word-" + strconv.Itoa(i)
			return kit.Div().Body(
				kit.Label(id, v.F("Word %d", v.Asked[i])),
				&kit.Field{ID: id, Text: v.Typed[i], Most: 20, OnText: func(_, text string) { v.OnType(i, text) }},
			)
		}),
		kit.P().ID("copy-wrong").Class("doubt").Role("status").Hidden(v.Wrong == "").Text(v.Wrong),
		kit.Div().Class("actions").Body(
			v.first("copy-repeat", v.T("Start the copy"), v.OnRepeat),
			kit.Act("copy-back", "choice", v.T("Show the words again"), v.OnBack),
		),
		v.waits(),
	)
}

func (v *View) join() app.UI {
	how := v.T("On the other phone open Second copy and press “Pair another phone”. Type the eight words that it shows.")
	if v.Scans {
		how = v.T("On the other phone open Second copy and press “Pair another phone”. Read its code with the camera, or type the eight words that it shows.")
	}
	return kit.Div().Class("stack").Body(
		kit.P().Text(how),
		v.quiet(v.T("If you have no other phone any more, type the 24 words from your paper.")),
		kit.Div().Class("actions").Hidden(!v.Scans).Body(
			v.second("copy-scan", v.T("Read a code with the camera"), v.OnScan).Hidden(v.Scanning),
			v.second("copy-scan-stop", v.T("Stop the camera"), v.OnScan).Hidden(!v.Scanning),
		),
		app.Elem("video").ID(VideoID).Class("scan").Hidden(!v.Scanning).Attr("muted", true).Attr("playsinline", true).
			Aria("label", v.T("What the camera sees")),
		kit.P().ID("copy-camera").Class("doubt").Role("status").Hidden(v.Camera == "").Text(v.Camera),
		kit.Label("copy-code", v.T("The words")),
		&kit.Field{ID: "copy-code", Text: v.Typed[0], Most: 400, Lines: 3, Bad: v.Wrong != "", Note: "copy-wrong", OnText: func(_, text string) { v.OnType(0, text) }},
		kit.P().ID("copy-wrong").Class("doubt").Role("status").Hidden(v.Wrong == "").Text(v.Wrong),
		v.quiet(v.T("The jobs on this phone are added to the others. Nothing is replaced.")),
		kit.Div().Class("actions").Body(
			v.first("copy-enter", v.T("Join"), v.OnEnter),
			v.back(),
		),
		v.waits(),
	)
}

func (v *View) begun() app.UI {
	return kit.Div().Class("stack").Body(
		kit.Div().ID("copy-account").Class("card").Body(
			app.Range(v.Account).Slice(func(i int) app.UI { return kit.P().Text(v.Account[i]) }),
			kit.P().ID("copy-passing").Class("quiet").Hidden(!v.Passing).Text(v.T("It is being brought up to date…")),
			kit.P().ID("copy-fault").Class("doubt").Hidden(v.Fault == "" || v.Passing).Text(v.Fault),
		),
		kit.Div().Class("actions").Body(
			v.first("copy-now", v.T("Bring it up to date"), v.OnCopy).Attr("disabled", v.Busy || v.Passing),
			v.second("copy-pair", v.T("Pair another phone"), v.OnPair),
		),
		v.waits(),
		v.conflicts(),
		v.photos(),
		kit.H2().Text(v.T("Without a network")),
		v.quiet(v.T("A file carries the copy from one of your phones to another. It is sealed too.")),
		v.quiet(v.T("Of photos the file carries small pictures only. The whole ones come over the network, or in a backup file.")),
		kit.FileInput(FileID, ".txt,text/plain", v.OnFile),
		kit.Div().Class("actions").Body(
			v.second("copy-save", v.T("Save the file"), v.OnSave),
			v.second("copy-take", v.T("Take in a file"), v.OnTake),
		),
		kit.H2().Text(v.T("The key")),
		kit.Div().Class("actions").Body(
			v.second("copy-words-key", v.T("Show the words"), v.OnWords),
			v.second("copy-off", v.T("A phone is lost"), v.OnOff),
			v.second("copy-forget", v.T("Stop copying on this phone"), v.OnForget),
		),
	)
}

// photos asks when photos are sent, which cost more than all else together.
func (v *View) photos() app.UI {
	const asked, all = "asked", "all"
	at := all
	if v.PhotosAsked {
		at = asked
	}
	return kit.Div().ID("copy-photos").Class("stack").Body(
		kit.Choose("copy-send", v.T("Photos"), "", []kit.Choice{{ID: all, Name: v.T("sent with the rest")}, {ID: asked, Name: v.T("only when I ask")}}, at,
			func(_, choice string) { v.OnPhotos(choice == asked) }),
		v.quiet(v.T("A photo takes far more of the network than a job. Small pictures are always sent.")),
		kit.Div().Class("actions").Hidden(v.Photos == "").Body(v.second("copy-photos-now", v.Photos, v.OnSend)),
	)
}

// conflicts shows side by side what two phones measured.
func (v *View) conflicts() app.UI {
	return kit.Div().ID("copy-conflicts").Class("stack").Hidden(len(v.Conflicts) == 0).Body(
		kit.H2().Text(v.T("Measured differently on two phones")),
		app.Range(v.Conflicts).Slice(func(i int) app.UI {
			c := v.Conflicts[i]
			return kit.Div().Class("card").Body(
				kit.Strong().Text(kit.Sentence(c.Name)),
				v.quiet(c.Job),
				kit.Div().Class("choices").Body(
					app.Range(c.Values).Slice(func(n int) app.UI {
						return kit.Pick("copy-choose-"+strconv.Itoa(i)+"-"+strconv.Itoa(n), c.Values[n].Figure, v.F("on %s", c.Values[n].Day), func() { v.OnChoose(i, n) })
					}),
				),
				v.quiet(v.F("Tap the one that counts; %s does until then. The other is kept beside it. Measure again if you are not sure.", c.Values[0].Figure)),
			)
		}),
	)
}

// codeDrawing tells the drawing of the pairing code from others in its place.
const codeDrawing = "pair-code"

func (v *View) pair() app.UI {
	if len(v.List) > codeWords {
		return kit.Div().Class("stack").Body(v.keyWords(), v.list("copy-words"), kit.Div().Class("actions").Body(v.back()))
	}
	without, explain := "", v.T("Type these words on the other phone, or hold its camera over the code. They work once, and for ten minutes.")
	if v.Beside {
		explain = v.T("This code holds the key itself. Show it to your own phone only, and to nobody's camera besides. It holds for ten minutes.")
		without = v.T("A phone that reads no codes joins by the 24 words of your paper.")
	}
	return kit.Div().Class("stack").Body(
		kit.P().Text(explain),
		app.If(len(v.List) > 0, func() app.UI { return v.list("copy-pair-words") }),
		app.If(v.Code != "", func() app.UI {
			return &kit.Drawing{Words: v.Words, Name: codeDrawing, SVG: v.Code, Label: v.T("The pairing code, for a camera"), Size: "qr", Still: true}
		}),
		kit.P().Class("quiet").Hidden(without == "").Text(without),
		kit.Div().Class("actions").Body(
			v.second("copy-beside", v.T("There is no network here"), v.OnBeside).Hidden(v.Beside),
			kit.Act("copy-back", "choice", v.T("Done"), v.OnBack),
		),
	)
}

func (v *View) off() app.UI {
	return kit.Div().Class("stack").Body(
		kit.P().Text(v.T("A new key is made, and everything is sealed with it anew. The lost phone keeps what it had, and gets nothing more.")),
		kit.P().Text(v.T("Your other phones are taken off too, until you pair each of them again. Nothing on them is lost.")),
		v.quiet(v.T("The words on your paper change as well: you write down new ones now.")),
		kit.Div().Class("actions").Body(
			v.first("copy-move", v.T("Make a new key"), v.OnMove),
			v.back(),
		),
	)
}
