package ui

import (
	"encoding/json"

	"github.com/maxence-charriere/go-app/v10/pkg/app"
)

// files is what the loader says of the files kept for use without a network.
type files struct {
	Have    int    `json:"have"`
	Want    int    `json:"want"`
	Version string `json:"version"`
	Waiting bool   `json:"waiting"` // a newer version waits
	Fault   string `json:"fault"`
}

// ready reports whether every file is kept. It is counted, never assumed.
func (f files) ready() bool { return f.Want > 0 && f.Have == f.Want }

// say puts it in words.
func (f files) say() string {
	switch {
	case f.ready():
		return "Ready without a network"
	case f.Fault != "":
		return "Needs the network: " + f.Fault
	}
	return "Not yet ready without a network"
}

// loader is the page's start.js, nil in a test without a document.
func loader() app.Value {
	l := app.Window().Get("chalkfold")
	if l == nil || !l.Truthy() {
		return nil
	}
	return l
}

// readFiles asks the loader.
func readFiles() files {
	var f files
	if l := loader(); l != nil {
		// A damaged answer reads as not ready, which is safe.
		_ = json.Unmarshal([]byte(l.Call("files").String()), &f)
	}
	return f
}

// stageFromFragment returns the stage that an address asks for, the tape if it
// asks for none.
func stageFromFragment(fragment string) string {
	for _, s := range stages() {
		if s.id == fragment {
			return s.id
		}
	}
	return stageTape
}

// The stages that have a screen.
const (
	stageBook  = "book"
	stageTape  = "tape"
	stageStyle = "style"
	stageDraft = "draft"
	stageCloth = "cloth"
	stageChalk = "chalk"
)

// A stage of the work that has a screen.
type stage struct {
	id, name string
	mark     string // SVG
}

func stages() []stage {
	return []stage{
		{stageBook, "Book", markBook},
		{stageTape, "Tape", markTape},
		{stageStyle, "Style", markStyle},
		{stageDraft, "Draft", markDraft},
		{stageCloth, "Cloth", markCloth},
		{stageChalk, "Chalk", markChalk},
	}
}

// The marks of the stages and of the keys above them, drawn for this program: 24 by 24, in the colour of
// the text around them.
const (
	markOpen  = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 24 24" width="24" height="24" fill="none" stroke="currentColor" stroke-width="2" stroke-linecap="round" stroke-linejoin="round" aria-hidden="true"><path d="`
	markClose = `"/></svg>`

	markBook  = markOpen + `M5 3h13v18H7a2 2 0 0 1-2-2zM5 19a2 2 0 0 1 2-2h11M9 7h5` + markClose
	markTape  = markOpen + `M3 8h18v8H3zM7 8v3M11 8v5M15 8v3M19 8v5` + markClose
	markStyle = markOpen + `M7 3h10l1 18h-5l-1-11-1 11H6zM7 6h10` + markClose
	markDraft = markOpen + `M5 3v11c0 4 2 6 6 6h8M5 3h7v6` + markClose
	markCloth = markOpen + `M3 5h13l5 5v9H3zM16 5v5h5` + markClose
	markChalk = markOpen + `M4 20l4-1L20 7l-3-3L5 16zM14 7l3 3M3 22h9` + markClose
	markUndo  = markOpen + `M9 5L4 10l5 5M4 10h10a5 5 0 0 1 0 10h-4` + markClose
	markRedo  = markOpen + `M15 5l5 5-5 5M20 10H10a5 5 0 0 0 0 10h4` + markClose
)
