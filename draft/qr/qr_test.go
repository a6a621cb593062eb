package qr

import (
	"errors"
	"strings"
	"testing"

	goqr "github.com/piglig/go-qr"
)

// Every version under every mask, module by module, against another encoder.
func TestAgainstAnotherEncoder(t *testing.T) {
	for v := 1; v <= mostVersion; v++ {
		text := strings.Repeat("draft=Ẹ7-_", 70)[:room(v)]
		bytes, err := goqr.MakeBytes([]byte(text))
		if err != nil {
			t.Fatal(err)
		}
		for mask := range masks {
			theirs, err := goqr.EncodeSegments([]*goqr.QrSegment{bytes}, goqr.Medium, v, v, mask, false)
			if err != nil {
				t.Fatal(err)
			}
			ours := bare(v, text)
			ours.mask(mask)
			ours.format(mask)
			for y := range ours.Size {
				for x := range ours.Size {
					if ours.Dark(x, y) != theirs.Module(x, y) {
						t.Fatalf("version %d, mask %d: the module at %d, %d differs", v, mask, x, y)
					}
				}
			}
		}
	}
}

// The smallest version that holds the text is taken, and too much is refused.
func TestSize(t *testing.T) {
	// Bytes that a version holds at level M: ISO/IEC 18004, table 7.
	for v, most := range map[int]int{1: 14, 2: 26, 5: 84, 9: 180, 10: 213, 13: 331, 15: 412, 20: 666} {
		for text, want := range map[int]int{most: v, most + 1: v + 1} {
			c, err := Of(strings.Repeat("a", text))
			switch {
			case want > mostVersion:
				if !errors.Is(err, ErrTooLong) {
					t.Errorf("%d bytes: %v", text, err)
				}
			case err != nil:
				t.Error(err)
			case c.Size != 17+4*want:
				t.Errorf("%d bytes make %d modules, want %d", text, c.Size, 17+4*want)
			}
		}
	}
}

// The mask that is taken is the easiest to read of all.
func TestMaskIsTheEasiest(t *testing.T) {
	const text = "draft=x18BAcMiYfk"
	c, err := Of(text)
	if err != nil {
		t.Fatal(err)
	}
	for mask := range masks {
		other := bare(2, text)
		other.mask(mask)
		other.format(mask)
		if other.penalty() < c.penalty() {
			t.Errorf("mask %d is easier: %d, not %d", mask, other.penalty(), c.penalty())
		}
	}
}

// Rows with their penalty, counted by hand from ISO/IEC 18004, 7.8.3.
func TestPenaltyOfARow(t *testing.T) {
	for row, want := range map[string]int{
		"#.#.#.#":           0,
		"#####.#":           3,
		"#######":           5,
		".....#....#":       3,
		"#.###.#....##":     80, // light before it is the quiet zone
		"##.#.###.#....":    40,
		"##.#.###.#...#":    0,
		"#.....#.###.#.#.#": 3 + 40,
	} {
		if got := runs(func(i int) bool { return row[i] == '#' }, len(row)); got != want {
			t.Errorf("%s: %d, want %d", row, got, want)
		}
	}
}
