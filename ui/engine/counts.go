package engine

import (
	"encoding/binary"

	"chalkfold/draft/unit"
)

// Counts are what a Count has done. Its parts have the sheets so far alone.
type Counts struct {
	Sheets int
	Least  int         // that no placing of the pieces can do without
	Long   unit.Length // of a sheet, or of what is cut off a roll
}

// encode writes the counts, a sheet's length in tenths of a millimetre.
func (c Counts) encode() []byte {
	var out []byte
	for _, n := range []int{c.Sheets, c.Least, int(c.Long * 10)} {
		out = binary.AppendUvarint(out, uint64(max(0, n)))
	}
	return out
}

// Counted reads what a Count has done; the zero Counts from what is none.
func Counted(data []byte) Counts {
	var n [3]uint64
	for i := range n {
		var size int
		if n[i], size = binary.Uvarint(data); size <= 0 {
			return Counts{}
		}
		data = data[size:]
	}
	return Counts{int(n[0]), int(n[1]), unit.Length(n[2]) / 10}
}
