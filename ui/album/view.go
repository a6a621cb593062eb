// Package album shows the photos of a job: small ones beside each other where they
// belong, and one of them on the whole screen.
package album

import (
	"encoding/base64"
	"strconv"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/say"
	"chalkfold/ui/kit"
)

// View is what stands in a stage of the photos of one kind, and whom it tells.
type View struct {
	*say.Words
	ID     string // names it for its elements
	Title  string // "" where it is named already
	Photos []Small
	Told   string // what became of the last one
	Again  bool   // one could not be kept, and can be tried again

	OnFile  func(file app.Value) // a picture was taken or chosen
	OnLook  func(id string)
	OnAgain func()
}

// Small is one of them.
type Small struct {
	ID, Name string
	Lines    []string // shown below it
	JPEG     []byte   // none where it has no small picture
}

// Render returns the nodes; none for a View of nobody.
func (v View) Render() app.UI {
	take, choose := "photo-take-"+v.ID, "photo-choose-"+v.ID
	return kit.Div().ID("photos-" + v.ID).Class("album").Hidden(v.ID == "").Body(
		app.If(v.ID != "", func() app.UI {
			return kit.Div().Class("album").Body(
				kit.H2().Hidden(v.Title == "").Text(v.Title),
				kit.Div().Class("photos").Hidden(len(v.Photos) == 0).Body(
					app.Range(v.Photos).Slice(func(i int) app.UI { return v.small(v.Photos[i]) }),
				),
				kit.PictureInput(take, true, v.OnFile),
				kit.PictureInput(choose, false, v.OnFile),
				kit.Div().Class("choices").Body(
					kit.Act(take+"-key", "choice", v.T("Take a photo"), func() { kit.ChooseFile(take) }),
					kit.Act(choose+"-key", "choice", v.T("Choose a picture"), func() { kit.ChooseFile(choose) }),
					kit.Act("photo-again-"+v.ID, "choice", v.T("Try again"), v.OnAgain).Hidden(!v.Again),
				),
				kit.P().ID("photo-told-"+v.ID).Role("status").Hidden(v.Told == "").Text(v.Told),
			)
		}),
	)
}

func (v View) small(p Small) app.UI {
	return kit.Key().Class("photo").Body(
		app.Elem("img").Attr("src", Source(p.JPEG)).Attr("alt", p.Name).Attr("decoding", "async").Hidden(len(p.JPEG) == 0),
		app.Range(p.Lines).Slice(func(i int) app.UI { return kit.Span().Text(p.Lines[i]) }),
	).OnClick(func(app.Context, app.Event) { v.OnLook(p.ID) }, app.EventScope(p.ID))
}

// Source is the address of a picture for the document.
func Source(jpeg []byte) string {
	return "data:image/jpeg;base64," + base64.StdEncoding.EncodeToString(jpeg)
}

// Picture is a picture as a drawing, so many px wide and high.
func Picture(jpeg []byte, wide, high int) string {
	w, h := strconv.Itoa(max(1, wide)), strconv.Itoa(max(1, high))
	return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ` + w + " " + h + `"><image width="` + w + `" height="` + h + `" href="` + Source(jpeg) + `"/></svg>`
}

// Page is one photo on the whole screen.
type Page struct {
	*say.Words
	ID       string
	Name     string
	Picture  string // SVG; none until there is one to show
	Told     string // why it is not the whole picture, or what is awaited
	Fetch    bool   // it can be fetched again
	Note     string
	Of       string
	Kinds    []kit.Choice // what it may be of
	Sure     bool         // one more tap deletes it
	At, Most int          // the which of how many, from 1

	OnClose  func()
	OnStep   func(by int)
	OnNote   func(text string)
	OnOf     func(of string)
	OnDelete func()
	OnFetch  func()
}

// Render returns the nodes.
func (p Page) Render() app.UI {
	remove := p.T("Delete this photo")
	if p.Sure {
		remove = p.T("Yes, delete it")
	}
	return kit.Stage(p.Name, "photo-page").Body(
		kit.Div().Class("photo-head").Body(
			kit.Strong().Text(p.Name),
			kit.Act("photo-close", "choice", p.T("Close"), p.OnClose),
		),
		kit.P().ID("photo-told").Class("quiet").Role("status").Hidden(p.Told == "").Text(p.Told),
		kit.Act("photo-fetch", "choice", p.T("Fetch it again"), p.OnFetch).Hidden(!p.Fetch),
		kit.Div().Body(app.If(p.Picture != "", func() app.UI {
			return &kit.Drawing{Words: p.Words, Name: p.ID, SVG: p.Picture, Label: p.Name, Size: "on-photo"}
		})),
		kit.Div().Class("photo-steps").Hidden(p.Most < 2).Body(
			kit.Act("photo-before", "choice", p.T("Before"), func() { p.OnStep(-1) }).Attr("disabled", p.At == 1),
			kit.Span().Text(p.F("%d of %d", p.At, p.Most)),
			kit.Act("photo-after", "choice", p.T("After"), func() { p.OnStep(1) }).Attr("disabled", p.At == p.Most),
		),
		kit.Div().Class("row").Body(
			kit.Label("photo-note", p.T("Note")),
			&kit.Field{ID: "photo-note", Text: p.Note, Lines: 2, OnText: func(_, text string) { p.OnNote(text) }},
		),
		kit.Choose("photo-of", p.T("Shows"), "", p.Kinds, p.Of, func(_, of string) { p.OnOf(of) }),
		kit.Act("photo-delete", "choice", remove, p.OnDelete),
	)
}
