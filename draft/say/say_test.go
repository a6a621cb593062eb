package say_test

import (
	"errors"
	"fmt"
	"testing"

	"chalkfold/draft/say"
)

func french(t *testing.T) *say.Words {
	t.Helper()
	w, err := say.Read("fr\n" +
		"Hip\tBassin\n" +
		"%s of %s\t%[2]s : %[1]s\n" +
		"%d things\t%d chose\t%d choses\n" +
		"%d things in %s\t%d chose dans %s\t%d choses dans %s\n" +
		"one\\ntwo\tun\\ndeux\n" +
		"%s is missing\til manque %s\n")
	if err != nil {
		t.Fatal(err)
	}
	return w
}

func TestWords(t *testing.T) {
	fr := french(t)
	missing := say.Errorf("%s is missing", say.Name("Hip"))
	for _, tt := range []struct {
		w    *say.Words
		got  func(*say.Words) string
		want string
	}{
		{nil, func(w *say.Words) string { return w.T("Hip") }, "Hip"},
		{fr, func(w *say.Words) string { return w.T("Hip") }, "Bassin"},
		{fr, func(w *say.Words) string { return w.T("Waist") }, "Waist"},
		{fr, func(w *say.Words) string { return w.T("one\ntwo") }, "un\ndeux"},
		{nil, func(w *say.Words) string { return w.F("%s of %s", "a", "b") }, "a of b"},
		{fr, func(w *say.Words) string { return w.F("%s of %s", "a", say.Name("Hip")) }, "Bassin : a"},
		{nil, func(w *say.Words) string { return w.N(0, "%d thing", "%d things") }, "0 things"},
		{nil, func(w *say.Words) string { return w.N(1, "%d thing", "%d things") }, "1 thing"},
		{fr, func(w *say.Words) string { return w.N(0, "%d thing", "%d things") }, "0 chose"},
		{fr, func(w *say.Words) string { return w.N(2, "%d thing", "%d things") }, "2 choses"},
		{fr, func(w *say.Words) string {
			return w.N(2, "%d thing in %s", "%d things in %s", say.Name("Hip"))
		}, "2 choses dans Bassin"},
		{fr, func(w *say.Words) string { return w.F("%.1f mm", 2.25) }, "2,2 mm"},
		{nil, func(w *say.Words) string { return w.F("%.0f mm", 2.25) }, "2 mm"},
		{nil, func(w *say.Words) string { return w.N(1, "the one thing", "all %d things") }, "the one thing"},
		{nil, func(w *say.Words) string { return w.Decimal("26.7") }, "26.7"},
		{fr, func(w *say.Words) string { return w.Decimal("26.7") }, "26,7"},
		{fr, func(w *say.Words) string {
			return w.Say(say.Of("%s of %s", say.List{say.Name("Hip"), say.Of("Waist")}, "3"))
		}, "3 : Bassin, Waist"},
		{nil, func(w *say.Words) string { return w.Say(say.Either("a", "b", "c")) }, "a or b or c"},
		{fr, func(w *say.Words) string { return w.Say(say.Of("%s of %s", say.Within("Hip"), say.Word("x"))) }, "x : bassin"},
		{nil, func(w *say.Words) string { return w.Say(say.Of("100 %, no less")) }, "100 %, no less"},
		{nil, func(w *say.Words) string { return w.Err(missing) }, "Hip is missing"},
		{fr, func(w *say.Words) string { return w.Err(fmt.Errorf("lay: %w", missing)) }, "il manque Bassin"},
		{fr, func(w *say.Words) string { return w.Err(errors.New("no file")) }, "no file"},
	} {
		if got := tt.got(tt.w); got != tt.want {
			t.Errorf("%q, want %q", got, tt.want)
		}
	}
}

func TestErrorWraps(t *testing.T) {
	cause := errors.New("no file")
	err := say.Errorf("%s: %v", say.Name("Hip"), cause)
	if !errors.Is(err, cause) || err.Error() != "Hip: no file" {
		t.Errorf("%v wraps %v", err, errors.Unwrap(err))
	}
}

// What is written is read, and a text said from it.
func TestWrite(t *testing.T) {
	fr, _ := say.Find("fr")
	texts := []say.Text{{English: "a\nb", Said: []string{"c\nd"}}, {English: "%d x", Said: []string{"%d y", "%d z"}}}
	w, err := say.Read(say.Write(fr, texts))
	if err != nil {
		t.Fatal(err)
	}
	for _, x := range texts {
		if got := w.T(x.English); got != x.Said[0] {
			t.Errorf("%q said %q, want %q", x.English, got, x.Said[0])
		}
	}
	if got := w.N(2, "", "%d x"); got != "2 z" || w.Language().ID != "fr" {
		t.Errorf("two in %s: %q", w.Language().ID, got)
	}
	for _, bad := range []string{"", "xx\n", "fr\nno translation\n"} {
		if _, err := say.Read(bad); err == nil {
			t.Errorf("%q is read", bad)
		}
	}
}

func TestJoin(t *testing.T) {
	fr := say.New(say.English(), []say.Text{{English: "%s; %s", Said: []string{"%s\u00a0; %s"}}})
	for _, tt := range []struct {
		words *say.Words
		texts []string
		want  string
	}{{nil, nil, ""}, {nil, []string{"a"}, "a"}, {nil, []string{"a", "b", "c"}, "a; b; c"}, {fr, []string{"a", "b"}, "a\u00a0; b"}} {
		if got := tt.words.Join(tt.texts); got != tt.want {
			t.Errorf("%q, want %q", got, tt.want)
		}
	}
}
