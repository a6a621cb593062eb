package cloth

import (
	"slices"
	"strings"

	"chalkfold/draft"
	"chalkfold/draft/lay"
	"chalkfold/draft/piece"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
	"chalkfold/ui/kit"
)

// Say puts a lay in words: the verdict, then what to know besides.
func Say(l *draft.Laid, f unit.Format) (tone kit.Tone, verdict string, lines []string) {
	w := f.Words
	tone = kit.Fine
	if len(l.Cloth.Outline) > 0 {
		return sayRemnant(l, f)
	}
	switch {
	case l.Cloth.LeaveOut && len(l.Out) > 0:
		verdict = w.N(len(l.Out), "%d piece is left for the next cloth", "%d pieces are left for the next cloth")
		lines = append(lines, w.F("Cut from other cloth: %s.", strings.Join(outNames(l, w), ", ")))
	case l.Cloth.Length == 0:
		verdict = w.F("It needs %s off the bolt", f.Text(l.Length))
	case l.Fits:
		verdict = w.F("It fits; %s left over at the end", f.Text(l.Cloth.Length-l.Length))
	default:
		tone, verdict = kit.Stop, w.F("It does not fit: short by %s", f.Text(l.ShortBy))
	}
	lines = append(lines,
		w.F("Needs %s of the length; to buy, %s.", f.Text(l.Length), f.Sold().Text(l.Cloth.Bought(l.Length))),
		w.F("The pieces cover %.0f in 100 of the cloth used.", l.Density),
	)
	return tone, verdict, append(lines, sayLeft(l, f)...)
}

// outNames are the names of the pieces that found no room.
func outNames(l *draft.Laid, w *say.Words) (names []string) {
	for _, i := range l.Out {
		if name := w.T(l.Items[i].Name); !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	return names
}

// sayRemnant says of a remnant with corners what found room on it.
func sayRemnant(l *draft.Laid, f unit.Format) (tone kit.Tone, verdict string, lines []string) {
	w := f.Words
	tone, verdict = kit.Fine, w.T("Everything lies on the remnant")
	if n := len(l.Out); n > 0 {
		tone, verdict = kit.Stop, w.N(n, "%d piece finds no room on the remnant", "%d pieces find no room on the remnant")
		if l.Cloth.LeaveOut {
			tone, verdict = kit.Fine, w.N(n, "%d piece is left for the next cloth", "%d pieces are left for the next cloth")
		}
		lines = append(lines, w.F("Cut from other cloth: %s.", strings.Join(outNames(l, w), ", ")))
	}
	lines = append(lines, w.F("The pieces cover %.0f in 100 of the cloth used.", l.Density))
	return tone, verdict, append(lines, sayLeft(l, f)...)
}

// sayLeft says how large the largest piece is that is left over, if one is.
func sayLeft(l *draft.Laid, f unit.Format) []string {
	if len(l.Left) == 0 {
		return nil
	}
	o := l.Left[0].Rect
	return []string{f.Words.F("Largest piece left over: %s by %s.", f.Text(unit.Length(o.W())), f.Text(unit.Length(o.H())))}
}

// List names the pieces of a lay by their numbers.
func List(l *draft.Laid, f unit.Format) []Entry {
	notes := map[int][]string{} // by item
	for _, g := range draft.LayGuide(l, f) {
		notes[l.Placements[g.Placement].Item] = Chalked(g)
	}
	var out []Entry
	for i, it := range l.Items {
		e := Entry{Item: i, Name: kit.Sentence(f.Words.T(it.Name)), Notes: notes[i]}
		if slices.Contains(l.Out, i) {
			note := f.Words.T("no room on the remnant")
			if l.Cloth.LeaveOut {
				note = f.Words.T("on the next cloth")
			}
			e.Notes = append(e.Notes, note)
		}
		if it.Locked != nil {
			e.Notes = append(e.Notes, f.Words.T("kept here"))
		}
		out = append(out, e)
	}
	return out
}

// Chalked says where a piece is chalked, and how it lies there.
func Chalked(g draft.Guide) []string {
	var out []string
	for _, s := range []string{g.Where, g.How, g.Way, g.Face} {
		if s != "" {
			out = append(out, s)
		}
	}
	return out
}

// TooWide puts in words that a piece lies on the cloth in no way.
func TooWide(e *lay.TooWideError, f unit.Format) string {
	w := f.Words
	name, across, room, short := say.Name(e.Name), f.Text(e.Across), f.Text(e.Room), f.Text(e.ShortBy())
	if e.OpenFits {
		return w.F("%s needs %s across and there is %s, short by %s. It would go on the cloth laid open.", name, across, room, short)
	}
	return w.F("%s needs %s across and there is %s, short by %s.", name, across, room, short)
}

// Kinds are the kinds of cloth that a garment is cut from.
func Kinds() []piece.Cloth { return []piece.Cloth{piece.Main, piece.Lining, piece.Interfacing} }

// KindName is what is cut from a kind of cloth, in words.
func KindName(w *say.Words, k piece.Cloth) string {
	switch k {
	case piece.Main:
		return w.T("Main cloth")
	case piece.Lining:
		return w.T("Lining")
	case piece.Interfacing:
		return w.T("Interfacing")
	}
	return kit.Sentence(string(k))
}
