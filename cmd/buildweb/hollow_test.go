package main

import (
	"strings"
	"testing"
)

func TestHollows(t *testing.T) {
	const src = `package p

type t struct{}

func (t) a(n int) { print(n) }

func (*t) b() { print("b") }

func (t) c() int { return 3 }

func d() *t { return &t{} } // kept

func e()
`
	got, err := applyHollows([]byte(src), []hollow{{"t.*", ""}, {"d", "return nil"}})
	want := strings.NewReplacer("{ print(n) }", "{  }", `{ print("b") }`, "{  }", "{ return &t{} }", "{ return nil }").Replace(src)
	if err != nil || string(got) != want {
		t.Errorf("%v\n%s", err, got)
	}
	for _, tt := range []struct {
		of   hollow
		want string
	}{
		{hollow{"gone", ""}, "no function gone"},
		{hollow{"a", ""}, "no function a"}, // a method
		{hollow{"u.*", ""}, "no function u.*"},
		{hollow{"e", ""}, "no function e"}, // it has no body
		{hollow{"d", ""}, "returns something"},
	} {
		if _, err := applyHollows([]byte(src), []hollow{tt.of}); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%v: %v, want it to say %q", tt.of, err, tt.want)
		}
	}
	if _, err := applyHollows([]byte("cloth"), []hollow{{"a", ""}}); err == nil {
		t.Error("what is not Go was read")
	}
}
