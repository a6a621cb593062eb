// Package cloth is the stage where the pieces are laid on the cloth at hand.
package cloth

import (
	"strconv"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/job"
	"chalkfold/draft/piece"
	"chalkfold/draft/say"
	"chalkfold/ui/album"
	"chalkfold/ui/kit"
)

// View is what the stage shows and whom it tells.
type View struct {
	*say.Words

	Cloths  []string // the cloths of the job, then those still wanting
	At      int      // the one that is open
	Key     string   // names it for its fields
	Kept    bool     // the job has it, so that it can be taken out
	After   bool     // another of its kind is laid on before it
	Several bool     // garments of an order are laid together

	Name    string
	Kinds   []piece.Cloth // what may be cut from it
	Kind    piece.Cloth
	Fields  []Field // its lengths
	Wide    string  // how wide cloth often is
	Flaws   int
	Marking bool // the next tap on the drawing marks a flaw
	Fold    job.Fold
	OneWay  bool
	More    bool // the rarer questions are out

	Search   Search
	Note     kit.Remark // of what looks for it
	Missing  string     // why there is no lay
	Drawing  string     // SVG
	Full     bool       // the drawing has the whole screen
	Tone     kit.Tone
	Verdict  string // "It fits", "Short by 4 in"
	Lines    []string
	List     []Entry // the pieces by their numbers
	Advice   Advice
	Buy      Buy
	Cut      Cut
	Remnants Remnants
	Hand     Hand
	Needed   Needed
	Moves    Moves
	Photos   album.View
	Pictures bool // they are out

	Fractions func(id, name string) app.UI // keys for the field of a length

	OnAt     func(i int)
	OnAdd    func()
	OnRemove func()
	OnFirst  func() // lays on this one before the others of its kind
	OnMore   func()
	OnName   func(text string)
	OnKind   func(kind piece.Cloth)
	OnLength func(key, text string)
	OnFlaw   func()
	OnNoFlaw func(i int)
	OnMark   func()
	OnFold   func(fold job.Fold)
	OnOneWay func(yes bool)
	OnLonger func()
	OnStop   func()
	OnPhotos func()
}

// Field is a length of the cloth.
type Field struct {
	Key, Text string
	Bad       string // why it cannot be used
	Doubt     string // what may be meant otherwise
}

// Entry is one piece of the lay.
type Entry struct {
	Item  int
	Name  string
	Notes []string // where it is chalked
}

// Search is how the search for a lay goes.
type Search struct {
	Busy    bool
	Longer  bool // it may be asked to go on
	Percent int
}

// Render returns the nodes of the stage.
func (v View) Render() app.UI {
	at := "cloth-" + v.Key + "-"
	cloths := make([]kit.Choice, len(v.Cloths))
	for i, name := range v.Cloths {
		cloths[i] = kit.Choice{ID: strconv.Itoa(i), Name: name}
	}
	fold := string(v.Fold)
	if fold == "" {
		fold = string(job.Open)
	}
	yes := map[bool]string{true: "yes", false: "no"}
	return kit.Stage(v.T("Cloth")).Body(
		app.If(len(cloths) > 1, func() app.UI {
			return kit.Views(v.T("Cloths"), cloths, strconv.Itoa(v.At), func(id string) {
				i, _ := strconv.Atoi(id)
				v.OnAt(i)
			})
		}),
		kit.Act("cloth-first", "choice", v.T("Lay on this cloth first"), v.OnFirst).Hidden(!v.After),
		v.remnant(),
		kit.Div().Class("pair").Hidden(v.Remnants.Cornered).Body(
			v.length(at, "width", v.T("Width"), v.F("such as %s", v.Wide)),
			v.length(at, "length", v.T("Length at hand"), v.T("off the bolt")),
		),
		v.verdict(),
		v.searching(),
		v.given(),
		v.gifts(),
		v.Buy.Render(v.Words),
		v.Needed.Render(v.Words),
		kit.Div().Hidden(v.Remnants.Cornered).Body(kit.Choose(at+"fold", v.T("Laid"), "", []kit.Choice{
			{ID: string(job.Lengthwise), Name: v.T("folded, selvedges together")},
			{ID: string(job.Open), Name: v.T("open")},
			{ID: string(job.Crosswise), Name: v.T("folded across")},
		}, fold, func(_, choice string) { v.OnFold(job.Fold(choice)) })),
		kit.Choose(at+"nap", v.T("Nap or print"), "", []kit.Choice{{ID: "no", Name: v.T("either way up")}, {ID: "yes", Name: v.T("one way only")}},
			yes[v.OneWay], func(_, choice string) { v.OnOneWay(choice == "yes") }),
		kit.Disclose("cloth-more", v.T("Stripes, flaws, edges, other cloths"), "", v.More, v.OnMore),
		v.more(at),
		v.photos(),
		v.laid(),
	)
}

// photos are those of the cloth, folded until they are asked for.
func (v View) photos() app.UI {
	return kit.Div().Hidden(v.Photos.ID == "").Body(
		kit.Disclose("cloth-photos", v.T("Photos of the cloth"), strconv.Itoa(len(v.Photos.Photos)), v.Pictures, v.OnPhotos),
		kit.Div().Hidden(!v.Pictures).Body(v.Photos.Render()),
	)
}

// more are the questions that are asked rarely.
func (v View) more(at string) app.UI {
	kinds := make([]kit.Choice, len(v.Kinds))
	for i, k := range v.Kinds {
		kinds[i] = kit.Choice{ID: string(k), Name: KindName(v.Words, k)}
	}
	remove := kit.Key().ID("cloth-remove").Class("choice").Hidden(!v.Kept).Text(v.T("Take this cloth out")).
		OnClick(func(app.Context, app.Event) { v.OnRemove() }, app.EventScope(v.Key))
	return kit.Div().ID("cloth-about").Class("about").Hidden(!v.More).Body(
		kit.Div().Class("row").Body(
			kit.Label(at+"name", v.T("Name")),
			&kit.Field{ID: at + "name", Text: v.Name, Most: 60, Hint: v.T("such as blue twill"), OnText: func(_, text string) { v.OnName(text) }},
		),
		kit.Div().Class("pair").Body(
			v.length(at, "margin", v.T("Selvedge not used"), v.T("none")),
			v.length(at, "gap", v.T("Between pieces"), v.T("nothing")),
		),
		v.weave(at),
		v.offers(),
		kit.Choose(at+"kind", v.T("What is cut from it"), "", kinds, string(v.Kind), func(_, kind string) { v.OnKind(piece.Cloth(kind)) }),
		kit.Div().Class("choices").Body(
			kit.Key().ID("cloth-add").Class("choice").Text(v.T("Add a cloth")).
				OnClick(func(app.Context, app.Event) { v.OnAdd() }),
			remove,
		),
	)
}

// searching tells how the search goes, and offers to stop it or to go on.
func (v View) searching() app.UI {
	s := v.Search
	return kit.Div().ID("searching").Class("task").Hidden(!s.Busy && !s.Longer).Body(
		kit.Progress("laying", v.T("Looking for a shorter lay"), s.Busy, s.Percent),
		kit.Key().ID("lay-stop").Class("choice").Hidden(!s.Busy).Text(v.T("Stop")).
			OnClick(func(app.Context, app.Event) { v.OnStop() }),
		kit.Key().ID("lay-longer").Class("choice").Hidden(s.Busy || !s.Longer).Text(v.T("Look longer for a shorter lay")).
			OnClick(func(app.Context, app.Event) { v.OnLonger() }),
	)
}

// verdict says whether the cloth is enough.
func (v View) verdict() app.UI {
	return kit.Div().Class("stack").Body(
		v.Note.Render(),
		app.If(v.Missing != "", func() app.UI { return kit.Note(kit.Mind, v.T("No lay yet"), v.Missing) }),
		app.If(v.Drawing != "", func() app.UI {
			return kit.Div().ID("lay-verdict").Body(kit.Note(v.Tone, v.Verdict, v.Lines...))
		}),
	)
}

// laid is the lay, and the piece in the hand.
func (v View) laid() app.UI {
	h, m := v.Hand, v.Moves
	d := &kit.Drawing{
		Words: v.Words, SVG: v.Drawing, Label: v.T("The pieces laid on the cloth"), Size: "on-cloth", Long: true,
		OnTap: m.Tap, OnFill: m.Fill, Filled: v.Full,
	}
	if h.Item >= 0 {
		d.Held, d.OnGrip, d.OnMove, d.OnDrop = GroupID(h.Item), m.Grip, m.Move, m.Drop
	}
	class := "lay"
	if v.Full {
		class += " filled"
	}
	return kit.Div().Body(
		app.If(v.Drawing != "", func() app.UI {
			return kit.Div().Class(class).Body(
				kit.Div().ID("on-table").Class("on-table").Body(d, v.inHand()),
				v.kept(),
				v.cut(),
				v.list(),
			)
		}),
	)
}

// list names the pieces by their numbers; each can be taken up by it.
func (v View) list() app.UI {
	return kit.List(true).ID("lay-list").Class("numbers").Body(
		app.Range(v.List).Slice(func(i int) app.UI {
			e := v.List[i]
			return kit.Entry().Body(
				kit.Key().Class("piece-key").ID("take-"+strconv.Itoa(e.Item+1)).Aria("pressed", kit.YesNo(e.Item == v.Hand.Item)).Body(
					kit.Strong().Text(strconv.Itoa(e.Item+1)+" "+e.Name),
					kit.Span().Text(v.Join(e.Notes)),
				).OnClick(func(app.Context, app.Event) { v.Moves.Take(e.Item) }, app.EventScope(e.Item)),
			)
		}),
	)
}

// length is the field of one length of the cloth.
func (v View) length(at, key, label, hint string) app.UI {
	return v.figure(at, key, label, hint, v.Fractions(at+key, label))
}

// share is the field of a figure that is no length.
func (v View) share(at, key, label, hint string) app.UI {
	return v.figure(at, key, label, hint, kit.Div().Hidden(true))
}

// figure is a field with the keys that stand by it.
func (v View) figure(at, key, label, hint string, keys app.UI) app.UI {
	id := at + key
	var f Field
	for _, other := range v.Fields {
		if other.Key == key {
			f = other
		}
	}
	return kit.Div().Class("row").Body(
		kit.Label(id, label),
		&kit.Field{
			ID: id, Text: f.Text, Numeric: true, Bad: f.Bad != "", Note: id + "-note", Most: 40, Hint: hint,
			OnText: func(_, text string) { v.OnLength(key, text) },
		},
		keys,
		kit.P().ID(id+"-note").Class("bad").Hidden(f.Bad == "").Text(f.Bad),
		kit.P().ID(id+"-doubt").Class("doubt").Hidden(f.Doubt == "" || f.Bad != "").Text(f.Doubt),
	)
}
