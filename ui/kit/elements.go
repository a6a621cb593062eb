package kit

import "github.com/maxence-charriere/go-app/v10/pkg/app"

// The elements of the page. The library has a type of its own for each, with
// over a hundred methods; these are all of its one general type, which makes
// the first load some 60 kB smaller.

// Div is a block of no meaning of its own.
func Div() app.HTMLElem { return app.Elem("div") }

// Span is a stretch of a line.
func Span() app.HTMLElem { return app.Elem("span") }

// P is a paragraph.
func P() app.HTMLElem { return app.Elem("p") }

// Strong is what a block is about.
func Strong() app.HTMLElem { return app.Elem("strong") }

// H2 is a heading within a stage.
func H2() app.HTMLElem { return app.Elem("h2") }

// Stage is the whole of a stage, with its name.
func Stage(name string, class ...string) app.HTMLElem {
	return app.Elem("section").Class("stage").Class(class...).Aria("label", name)
}

// Key is a button that does something on this page.
func Key() app.HTMLElem { return app.Elem("button").Attr("type", "button") }

// Label names the field of that id.
func Label(id, text string) app.HTMLElem { return app.Elem("label").Attr("for", id).Text(text) }

// List is a list, numbered or not.
func List(numbered bool) app.HTMLElem {
	if numbered {
		return app.Elem("ol")
	}
	return app.Elem("ul")
}

// Entry is an entry of a list.
func Entry() app.HTMLElem { return app.Elem("li") }

// Table is a table with its heads and rows.
func Table(id string, heads []string, rows ...app.UI) app.UI {
	return app.Elem("table").ID(id).Class("figures-table").Body(
		app.Elem("thead").Body(app.Elem("tr").Body(
			app.Range(heads).Slice(func(i int) app.UI { return app.Elem("th").Text(heads[i]) }),
		)),
		app.Elem("tbody").Body(rows...),
	)
}

// Row is a row of a table; it begins with its head, unless that is empty.
func Row(class, head string, cells ...string) app.UI {
	return app.Elem("tr").Class(class).Body(
		app.If(head != "", func() app.UI { return app.Elem("th").Text(head) }),
		app.Range(cells).Slice(func(i int) app.UI { return app.Elem("td").Text(cells[i]) }),
	)
}
