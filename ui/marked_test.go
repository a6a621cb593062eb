//go:build !js

package ui

import (
	"html"
	"regexp"
	"strings"
	"testing"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft"
	"chalkfold/draft/body"
	"chalkfold/draft/garment"
	"chalkfold/draft/job"
	"chalkfold/draft/unit"
	"chalkfold/static/words/wordstest"
	"chalkfold/sync/store"
	"chalkfold/sync/store/mem"
	"chalkfold/ui/book"
	"chalkfold/ui/drafting"
)

var (
	tags  = regexp.MustCompile(`<[^>]*>`)
	heard = regexp.MustCompile(`(?:aria-label|title|placeholder|alt)="([^"]*)"`)
	// typed is what nobody translates: what the maker typed, papers, languages in
	// themselves, and the name of the program.
	typed = regexp.MustCompile(`Alto 3|[Nn]avy suiting|Pocketing|Chalkfold|English|français|Letter|Legal|Tabloid|\bA\d\b`)
)

// read is every text of a page, seen or heard.
func read(page string) []string {
	var out []string
	for _, m := range heard.FindAllStringSubmatch(page, -1) {
		out = append(out, html.UnescapeString(m[1]))
	}
	for _, t := range tags.Split(page, -1) {
		out = append(out, html.UnescapeString(t))
	}
	return out
}

// looking looks for words of the page outside the marks, and tells each once.
func looking(t *testing.T, b tried) (look func(where string)) {
	seen := map[string]bool{}
	return func(where string) {
		t.Helper()
		b.settle()
		page := app.HTMLString(b.Render())
		switch b.stage { // drawings are set into the page by the browser alone
		case stageDraft:
			page += b.draftView().Scene.SVG
		case stageCloth:
			page += b.clothView().Drawing
		case stageChalk:
			page += b.chalkView().Drawing + b.chalkView().Near
		case stageStyle:
			page += b.styleView().Sketch
		}
		for _, text := range read(page) {
			rest := wordstest.Bare(typed.ReplaceAllString(text, ""))
			if rest != "" && !seen[rest] {
				seen[rest] = true
				t.Errorf("%s, %s: %q is not looked up in %q", b.stage, where, rest, text)
			}
		}
	}
}

// In a language of marks no word of any stage stands outside the marks, but for
// what the maker has typed.
func TestEveryWordOfThePageIsLookedUp(t *testing.T) {
	marked := wordstest.Marked(t)
	tour := func(t *testing.T, b tried) {
		look := looking(t, b)
		for _, s := range append(stages(), houseRules()) {
			b.turn(s.id)
			b.wantLay()
			b.wantCount()
			look("as it opens")
		}
		v := &b.view
		b.turn(stageBook)
		v.stages = true
		for _, view := range []string{book.ViewClients, book.ViewDeleted} {
			v.book.view = view
			look(view)
		}
		v.book.view, v.book.details, v.stages = "", true, false
		look("details")
		b.job.Due = b.today().Add(20)
		b.job.Reach(Cut, b.today())
		look("days")
		b.turn(stageTape)
		v.tape.more, v.tape.help, v.tape.focus = true, body.HipGirth, body.HipGirth
		look("help")
		b.settings.Singly = true
		look("one at a time")
		b.turn(stageStyle)
		v.style.truings = true
		for _, o := range b.garment.Options {
			v.style.option = o.ID
			look(o.ID)
		}
		for _, r := range b.garment.Rules {
			v.style.group, v.style.rule = r.Group, r.ID
			v.house.group, v.house.rule = r.Group, r.ID
			look(string(r.ID))
		}
		b.turn(stageHouse)
		look("a rule")
		b.turn(stageDraft)
		v.draft.fine, v.draft.cut, v.draft.sums = true, true, true
		for _, open := range []string{drafting.ViewPieces, drafting.ViewLines, drafting.ViewTrued, drafting.ViewReplay, drafting.ViewGirths} {
			v.draft.open = open
			look(open)
		}
		b.turn(stageCloth)
		v.cloth.more = true
		look("more")
		b.turn(stageChalk)
		for i := range b.work.Marks().Marks {
			b.chalkAt(i)
			look("a mark")
		}
		v.chalk.list = true
		look("the list")
		b.turn(stageFitting)
		for _, side := range []garment.View{garment.FromFront, garment.FromSide, garment.FromBack} {
			v.fit.side = side
			look("signs")
		}
		for _, s := range b.garment.Signs() {
			b.openSign(s.ID)
			look(s.ID)
		}
		for sign, alters := range map[string][]string{"under_seat": {"back_shorter", "fork_higher"}, "hip_pulls": {"hip_out"}, "fork_up": {"back_fork_out"}} {
			b.openSign(sign)
			for _, a := range alters {
				for _, by := range []unit.Length{unit.Inch / 2, 1.25 * unit.Inch} { // what can be had of the cut, and what cannot
					b.view.fit.alter, b.view.fit.by = a, by
					b.tryOut()
					look(a)
				}
			}
		}
		b.openSign("")
		b.job.File.Alterations = []job.Alteration{{Kind: "hip_out", By: inches("½ in"), For: job.ForClient}, {Kind: "back_longer", By: inches("½ in"), For: job.ForJob}}
		b.job.CutAs = b.job.File.Alterations[:1]
		if g, _ := draft.Find(b.job.File.Garment); b.work.Result != nil {
			a, _ := g.Alter("hip_out")
			v.fit.lessons, v.fit.learned = []lesson{{a, 4, 5, unit.Inch}}, b.work.Gen
		}
		look("altered")
		b.turn(stageHouse)
		look("learned")
		b.turn(stageDraft)
		look("hers")
	}
	t.Run("empty", func(t *testing.T) {
		b := open(t, &mem.Store{}, nil)
		b.speakIn(marked)
		tour(t, b)
	})
	t.Run("sample", func(t *testing.T) {
		b := open(t, &mem.Store{}, nil)
		b.speakIn(marked)
		b.openSample()
		tour(t, b)
	})
}

// The guide that is sent is in the language too.
func TestSharedTextIsLookedUp(t *testing.T) {
	b := open(t, &mem.Store{}, nil)
	b.speakIn(wordstest.Marked(t))
	b.openSample()
	b.settle()
	for line := range strings.SplitSeq(b.guideText(), "\n") {
		if rest := wordstest.Bare(typed.ReplaceAllString(line, "")); rest != "" {
			t.Errorf("%q is not looked up in %q", rest, line)
		}
	}
}

// What goes wrong is told in the language as well.
func TestTroubleIsLookedUp(t *testing.T) {
	b := open(t, &mem.Store{}, nil)
	b.speakIn(wordstest.Marked(t))
	b.openSample()
	look := looking(t, b)
	for _, err := range []error{
		store.ErrNotFound, store.ErrStale, store.ErrFull, store.ErrBusy, store.ErrClosed, store.ErrCleared, store.ErrDamaged, errNewer,
		store.Stale(store.Record{Kind: "job", ID: "a", Rev: 2}, 1),
	} {
		b.harm = err
		look(err.Error())
		b.harm, b.fault = nil, b.sayFault(err)
		look(err.Error())
		b.keeper.Change([]byte("{}"))
		b.keeper.Next()
		b.keeper.Done(err)
		look(err.Error())
		b.keeper.Overwrite(1)
	}
	for _, data := range []string{`{"version": 9}`, `{}`} {
		b.open(store.Record{Kind: recordKind, ID: "a", Rev: 1, Data: []byte(data)})
		look(data)
		_, err := DecodeClient([]byte(data))
		b.fault = b.sayFault(err)
		look(data)
		_, err = decodeHouse([]byte(data))
		b.fault = b.sayFault(err)
		look(data)
	}
	for _, f := range []files{
		{Have: 1, Want: 2, Waiting: true, Version: "1"}, {Have: 2, Want: 2}, {Fault: "cannot"}, {Fault: "partly"}, {Fault: "404"},
	} {
		b.files = f
		look("files")
	}
	for _, kept := range []string{"", "yes", "no"} {
		b.browser = browser{Kept: kept, Used: 1e6, Room: 3e9, Sends: true, Beside: true}
		b.turn(stageBook)
		look("the browser")
	}
	b.turn(stageBook)
	b.takeFile(textFile("no backup"))
	look("no backup")
	file, err := writeBackup([]store.Record{{Kind: recordKind, ID: "a", Rev: 1, Data: []byte(`{"version": 9}`), Updated: clock()}})
	if err != nil {
		t.Fatal(err)
	}
	b.takeFile(textFile(string(file)))
	look("a backup")
	b.turn(stageShare)
	b.openJobFile("{}")
	look("no job file")
	b.openJobFile(b.jobFile())
	look("a job file")
	b.turn(stageTape)
	b.tapeView().OnText(body.HipGirth, "42 1/")
	look("a measurement that cannot be read")
	b.turn(stageDraft)
	look("no draft")
	b.tapeView().OnText(body.HipGirth, "10")
	look("no draft can be made")
	b.turn(stageTape)
	look("no draft can be made")
	b.tapeView().OnText(body.HipGirth, "42")
	b.styleView().OnRule("seam_allowance", "9 1/")
	b.turn(stageStyle)
	look("a rule that cannot be read")
	b.turn(stageCloth)
	b.clothView().OnLength("width", "10")
	look("too narrow")
	b.clothView().OnLength("width", "x")
	look("no width")
}
