package pdf

import (
	"errors"
	"testing"

	"chalkfold/draft/sheet"
	"chalkfold/draft/sheet/pdf/noto"
)

// Layout measures text without the font; it must never take it for narrower
// than it is, and ASCII exactly.
func TestLayoutKnowsTheFont(t *testing.T) {
	f, err := parseFace(noto.Sans())
	if err != nil {
		t.Fatal(err)
	}
	for r := range f.glyphs {
		_, width := f.set(string(r))
		got := sheet.TextWidth(string(r), 1).MM()
		if r >= ' ' && r <= '~' && got != width {
			t.Errorf("%q: layout takes %.3f em, the font %.3f", r, got, width)
		}
		if got < width {
			t.Errorf("%q (U+%04X): layout takes %.3f em, narrower than the font's %.3f", r, r, got, width)
		}
	}
}

func TestFontHasTheLetters(t *testing.T) {
	f, err := parseFace(noto.Sans())
	if err != nil {
		t.Fatal(err)
	}
	// Hausa, Yoruba, Igbo, French, Portuguese; the tape; our own texts.
	for _, r := range "ɓɗƙƴƁƊƘƳẹọṣẸỌṢịọụṅỊỤṄàâçéèêëîïôùûüÿœŒãõáíóúÃÕ⅛¼⅜½⅝¾⅞×÷≈·°–—‘’“”…₦€′″\u0300\u0301\u0304\u0323" {
		if f.glyphs[r] == 0 {
			t.Errorf("no glyph for %q (U+%04X)", r, r)
		}
	}
	if len(noto.Sans()) > 40_000 {
		t.Errorf("the font takes %d bytes, want at most 40,000", len(noto.Sans()))
	}
}

func TestMinusIsDrawn(t *testing.T) {
	f, err := parseFace(noto.Sans())
	if err != nil {
		t.Fatal(err)
	}
	if gids, _ := f.set("−½"); gids[0] == 0 || gids[1] == 0 {
		t.Errorf("glyphs %v of −½", gids)
	}
}

func TestMissingLetterIsAnEmptyBox(t *testing.T) {
	f, err := parseFace(noto.Sans())
	if err != nil {
		t.Fatal(err)
	}
	if gids, w := f.set("漢"); len(gids) != 1 || gids[0] != 0 || w <= 0 {
		t.Errorf("glyphs %v, width %v", gids, w)
	}
}

func TestDamagedFontIsRefused(t *testing.T) {
	for _, n := range []int{0, 3, 11, 40, 200, 2000} {
		if _, err := parseFace(noto.Sans()[:n]); !errors.Is(err, errFace) {
			t.Errorf("first %d bytes: error %v", n, err)
		}
	}
	for at := range 600 {
		bad := append([]byte{}, noto.Sans()...)
		bad[at] ^= 0xff
		_, _ = parseFace(bad) // must not panic
	}
}
