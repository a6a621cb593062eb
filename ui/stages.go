package ui

import (
	"slices"

	"chalkfold/draft/say"
)

// The stages of the work, in its order, and the house rules, which belong to
// all of them.
const (
	stageBook    = "book"
	stageTape    = "tape"
	stageStyle   = "style"
	stageDraft   = "draft"
	stageCloth   = "cloth"
	stageChalk   = "chalk"
	stageBench   = "bench"
	stageFitting = "fitting"
	stageShare   = "share"
	stageHouse   = "house"
	stageCopy    = "copy"
	stageQuote   = "quote"
	stageLesson  = "lesson"
	stageOrder   = "order"
)

// newJobFragment asks for a new job; see the shortcuts of the manifest.
const newJobFragment = "new"

// A stage of the work that has a screen.
type stage struct {
	id, name string
	mark     string // SVG
}

// stages are the nine stages.
func stages() []stage {
	return []stage{
		{stageBook, say.Word("Book"), markBook},
		{stageTape, say.Word("Tape"), markTape},
		{stageStyle, say.Word("Style"), markStyle},
		{stageDraft, say.Word("Draft"), markDraft},
		{stageCloth, say.Word("Cloth"), markCloth},
		{stageChalk, say.Word("Chalk"), markChalk},
		{stageBench, say.Word("Bench"), markBench},
		{stageFitting, say.Word("Fitting"), markFitting},
		{stageShare, say.Word("Share"), markShare},
	}
}

// houseRules is the screen of the house rules.
func houseRules() stage { return stage{stageHouse, say.Word("House rules"), markHouse} }

// secondCopy is the screen of the second copy, to which the book leads.
func secondCopy() stage { return stage{stageCopy, say.Word("Second copy"), markCopy} }

// theQuote is the screen of what the open job costs, to which the book leads.
func theQuote() stage { return stage{stageQuote, say.Word("Quote"), markQuote} }

// theOrder is the screen of the open order.
func theOrder() stage { return stage{stageOrder, say.Word("Order"), markOrder} }

// tabs are the stages of what lies on the desk: of an order those where its garments
// are one.
func (d *Desk) tabs() []stage {
	if !d.ordering() {
		return stages()
	}
	tabs := []stage{stages()[0], theOrder()}
	for _, s := range stages() {
		if s.id == stageCloth || s.id == stageChalk {
			tabs = append(tabs, s)
		}
	}
	return tabs
}

// hasStage reports whether what lies on the desk has a stage: an order has few.
func (d *Desk) hasStage(id string) bool {
	return !d.ordering() || id == stageCopy || slices.ContainsFunc(d.tabs(), func(s stage) bool { return s.id == id })
}

// theLesson is the screen of lessons, to which the replay of a draft leads, and a
// draft that came by a link.
func theLesson() stage { return stage{stageLesson, say.Word("Lesson"), markLesson} }

// stageFromFragment returns the stage that an address asks for; the book if it asks
// for none.
func stageFromFragment(fragment string) string {
	for _, s := range append(stages(), houseRules(), secondCopy(), theQuote(), theLesson(), theOrder()) {
		if s.id == fragment {
			return s.id
		}
	}
	return stageBook
}

// around are the stages before and after one; the zero stage where there is
// none.
func around(all []stage, id string) (before, here, after stage) {
	for i, s := range all {
		if s.id != id {
			continue
		}
		if i > 0 {
			before = all[i-1]
		}
		if i < len(all)-1 {
			after = all[i+1]
		}
		return before, s, after
	}
	switch id {
	case stageCopy:
		return stage{}, secondCopy(), stage{}
	case stageQuote:
		return stage{}, theQuote(), stage{}
	case stageOrder:
		return stage{}, theOrder(), stage{}
	case stageLesson:
		return stage{}, theLesson(), stage{}
	}
	return stage{}, houseRules(), stage{}
}

// wants has all worked out that the stage shows of the draft besides.
func (d *Desk) wants() {
	d.wantLay()
	d.wantSketches()
	d.wantEffect()
	d.wantCures()
	d.wantCount()
	d.wantCharges()
}

// The marks of the stages and of the keys around them, drawn for this program:
// 24 by 24, in the colour of the text around them.
const (
	markOpen  = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 24 24" width="24" height="24" fill="none" stroke="currentColor" stroke-width="2" stroke-linecap="round" stroke-linejoin="round" aria-hidden="true"><path d="`
	markClose = `"/></svg>`

	markBook    = markOpen + `M5 3h13v18H7a2 2 0 0 1-2-2zM5 19a2 2 0 0 1 2-2h11M9 7h5` + markClose
	markTape    = markOpen + `M3 8h18v8H3zM7 8v3M11 8v5M15 8v3M19 8v5` + markClose
	markStyle   = markOpen + `M7 3h10l1 18h-5l-1-11-1 11H6zM7 6h10` + markClose
	markDraft   = markOpen + `M5 3v11c0 4 2 6 6 6h8M5 3h7v6` + markClose
	markCloth   = markOpen + `M3 5h13l5 5v9H3zM16 5v5h5` + markClose
	markChalk   = markOpen + `M4 20l4-1L20 7l-3-3L5 16zM14 7l3 3M3 22h9` + markClose
	markBench   = markOpen + `M3 20h18M6 20v-9h9V7a3 3 0 0 1 6 0M6 11l3-3M18 7v5M18 15v2` + markClose
	markFitting = markOpen + `M12 3a2 2 0 1 0 .01 0M6 9c4-2 8-2 12 0l-2 4H8zM8 13l-1 8M16 13l1 8M12 13v3` + markClose
	markShare   = markOpen + `M4 13v7h16v-7M12 16V4M8 8l4-4 4 4` + markClose
	markHouse   = markOpen + `M3 11l9-7 9 7M6 9v11h12V9M9 14h2M14 14h1M9 17h6` + markClose
	markCopy    = markOpen + `M4 4h11v11H4zM9 19h11V8` + markClose
	markQuote   = markOpen + `M6 3h12v18l-3-2-3 2-3-2-3 2zM9 8h6M9 12h6` + markClose
	markLesson  = markOpen + `M2 9l10-5 10 5-10 5zM6 11v5c3 3 9 3 12 0v-5M22 9v6` + markClose
	markOrder   = markOpen + `M4 4h7v7H4zM13 4h7v7h-7zM4 13h7v7H4zM13 13h7v7h-7z` + markClose
	markStages  = markOpen + `M4 5h4v4H4zM10 5h4v4h-4zM16 5h4v4h-4zM4 15h4v4H4zM10 15h4v4h-4zM16 15h4v4h-4z` + markClose
	markBack    = markOpen + `M15 5l-7 7 7 7` + markClose
	markOn      = markOpen + `M9 5l7 7-7 7` + markClose
	markNew     = markOpen + `M12 5v14M5 12h14` + markClose
	markUndo    = markOpen + `M9 5L4 10l5 5M4 10h10a5 5 0 0 1 0 10h-4` + markClose
	markRedo    = markOpen + `M15 5l5 5-5 5M20 10H10a5 5 0 0 0 0 10h4` + markClose
)
