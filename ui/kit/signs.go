package kit

import (
	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/say"
)

// Signs tell what the signs and colours of findings mean. They stand under findings,
// so that a heading says that they are none, and the mildest comes first.
func Signs(w *say.Words) []app.UI {
	return []app.UI{
		P().Body(Strong().Text(w.T("What the signs mean"))),
		signOf("note-fine", Fine.Sign(), w.T("Green: checked, and it holds.")),
		signOf("note-mind", Mind.Sign(), w.T("Brown: you may cut. Look at this first.")),
		signOf("note-stop", Stop.Sign(), w.T("Red: do not cut. Mend this first.")),
		signOf("", "≈", w.T("Not taken but estimated: measure it when you can.")),
	}
}

func signOf(class, sign, text string) app.UI {
	return P().Class("sign-of", class).Body(Span().Class("sign").Aria("hidden", "true").Text(sign), Span().Text(text))
}
