package lesson

import (
	"math"

	"chalkfold/draft/construct"
	"chalkfold/draft/say"
	"chalkfold/draft/unit"
)

// Reply is what is said to an answer.
type Reply struct {
	Right bool
	// Of a wrong answer:
	Slip string // what she may have done; how far off it is where no slip gives it
	Hers string // the sum that gives her answer: "42 ÷ 2 = 21"; empty where none is known
	Rule string // the formula in words: "hip girth ÷ 4"
	Sum  string // and in figures: "42 ÷ 4"; empty where that is the same
}

// Check says whether an answer to a step that is asked for is right. The error
// is that of a text that is no length.
func (l *Lesson) Check(i int, text string) (Reply, error) {
	q, err := unit.Parse(text, l.f.System)
	if err != nil {
		return Reply{}, err
	}
	s, hers := l.r.Steps()[i], q.Length().MM()
	if l.fits(s, s.Formula, hers) {
		return Reply{Right: true}, nil
	}
	var out Reply
	out.Rule, out.Sum = l.r.Written(s, s.Formula, l.f)
	if out.Sum == out.Rule {
		out.Sum = ""
	}
	out.Slip, out.Hers = l.slip(s, hers)
	return out, nil
}

// fits reports whether a formula in the place of a step's gives a figure: as it
// is, or with the figures shown.
func (l *Lesson) fits(s construct.Step, f construct.Formula, mm float64) bool {
	exact, ok := l.r.Work(s, f)
	shown, _ := l.r.WorkShown(s, f, l.f)
	return ok && (l.near(mm, exact) || l.near(mm, shown))
}

// slip is what may have led to a wrong answer, and how it gives that: a slip
// that gives just her figure, another unit, or one that the tape rounds to it.
func (l *Lesson) slip(s construct.Step, hers float64) (says, sum string) {
	if says, sum = l.worked(s, hers, l.f.Finest().MM()/2); says == "" {
		if says = l.misread(s.Value, hers); says == "" {
			says, sum = l.worked(s, hers, math.Inf(1))
		}
	}
	if says == "" {
		says = l.off(s.Mm(), unit.Length(hers))
	}
	return says, sum
}

// worked is the likeliest slip in the sum that gives a figure, so near; nothing
// when there is none.
func (l *Lesson) worked(s construct.Step, hers, near float64) (says, sum string) {
	for _, v := range l.r.Slips(s) {
		mm, ok := l.r.WorkShown(s, v.Formula, l.f)
		if !ok || mm <= 0 || math.Abs(mm-hers) > near || !l.near(mm, hers) {
			continue
		}
		_, sum = l.r.Written(s, v.Formula, l.f)
		if value := l.f.Bare(unit.Length(mm)); sum != value {
			sum += l.equals(unit.Length(mm)) + value
		}
		return l.says(s, v), sum
	}
	return "", ""
}

// misread is said of a figure that is right in the other unit, or but for its
// point.
func (l *Lesson) misread(right, hers float64) string {
	w, inches := l.f.Words, unit.Inch.MM()/10
	switch metric := l.f.System.Metric(); {
	case !metric && l.near(hers/inches, right):
		return w.T("That is the figure in centimetres; this tape is in inches.")
	case metric && math.Abs(hers*inches-right) < unit.Inch.MM()/8:
		return w.T("That is the figure in inches; this tape is in centimetres.")
	case metric && (l.near(hers/10, right) || math.Abs(hers*10-right) < 10):
		return w.T("The decimal point stands in the wrong place.")
	}
	return ""
}

// off says how far a figure is from the right one.
func (l *Lesson) off(right, hers unit.Length) string {
	w, by := l.f.Words, hers-l.f.Round(right)
	if one := l.f.System.One(); by != 0 && math.Abs(math.Remainder(by.MM(), one.MM())) < one.MM()/1000 {
		return w.T("The fraction is right. Count the whole again.")
	}
	if by < 0 {
		return w.F("It is %s too little.", l.f.Text(-by))
	}
	return w.F("It is %s too much.", l.f.Text(by))
}

// equals stands before a figure: it says so when the tape cannot show it.
func (l *Lesson) equals(v unit.Length) string {
	const told = 0.1 // of the finest mark of the tape
	if math.Abs((l.f.Round(v) - v).MM()) > told*l.f.Finest().MM() {
		return " ≈ "
	}
	return " = "
}

// says puts a slip in words.
func (l *Lesson) says(s construct.Step, v construct.Slipped) string {
	w := l.f.Words
	part, figure := l.r.Written(s, v.Part, l.f)
	if figure != part {
		part = w.F("%s (%s)", part, figure)
	}
	switch v.Slip {
	case construct.LeftOut:
		return w.F("Did you leave this out? %s", part)
	case construct.Divided:
		if a, b := share(v.Had, w), share(v.Is, w); a != "" && b != "" {
			return w.F("Did you take %s? It is %s.", a, b)
		}
		return w.F("Did you divide by %g? It is divided by %s.", v.Had, part)
	case construct.Whole:
		return w.F("Did you leave out to divide or to multiply? By %s", part)
	case construct.Added:
		return w.F("Did you add this? It is taken away: %s", part)
	case construct.TakenAway:
		return w.F("Did you take this away? It is added: %s", part)
	case construct.OtherEnd:
		return w.F("Did you take the wrong one of the two? It is %s.", part)
	case construct.Unbracketed:
		return w.F("Work this out first: %s", part)
	case construct.Instead:
		label, _, _ := l.r.Named(s, v.Took, l.f)
		return w.F("Did you use the %s? This is for the %s.", label, part)
	}
	return ""
}

// share names a part by its divisor; nothing where it has no name.
func share(by float64, w *say.Words) string {
	switch by {
	case 2:
		return w.T("a half")
	case 3:
		return w.T("a third")
	case 4:
		return w.T("a quarter")
	case 8:
		return w.T("an eighth")
	case 16:
		return w.T("a sixteenth")
	}
	return ""
}
