//go:build !js

package ui

import (
	"bytes"
	"context"
	"os"
	"reflect"
	"strings"
	"testing"

	asked "chalkfold/draft/lesson"
	"chalkfold/draft/unit"
	"chalkfold/sync/store/mem"
	class "chalkfold/ui/lesson"
)

// sittingOfAll has something of everything that a lesson's record holds.
func sittingOfAll() *Sitting {
	return &Sitting{
		Sitting: asked.Sitting{
			Student: "Second bench", At: "front.waist_side", Over: true,
			Answers: []asked.Answer{
				{Step: "quarter_hip", Label: "hip quarter", Is: "10½", Tries: []string{"21", "10½"}, Right: true},
				{Step: "quarter_waist", Label: "waist quarter", Is: "8½", Shown: true},
			},
		},
		Job: []byte(`{"format":1}`), Day: "2031-05-17",
	}
}

func TestLessonRecord(t *testing.T) {
	data, err := sittingOfAll().Encode()
	if err != nil {
		t.Fatal(err)
	}
	old, err := os.ReadFile("testdata/lesson-1.json")
	if err != nil {
		t.Fatalf("%v; today it is\n%s", err, data)
	}
	if strings.TrimSpace(string(old)) != string(data) {
		t.Errorf("version 1 was written as\n%s, now\n%s", old, data)
	}
	s, err := DecodeSitting(old)
	if err != nil || !reflect.DeepEqual(s, sittingOfAll()) {
		t.Errorf("read again it is %+v (%v)", s, err)
	}
	for _, bad := range []string{"", "{}", `{"version": 2}`, `{"version": 1, "answers": 3}`} {
		if _, err := DecodeSitting([]byte(bad)); err == nil {
			t.Errorf("%q was read as a lesson", bad)
		}
	}
}

// answer types an answer on the pad's keys and has it checked.
func (b tried) answer(text string) {
	b.t.Helper()
	v := b.lessonView()
	if v.State == class.Wrong {
		v.OnAgain()
	}
	v.OnText(text)
	v.OnCheck()
	b.settle()
}

// A lesson of a job is kept as it goes, and goes on where the window was closed.
func TestLessonGoesOn(t *testing.T) {
	s := &mem.Store{}
	b := open(t, s, nil)
	b.openSample()
	b.settle()
	b.draftView().OnLesson()
	b.wantLessons(false)
	b.settle()
	b.shows("Begin: Alto 3")
	b.lessonView().OnBegin()
	b.settle()
	v := b.lessonView()
	if v.State != class.Asked || len(v.Given) == 0 || strings.Contains(v.Replay.Scene.SVG, "now") {
		t.Fatalf("it is not asked: %+v", v)
	}
	right := v.Sum[strings.LastIndex(v.Sum, " ")+1:]
	b.answer("wide")
	if v := b.lessonView(); v.Bad == "" || len(b.view.lesson.open.Answers) > 0 {
		t.Error("a word is taken for an answer")
	}
	b.answer("1")
	b.shows("Not 1", "The rule:", "Try again")
	b.answer(right)
	b.shows("✓", "Right", v.Sum[strings.Index(v.Sum, "="):])
	b.lessonView().OnNext(true)
	b.settle()
	b.answer("1")

	next := open(t, s, nil)
	next.stage = stageLesson
	next.wantLessons(true)
	next.settle()
	v = next.lessonView()
	if !v.Open || v.No != 2 || v.State != class.Asked {
		t.Fatalf("the next window has %+v", v)
	}
	v.OnShow()
	next.lessonView().OnMarks(true)
	next.lessonView().OnStudent("Second bench")
	next.settle()
	next.shows("0 of 2 right at once, 1 after more tries, 1 shown.")
	if got := next.lessonView(); got.Student != "Second bench" || len(got.Marks.Rows) != 2 {
		t.Errorf("the marksheet is %+v", got.Marks)
	}
	next.lessonView().OnLeave()
	next.settle()
	next.shows("Kept on this phone", "Second bench, Alto 3: trousers", "Go on")
	id := next.lessonView().Kept[0].ID
	next.lessonView().OnDelete(id)
	next.lessonView().OnDelete(id)
	next.settle()
	if all, _ := s.List(context.Background(), sittingKind); len(all) != 0 || len(next.lessonView().Kept) != 0 {
		t.Error("it is not deleted")
	}
}

// A lesson of a draft that came by a link keeps nothing, until that is wished.
func TestLessonOfALink(t *testing.T) {
	_, address := linked(t)
	s := &mem.Store{}
	b := open(t, s, nil)
	b.stage = stageShare
	b.shareView().OnPaste(address)
	b.settle()
	b.shows("Take the lesson") // on a middle figure: no measurements came
	b.shareView().OnLesson()
	b.answer("1")
	b.settle()
	kept := func() int {
		all, err := s.List(context.Background(), sittingKind)
		if err != nil {
			t.Fatal(err)
		}
		return len(all)
	}
	if kept() != 0 || b.job.File.Name != "" {
		t.Error("something is kept that nobody wished, or lies on the desk")
	}
	b.lessonView().OnKeep()
	b.settle()
	if kept() != 1 {
		t.Error("it is not kept")
	}
	b.lessonView().OnKeep()
	b.settle()
	if kept() != 0 {
		t.Error("it is still kept")
	}
}

// Every question of the sample has its sum told once it is answered, and what
// is asked for is not drawn before.
func TestLessonToTheEnd(t *testing.T) {
	b := open(t, &mem.Store{}, nil)
	b.openSample()
	b.settle()
	b.turn(stageLesson)
	b.lessonView().OnBegin()
	for range b.view.lesson.Steps() {
		v := b.lessonView()
		if v.Marking {
			t.Fatal("the marks come too early")
		}
		if v.State == class.Asked {
			at := &b.view.lesson
			b.answer(at.Right(b.place()) + " " + unit.Inches.String())
			if v = b.lessonView(); v.State != class.Right || v.Sum == "" {
				t.Fatalf("%s: %+v", v.Replay.Title, v.State)
			}
		}
		v.OnNext(false)
	}
	b.settle()
	v := b.lessonView()
	if !v.Marking || v.Marks.First != len(v.Marks.Rows) || v.Marks.First < 30 {
		t.Errorf("after the last step: marks %v, %d of %d", v.Marking, v.Marks.First, len(v.Marks.Rows))
	}
	var file []byte
	b.hand = func(_, kind string, f []byte, _ bool, done func(bool)) {
		if kind == pdfKind {
			file = f
		}
		done(true)
	}
	v.OnFile("marks", false)
	b.settle()
	if !bytes.HasPrefix(file, []byte("%PDF-")) {
		t.Errorf("the marksheet is no PDF: %.20q, %s", file, b.view.share.told)
	}
}
