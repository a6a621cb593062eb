package draft

import (
	"math"
	"slices"
	"strconv"

	"chalkfold/draft/job"
	"chalkfold/draft/lay"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// LetGo is a piece that can no longer lie where the maker put it, and why.
type LetGo struct {
	job.Kept
	Name string // of the piece, to be said
	Why  say.Msg
}

// keep locks the items that the job keeps in their places. Those that cannot lie
// there are laid like all others.
func (l *Laid) keep(kept []job.Kept) {
	by := make([]job.Kept, len(l.Items))
	for _, k := range kept {
		i := slices.IndexFunc(l.Items, func(it lay.Item) bool { return it.Piece == k.Piece && it.Copy == k.Copy })
		if i < 0 {
			l.LetGo = append(l.LetGo, LetGo{k, k.Piece, say.Of("it is not cut from this cloth any more")})
			continue
		}
		spot, ok := l.SpotOf(i, k)
		if !ok {
			l.LetGo = append(l.LetGo, LetGo{k, l.Items[i].Name, say.Of("it may not lie that way round on this cloth")})
			continue
		}
		if !l.Cloth.CanLock(l.Items[i], k.Opened) {
			l.LetGo = append(l.LetGo, LetGo{k, l.Items[i].Name, say.Of("it may not be kept where the cloth is opened out")})
			continue
		}
		l.Items[i].Locked, by[i] = &spot, k
	}
	for _, g := range lay.Hold(l.Cloth, l.Items) {
		why := say.Of("it would lie off the cloth, or on a flaw")
		if g.Over >= 0 {
			why = say.Of("it would lie on %s", say.Name(l.Items[g.Over].Name))
		}
		l.LetGo = append(l.LetGo, LetGo{by[g.Item], l.Items[g.Item].Name, why})
	}
}

// Keep is the place of an item on the table as a job keeps it, where the cloth
// is folded so far.
func (l *Laid) Keep(i int, at lay.Spot, folded unit.Length) job.Kept {
	at = at.FromRest(folded)
	g := at.At.Pt(l.Items[i].Grain[0])
	k := job.Kept{
		Piece: l.Items[i].Piece, Copy: l.Items[i].Copy, Across: finely(g.X), Along: finely(g.Y),
		Over: at.At.Mirrors() != l.Items[i].Turned, Opened: at.Opened,
	}
	m := at.At
	if m.Mirrors() {
		m.A, m.B = -m.A, -m.B
	}
	k.Turn = degrees(math.Atan2(m.B, m.A)*180/math.Pi - float64(l.Items[i].Turns[0]))
	return k
}

// finely is a length to the thousandth of a millimetre, below which no lay is
// checked.
func finely(mm float64) unit.Quantity {
	q, err := unit.Parse(strconv.FormatFloat(max(0, mm/10), 'f', 4, 64), unit.Centimetres)
	if err != nil {
		panic("draft: a place off the table: " + err.Error())
	}
	return q
}

// degrees is an angle from nought to 360, to the hundredth; nought is not given.
func degrees(v float64) job.Decimal {
	v = math.Mod(math.Round(v*100)/100+360, 360)
	if v == 0 {
		return ""
	}
	return job.Decimal(strconv.FormatFloat(v, 'f', -1, 64))
}

// SpotOf is where the job keeps an item, as a lock; false when it may not lie
// that way round.
func (l *Laid) SpotOf(i int, k job.Kept) (lay.Spot, bool) {
	it := l.Items[i]
	if k.Over && !it.EitherFace {
		return lay.Spot{}, false
	}
	for _, t := range it.Turns {
		if degrees(float64(t-it.Turns[0])) != k.Turn {
			continue
		}
		m := lay.Way(t, k.Over != it.Turned)
		g := m.Pt(l.Items[i].Grain[0])
		m.E, m.F = k.Across.Length().MM()-g.X, k.Along.Length().MM()-g.Y
		return lay.Spot{At: m, Opened: k.Opened}, true
	}
	return lay.Spot{}, false
}
