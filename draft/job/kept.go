package job

import (
	"fmt"
	"strconv"

	"chalkfold/draft/plain"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// Kept is a piece that stays where the maker laid it by hand.
type Kept struct {
	Piece string // its ID
	Copy  int    // of it, from 1
	// Across and Along are where its grain line begins: from the fold, or the
	// left selvedge, and from the cut edge, or on Opened cloth from where that
	// begins.
	Across, Along unit.Quantity
	// Turn is how far it is turned from the straight grain, in degrees; 180 is
	// end for end.
	Turn   Decimal
	Over   bool // turned over
	Opened bool // past the folded part, where the cloth is opened out
}

// mostCopies is more than is cut of any piece.
const mostCopies = 99

func (d *decoder) kept(n *node, path string) []Kept {
	var out []Kept
	for i, v := range d.objects(n, "kept", path) {
		at := fmt.Sprintf("%s[%d]", path, i)
		if !d.is(v, at, plain.Object) {
			continue
		}
		k := d.keptPiece(v, at)
		for _, o := range out {
			if o.Piece == k.Piece && o.Copy == k.Copy {
				d.fail(at, k.Piece, say.Of("given twice; keep one"))
			}
		}
		out = append(out, k)
	}
	return out
}

func (d *decoder) keptPiece(n *node, path string) Kept {
	d.known(n, path, []string{"piece", "copy", "across", "along", "turn", "over", "opened"})
	k := Kept{Piece: d.text(n, "piece", path+".piece"), Copy: 1}
	if k.Piece == "" {
		d.fail(path+".piece", "", say.Of("missing; name the piece that is kept"))
	}
	if _, given := n.at["copy"]; given {
		k.Copy = d.whole(n, "copy", path, 1, mostCopies)
	}
	for _, l := range k.lengths() {
		v, given := n.at[l.key]
		if !given {
			d.fail(path+"."+l.key, "", say.Of("missing; write where its grain line begins, such as 12 in"))
			continue
		}
		*l.at, _ = d.quantity(v, path+"."+l.key)
	}
	k.Turn = d.decimal(n, "turn", path)
	for _, yes := range []struct {
		key string
		at  *bool
	}{{"over", &k.Over}, {"opened", &k.Opened}} {
		if v, given := n.at[yes.key]; given && d.is(v, path+"."+yes.key, plain.Truth) {
			*yes.at = v.text == "true"
		}
	}
	return k
}

func (k *Kept) lengths() []keyed { return []keyed{{"across", &k.Across}, {"along", &k.Along}} }

// whole reads a whole number from least to most.
func (d *decoder) whole(n *node, key, path string, least, most int) int {
	v := n.at[key]
	if !d.is(v, path+"."+key, plain.Number) {
		return least
	}
	i, err := strconv.Atoi(v.text)
	if err != nil || i < least || i > most {
		d.fail(path+"."+key, clip(v.text), say.Of("write a whole number from %d to %d", least, most))
		return least
	}
	return i
}

func (e *encoder) kept(all []Kept) {
	if len(all) == 0 {
		return
	}
	e.Key("kept").Open('[')
	for _, k := range all {
		e.Next().Open('{')
		e.TextIf("piece", k.Piece)
		if k.Copy != 1 {
			e.Key("copy").Int(int64(k.Copy))
		}
		e.length("across", k.Across)
		e.length("along", k.Along)
		e.TextIf("turn", string(k.Turn))
		e.TruthIf("over", k.Over)
		e.TruthIf("opened", k.Opened)
		e.Shut('}')
	}
	e.Shut(']')
}
