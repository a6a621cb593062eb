package lay

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"math"
	"slices"

	"chalkfold/draft/unit"
)

// A lay in bytes, for the way from one program to another and for keeping. It
// says where each item lies, by its number and its turn, so it can be read only
// beside the items of the same draft on the same cloth:
//
//	version   1 byte, codeVersion
//	work      steps spent
//	length    the cloth used; folded to
//	places    how many, then for each: item, way, x, y
//	out       how many, then the items
//	left      how many, then for each: layers and opened, the four sides
//
// Whole numbers are unsigned varints, lengths the 8 bytes of a float64, the
// lowest first. A way is wayLocked, without x and y, or the number of the turn
// times four, and wayMirrored and wayOpened.
const codeVersion = 1

const (
	wayOpened   = 1
	wayMirrored = 2
	wayTurn     = 4 // and more: times the number of the turn
	wayLocked   = math.MaxUint32
)

// Encode writes the lay of these items. It refuses a place that no turn of its
// item leads to.
func (r Result) Encode(items []Item) ([]byte, error) {
	b := []byte{codeVersion}
	b = binary.AppendUvarint(b, uint64(r.Work))
	b = appendLength(b, r.Length.MM(), r.FoldedTo.MM())
	b = binary.AppendUvarint(b, uint64(len(r.Placements)))
	for _, p := range r.Placements {
		if p.Item < 0 || p.Item >= len(items) {
			return nil, fmt.Errorf("lay: item %d is laid, and there are %d", p.Item, len(items))
		}
		way, ok := p.way(items[p.Item], r.FoldedTo)
		if !ok {
			return nil, fmt.Errorf("lay: %s lies in a turn that it may not take", items[p.Item].Piece)
		}
		b = binary.AppendUvarint(binary.AppendUvarint(b, uint64(p.Item)), way)
		if way != wayLocked {
			b = appendLength(b, p.At.E, p.At.F)
		}
	}
	b = binary.AppendUvarint(b, uint64(len(r.Out)))
	for _, i := range r.Out {
		b = binary.AppendUvarint(b, uint64(i))
	}
	b = binary.AppendUvarint(b, uint64(len(r.Left)))
	for _, o := range r.Left {
		how := 2 * o.Layers
		if o.Opened {
			how++
		}
		b = binary.AppendUvarint(b, uint64(how))
		b = appendLength(b, o.Rect.Min.X, o.Rect.Min.Y, o.Rect.Max.X, o.Rect.Max.Y)
	}
	return b, nil
}

func appendLength(b []byte, mm ...float64) []byte {
	for _, v := range mm {
		b = binary.LittleEndian.AppendUint64(b, math.Float64bits(v))
	}
	return b
}

// way returns how the item lies, without its place.
func (p Placement) way(it Item, folded unit.Length) (uint64, bool) {
	if it.Locked != nil && it.Locked.OnTable(folded) == p.Spot {
		return wayLocked, true
	}
	var way uint64
	if p.Opened {
		way |= wayOpened
	}
	mirrored := p.At.Mirrors()
	if mirrored {
		way |= wayMirrored
	}
	i := slices.IndexFunc(it.Turns, func(d Degrees) bool {
		at := linear(d, mirrored)
		at.E, at.F = p.At.E, p.At.F
		return at == p.At
	})
	return way + wayTurn*uint64(max(i, 0)), i >= 0
}

// Decode reads what Encode wrote, and takes nothing of it on trust: a lay that
// Verify finds a fault with, or that was made for other items, is an error.
func Decode(c Cloth, items []Item, data []byte) (Result, error) {
	d := decoder{rest: data}
	if v := d.byte(); !d.bad && v != codeVersion {
		return Result{}, fmt.Errorf("lay: version %d; this program reads %d", v, codeVersion)
	}
	r := Result{Work: d.count(math.MaxInt32)}
	r.Length, r.FoldedTo = d.length(), d.length()
	for range d.count(len(items)) {
		if p, ok := d.placement(items, r.FoldedTo); ok {
			r.Placements = append(r.Placements, p)
		}
	}
	for range d.count(len(items)) {
		r.Out = append(r.Out, d.count(len(items)-1))
	}
	for range d.count(offcutCount) {
		how := d.count(2*2 + 1)
		o := Offcut{Opened: how%2 == 1, Layers: how / 2}
		o.Rect.Min.X, o.Rect.Min.Y = d.length().MM(), d.length().MM()
		o.Rect.Max.X, o.Rect.Max.Y = d.length().MM(), d.length().MM()
		r.Left = append(r.Left, o)
	}
	if d.bad || len(d.rest) > 0 {
		return Result{}, fmt.Errorf("lay: %d bytes are no lay of these %d items; lay them again", len(data), len(items))
	}
	r = r.weighed(c, items)
	if err := Verify(c, items, r); err != nil {
		return Result{}, fmt.Errorf("lay: it does not hold, lay the pieces again: %w", err)
	}
	if again, err := r.Encode(items); err != nil || !bytes.Equal(again, data) {
		return Result{}, fmt.Errorf("lay: not written as a lay is; lay the pieces again")
	}
	return r, nil
}

// decoder reads what is left of the bytes; once something is wrong, all is.
type decoder struct {
	rest []byte
	bad  bool
}

func (d *decoder) byte() byte {
	if len(d.rest) == 0 {
		d.bad = true
		return 0
	}
	b := d.rest[0]
	d.rest = d.rest[1:]
	return b
}

// count reads a whole number of no more than most.
func (d *decoder) count(most int) int {
	v, n := binary.Uvarint(d.rest)
	if n <= 0 || most < 0 || v > uint64(most) || d.bad {
		d.bad = true
		return 0
	}
	d.rest = d.rest[n:]
	return int(v)
}

// lengthMost is more than any cloth, mm: sums in thousandths stay whole.
const lengthMost = 1e6

func (d *decoder) length() unit.Length {
	if len(d.rest) < 8 {
		d.bad = true
		return 0
	}
	v := math.Float64frombits(binary.LittleEndian.Uint64(d.rest))
	d.rest = d.rest[8:]
	if !(math.Abs(v) < lengthMost) {
		d.bad = true
		return 0
	}
	return mm(v)
}

func (d *decoder) placement(items []Item, folded unit.Length) (Placement, bool) {
	p := Placement{Item: d.count(len(items) - 1)}
	way := d.count(wayLocked)
	if d.bad {
		return p, false
	}
	it := items[p.Item]
	if way == wayLocked {
		d.bad = it.Locked == nil
		if !d.bad {
			p.Spot = it.Locked.OnTable(folded)
		}
		return p, !d.bad
	}
	turn := way / wayTurn
	if turn >= len(it.Turns) {
		d.bad = true
		return p, false
	}
	p.Opened = way&wayOpened != 0
	p.At = linear(it.Turns[turn], way&wayMirrored != 0)
	p.At.E, p.At.F = d.length().MM(), d.length().MM()
	return p, !d.bad
}
