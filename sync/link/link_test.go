package link_test

import (
	"bytes"
	"errors"
	"strings"
	"testing"

	"chalkfold/sync/link"
)

func TestLinkCarriesItsBytes(t *testing.T) {
	for i, data := range [][]byte{{}, {0}, []byte("seat tilt"), bytes.Repeat([]byte{0xff}, link.MaxData)} {
		want := []link.Kind{link.Rules, link.Draft, link.Lay}[i%3]
		text, err := link.Encode(want, data)
		if err != nil {
			t.Fatal(err)
		}
		for _, as := range []string{text, "#" + text, "http://stall.example/#" + text, " https://stall.example/a#" + text[:8] + "\n" + text[8:] + " "} {
			kind, got, err := link.Decode(as)
			if err != nil || kind != want || !bytes.Equal(got, data) {
				t.Errorf("%.40q is read as kind %d, %d bytes, %v", as, kind, len(got), err)
			}
		}
		if is, ok := link.KindOf("http://stall.example/#" + text); strings.ContainsAny(text, "+/ \n#?&") || !ok || is != want {
			t.Errorf("%.40q does not stand in an address as it is", text)
		}
	}
	if _, err := link.Encode(link.Rules, make([]byte, link.MaxData+1)); !errors.Is(err, link.ErrTooLong) {
		t.Errorf("too much: %v", err)
	}
	if _, err := link.Encode(99, nil); err == nil {
		t.Error("a kind that is not known was written")
	}
}

// Every single character left out, and every one changed, is found.
func TestDamagedLinkIsRefused(t *testing.T) {
	text, err := link.Encode(link.Rules, []byte("seat_tilt 1 1/2 in"))
	if err != nil {
		t.Fatal(err)
	}
	for i := len("rules="); i < len(text); i++ {
		if _, _, err := link.Decode(text[:i] + text[i+1:]); err == nil {
			t.Errorf("read without character %d", i)
		}
		if _, _, err := link.Decode(text[:i]); !errors.Is(err, link.ErrDamaged) {
			t.Errorf("cut at %d: %v", i, err)
		}
		for _, c := range []byte("A-_z=") {
			if c != text[i] {
				if _, _, err := link.Decode(text[:i] + string(c) + text[i+1:]); err == nil {
					t.Errorf("read with %q for character %d", c, i)
				}
			}
		}
	}
	for text, want := range map[string]error{
		"":                        link.ErrNone,
		"style":                   link.ErrNone,
		"http://stall.example/":   link.ErrNone,
		"drafts=x18BAQ":           link.ErrNone,
		"draft=x18BAcMiYfk":       link.ErrDamaged, // of rules
		"rules=":                  link.ErrDamaged,
		"rules=!!!!":              link.ErrDamaged,
		strings.Repeat("x", 1e5):  link.ErrTooLong,
		"rules=x18CAegPMjo":       link.ErrNewer, // version 2
		"rules=x18BCc356cs":       link.ErrNewer, // kind 9
		"rules=x18BAcMiYfk" + "A": link.ErrDamaged,
	} {
		if _, _, err := link.Decode(text); !errors.Is(err, want) {
			t.Errorf("%.30q: %v, want %v", text, err, want)
		}
	}
}

// What is read is written again the same.
func FuzzDecode(f *testing.F) {
	for _, data := range []string{"", "seat tilt"} {
		text, _ := link.Encode(link.Rules, []byte(data))
		f.Add(text)
	}
	f.Add("http://x/#rules=x18BAQ")
	f.Fuzz(func(t *testing.T, text string) {
		kind, data, err := link.Decode(text)
		if err != nil {
			return
		}
		again, err := link.Encode(kind, data)
		if err != nil || !strings.HasSuffix(strings.Join(strings.Fields(text), ""), again) {
			t.Errorf("%q is written again as %q, %v", text, again, err)
		}
	})
}
