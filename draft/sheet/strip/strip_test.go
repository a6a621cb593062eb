package strip_test

import (
	"bytes"
	"image"
	"image/png"
	"strings"
	"testing"

	"chalkfold/draft/sheet/pdf/noto"
	"chalkfold/draft/sheet/strip"
)

func drawn(t *testing.T, lines ...strip.Line) image.Image {
	t.Helper()
	var b bytes.Buffer
	if err := strip.Write(&b, noto.Sans(), lines); err != nil {
		t.Fatal(err)
	}
	im, err := png.Decode(&b)
	if err != nil {
		t.Fatal(err)
	}
	if im.Bounds().Dx() != strip.Width {
		t.Fatalf("%d dots wide, want %d", im.Bounds().Dx(), strip.Width)
	}
	return im
}

func black(im image.Image, x, y int) bool { r, _, _, _ := im.At(x, y).RGBA(); return r == 0 }

// ink is the box around what is black, and how many dots are.
func ink(im image.Image) (box image.Rectangle, dots int) {
	b := im.Bounds()
	for y := b.Min.Y; y < b.Max.Y; y++ {
		for x := b.Min.X; x < b.Max.X; x++ {
			if black(im, x, y) {
				box = box.Union(image.Rect(x, y, x+1, y+1))
				dots++
			}
		}
	}
	return box, dots
}

// A capital stands 714 thousandths of the em high in this typeface (its table
// OS/2), and the print head has 8 dots to the millimetre.
func TestLettersAreAsHighAsTheyShould(t *testing.T) {
	for _, tt := range []struct {
		weight strip.Weight
		least  int // mm, for arm's length or for reading close by, tenths
	}{{strip.Figure, 36}, {strip.Text, 22}, {strip.Small, 19}} {
		box, _ := ink(drawn(t, strip.Line{Weight: tt.weight, S: "H"}))
		if got := box.Dy() * 10 / 8; got < tt.least || got > tt.least+4 {
			t.Errorf("weight %d: a capital stands %d tenths of a millimetre, want about %d", tt.weight, got, tt.least)
		}
	}
}

func TestLettersAreTheFonts(t *testing.T) {
	// The counter of an O is white in the middle, and black on both sides.
	im := drawn(t, strip.Line{Weight: strip.Figure, S: "O"})
	box, _ := ink(im)
	mid := box.Min.Add(box.Max).Div(2)
	if black(im, mid.X, mid.Y) || !black(im, box.Min.X, mid.Y) || !black(im, box.Max.X-1, mid.Y) {
		t.Error("an O has no counter")
	}
	// A letter made up of others has the ink of both.
	_, plain := ink(drawn(t, strip.Line{Weight: strip.Text, S: "e"}))
	_, accented := ink(drawn(t, strip.Line{Weight: strip.Text, S: "é"}))
	if accented <= plain {
		t.Errorf("é has %d dots, e has %d", accented, plain)
	}
	for _, r := range "½⅛¼⅜⅝¾⅞ẹọṣɓɗƙ÷×−≈" {
		if _, dots := ink(drawn(t, strip.Line{Weight: strip.Text, S: string(r)})); dots < 8 {
			t.Errorf("%q has %d dots", r, dots)
		}
	}
}

func TestLongTextIsBroken(t *testing.T) {
	one := drawn(t, strip.Line{Weight: strip.Text, S: "short"})
	for _, s := range []string{"many short words that go on and on beyond one line", strings.Repeat("w", 60)} {
		im := drawn(t, strip.Line{Weight: strip.Text, S: s})
		box, _ := ink(im)
		if im.Bounds().Dy() <= one.Bounds().Dy() || box.Max.X > strip.Width-2 {
			t.Errorf("%q: %d dots high, ink to %d", s, im.Bounds().Dy(), box.Max.X)
		}
	}
}

func TestHeadingIsReversed(t *testing.T) {
	im := drawn(t, strip.Line{Weight: strip.Heading, S: "Front"})
	if !black(im, 0, 2) || !black(im, strip.Width-1, 2) {
		t.Error("the heading is not on black")
	}
}

func TestDamagedFont(t *testing.T) {
	line := []strip.Line{{Weight: strip.Text, S: "é½ẹ"}}
	for _, n := range []int{0, 3, 11, 40, 200} {
		if err := strip.Write(&bytes.Buffer{}, noto.Sans()[:n], line); err == nil {
			t.Errorf("first %d bytes are taken for a font", n)
		}
	}
	for at := 0; at < len(noto.Sans()); at += 37 {
		bad := bytes.Clone(noto.Sans())
		bad[at] ^= 0xff
		_ = strip.Write(&bytes.Buffer{}, bad, line) // must not panic
	}
}

// What goes on after a figure stands beside it, and takes lines of its own only
// where it does not fit.
func TestTextGoesOnAfterAFigure(t *testing.T) {
	figure := drawn(t, strip.Line{Weight: strip.Figure, S: "3¼ in"})
	beside := drawn(t, strip.Line{Weight: strip.Figure, S: "3¼ in", Then: "up"})
	if got, want := beside.Bounds().Dy(), figure.Bounds().Dy(); got != want {
		t.Errorf("a short text takes %d rows, want those of the figure, %d", got, want)
	}
	alone, _ := ink(figure)
	if box, _ := ink(beside); box.Max.X <= alone.Max.X {
		t.Errorf("nothing stands to the right of the figure, at %d", alone.Max.X)
	}
	wide := strings.Repeat("m", 11) // narrower than the strip, wider than what is left of it
	below := drawn(t, strip.Line{Weight: strip.Figure, S: "3¼ in", Then: wide})
	box, _ := ink(below)
	if below.Bounds().Dy() <= figure.Bounds().Dy() || box.Max.X > strip.Width-4 {
		t.Errorf("a wide word does not go to the next line: %v", box)
	}
}

// A line stands beside the one before it where it fits, and else below.
func TestShortLinesStandBesideEachOther(t *testing.T) {
	first := strip.Line{Weight: strip.Text, S: "at 1, ½ down"}
	one := drawn(t, first).Bounds().Dy()
	for _, tt := range []struct {
		next strip.Line
		fits bool
	}{
		{strip.Line{Weight: strip.Text, S: "at 2, ¾ down", Beside: true}, true},
		{strip.Line{Weight: strip.Text, S: "at 2, ¾ down"}, false},
		{strip.Line{Weight: strip.Text, S: strings.Repeat("at 2, ¾ down ", 2), Beside: true}, false},
		{strip.Line{Weight: strip.Figure, S: "2", Beside: true}, false},
	} {
		im := drawn(t, first, tt.next)
		if got := im.Bounds().Dy() == one; got != tt.fits {
			t.Errorf("%+v: beside the first %v, want %v", tt.next, got, tt.fits)
		}
		if box, _ := ink(im); box.Max.X > strip.Width-4 {
			t.Errorf("%+v: ink to %d", tt.next, box.Max.X)
		}
	}
}
