//go:build !js

package ui

import (
	"encoding/xml"
	"errors"
	"io"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/body"
	"chalkfold/draft/job"
	"chalkfold/draft/say"
	"chalkfold/static/words"
	"chalkfold/ui/drafting"
	"chalkfold/ui/share"
	"chalkfold/ui/tape"
)

// hostile is a text that would run where it is taken for markup.
const hostile = `<img src=x onerror="alert(1)">'&amp;</text></svg><script>`

// hostileWords end every text of the catalogue so: names of pieces and lines come
// from there.
func hostileWords(t *testing.T) *say.Words {
	t.Helper()
	c, err := words.Read("fr")
	if err != nil {
		t.Fatal(err)
	}
	texts := c.Texts()
	for i := range texts {
		said := slices.Clone(texts[i].Said)
		for k := range said {
			said[k] += hostile
		}
		texts[i].Said = said
	}
	return say.New(c.Language, texts)
}

// hostileDesk is a desk on which every text that can be written is hostile.
func hostileDesk(t *testing.T) (tried, *shared) {
	t.Helper()
	b, h := sharing(t)
	b.speakIn(hostileWords(t))
	b.give(b.newClient(hostile))
	b.changeHouse("name", func(h *House) { h.set(h.InForce).Name = hostile })
	b.job.SetName(hostile)
	b.job.Notes, b.job.Seen = hostile, hostile
	for i := range b.job.File.Cloth {
		c := b.job.Cloth(i)
		c.Name = hostile
		b.job.SetCloth(i, c)
	}
	b.job.SetCloth(len(b.job.File.Cloth), job.Cloth{Name: hostile})
	b.changed("")
	b.settle()
	return b, h
}

// inert fails where a drawing has an element or attribute that does anything.
func inert(t *testing.T, what, svg string) {
	t.Helper()
	if svg == "" {
		t.Errorf("%s is not drawn", what)
	}
	allowed := []string{"svg", "g", "path", "circle", "text", "tspan", "title", "desc", "defs", "clipPath", "rect", "line", "polygon", "polyline", "style", "use"}
	for d := xml.NewDecoder(strings.NewReader(svg)); ; {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return
		}
		if err != nil {
			t.Fatalf("%s: %v", what, err)
		}
		el, ok := token.(xml.StartElement)
		if !ok {
			continue
		}
		if !slices.Contains(allowed, el.Name.Local) {
			t.Errorf("%s holds <%s>", what, el.Name.Local)
		}
		for _, a := range el.Attr {
			if strings.HasPrefix(a.Name.Local, "on") || a.Name.Local == "href" && !strings.HasPrefix(a.Value, "#") || strings.ContainsAny(a.Value, "<>") {
				t.Errorf("%s: <%s %s=%q>", what, el.Name.Local, a.Name.Local, a.Value)
			}
		}
	}
}

// No text that was written, here or by whoever sent a job, becomes markup on a
// drawing.
func TestHostileTextOnDrawings(t *testing.T) {
	b, h := hostileDesk(t)
	r := b.work.Result
	if r == nil {
		t.Fatalf("no draft: %+v", b.work.Whys)
	}
	b.stage = stageDraft
	for _, view := range []string{drafting.ViewPieces, drafting.ViewTrued, drafting.ViewReplay} {
		b.draftView().OnOpen(view)
		inert(t, "the draft, "+view, b.draftView().Scene.SVG)
	}
	b.draftView().OnOpen(drafting.ViewReplay)
	for n := range r.Record.Steps() {
		b.draftView().OnStart(n + 1)
		inert(t, "the replay", b.draftView().Scene.SVG)
	}
	b.draftView().OnOpen(drafting.ViewLines)
	for _, part := range drafting.Parts(r.Record) {
		b.draftView().OnPart(part)
		for _, thing := range b.draftView().Scene.Things {
			b.draftView().OnChoose(thing.ID)
			inert(t, part+", "+thing.ID, b.draftView().Scene.SVG)
		}
	}
	b.stage = stageChalk
	for i := range b.work.Marks().Marks {
		b.chalkAt(i)
		v := b.chalkView()
		inert(t, "the mark on its piece", v.Drawing)
		if v.Near != "" {
			inert(t, "the mark from near", v.Near)
		}
	}
	b.stage = stageCloth
	b.wantLay()
	b.settle()
	inert(t, "the lay", b.clothView().Drawing)
	b.stage = stageStyle
	b.wantSketches()
	b.settle()
	inert(t, "the sketch", b.styleView().Sketch)
	for _, all := range b.styleView().Pictures {
		for _, p := range all {
			inert(t, "a picture of the style", p)
		}
	}
	for _, def := range body.Defs() {
		inert(t, "the body", tape.Drawing(def.ID, b.job.File.Figure, b.job.File.Measurements))
	}
	b.stage = stageShare
	for _, what := range []string{share.Pieces, share.DiagramSVG} {
		b.shareView().OnFile(what, false)
		b.settle()
		inert(t, "the file "+what, string(h.file))
	}
}

// Nor on a page.
func TestHostileTextOnPages(t *testing.T) {
	b, _ := hostileDesk(t)
	for _, s := range append(stages(), houseRules()) {
		b.stage = s.id
		// Attributes are set one by one on the page, never written as here.
		html := regexp.MustCompile(`="(\\.|[^"\\])*"`).ReplaceAllString(app.HTMLString(b.Render()), "")
		if strings.Contains(html, "<img") || strings.Contains(html, "<script") {
			t.Errorf("%s takes a text for markup", s.id)
		}
		if !strings.Contains(html, "&lt;img") {
			t.Errorf("%s does not show the text", s.id)
		}
	}
}
