package ui

import (
	"errors"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"chalkfold/draft/job"
	"chalkfold/draft/qr"
	"chalkfold/draft/rules"
	"chalkfold/draft/slip"
	"chalkfold/sync/link"
	"chalkfold/ui/share"
)

// giving is the link that carries the job.
type giving struct {
	what   slip.What
	shown  bool // the code
	of     given
	link   string // fragment
	err    error
	code   string // the code as a picture
	noCode error
}

// given is what a link was made of.
type given struct {
	change, gen int
	what        slip.What
	lay         drawn
}

// address is that of the page, without a fragment.
func address() string {
	u := *app.Window().URL()
	u.Fragment = ""
	return u.String()
}

// navigatorHas reports whether the browser can do that: copy, or share.
func navigatorHas(what string) bool {
	n := app.Window().Get("navigator")
	return n != nil && n.Truthy() && n.Get(what).Truthy()
}

// handOverLink sends the link that lends the house rules, or copies it. Nothing
// else of the house goes with it.
func (d *Desk) handOverLink(send bool) {
	d.sendText(address()+"#"+d.view.house.lent, send, func(told string) { d.view.house.told = told })
}

// linkView is the link of the job, made anew where the job or what goes with it
// is another.
func (d *Desk) linkView() share.Link {
	g := &d.view.share.giving
	now := given{d.change, d.work.Gen, g.what, drawn{}}
	now.what.Cloth = g.what.Cloth && g.what.Measurements && d.laid()
	if now.what.Cloth {
		now.lay = d.laying.drawn
	}
	if now != g.of {
		g.of, g.code, g.noCode = now, "", nil
		g.link, g.err = d.linkOf(now.what)
	}
	v := share.Link{
		Ticket: d.job.File.Name, Measurements: now.what.Measurements, Name: now.what.Name, Lay: now.what.Cloth,
		MayLay: d.laid(), Shown: g.shown, Sends: navigatorHas("share"),
	}
	if g.err != nil {
		v.Fault = d.F("There is no link: %s", sentenceOf(d.Err(g.err)))
		return v
	}
	v.Address = address() + "#" + g.link
	if g.shown && g.code == "" && g.noCode == nil {
		c, err := qr.Of(v.Address)
		if g.noCode = err; err == nil {
			g.code = c.SVG()
		}
	}
	v.Code = g.code
	if g.noCode != nil {
		v.NoCode = d.T("This is more than a code can hold. Send it as a link, or leave something out.")
	}
	return v
}

// linkOf is the fragment of a link with that of the job.
func (d *Desk) linkOf(what slip.What) (string, error) {
	file, kind := d.job.File, link.Draft
	if what.Cloth {
		kind = link.Lay
		file.Cloth = []job.Cloth{d.laidCloth()}
	}
	data, err := slip.Encode(slip.Give(file, what))
	if err != nil {
		return "", err
	}
	return link.Encode(kind, data)
}

// laidCloth is the cloth that is laid, its pieces kept where they lie.
func (d *Desk) laidCloth() job.Cloth {
	l := d.laying
	c := d.job.File.Cloth[l.cloth]
	c.Kept = nil
	for _, p := range l.shown.Placements {
		if l.shown.Cloth.CanLock(l.shown.Items[p.Item], p.Opened) { // others are laid anew
			c.Kept = append(c.Kept, l.shown.Keep(p.Item, p.Spot, l.shown.FoldedTo))
		}
	}
	return c
}

// tickLink puts something into the link, or takes it out.
func (d *Desk) tickLink(id string) {
	w := &d.view.share.giving.what
	switch id {
	case share.TickMeasurements:
		w.Measurements = !w.Measurements
	case share.TickName:
		w.Name = !w.Name
	case share.TickLay:
		w.Cloth = !w.Cloth
	}
	d.tellShared("", "")
}

// sendLink sends the link of the job, or copies it.
func (d *Desk) sendLink(send bool) {
	if v := d.linkView(); v.Address != "" {
		d.sendText(v.Address, send, func(told string) { d.tellShared("link", told) })
	}
}

// hearLink looks at what the address of the page carries.
func (d *Desk) hearLink(fragment string) bool {
	if d.hearPairing(fragment) {
		d.stage = stageCopy
		return true
	}
	kind, ok := link.KindOf(fragment)
	if !ok {
		return false
	}
	d.leaveOrder()
	if kind == link.Rules {
		d.stage = stageHouse
		d.lookAt(fragment)
		return true
	}
	d.stage = stageShare
	d.lookAtLink(fragment)
	return true
}

// sayLinkRefused says why a link is refused.
func (d *Desk) sayLinkRefused(err error) string {
	switch {
	case errors.Is(err, link.ErrNone):
		return d.T("This is no link that this program made. Paste the whole of it, with what stands after the # sign.")
	case errors.Is(err, link.ErrDamaged), errors.Is(err, rules.ErrLentDamaged), errors.Is(err, slip.ErrDamaged):
		return d.T("The link is damaged or cut short. Have it sent again, and paste the whole of it.")
	case errors.Is(err, link.ErrNewer), errors.Is(err, rules.ErrLentNewer), errors.Is(err, slip.ErrNewer):
		return d.T("The link is of a newer Chalkfold. Take the newer version, then open it again.")
	case errors.Is(err, link.ErrTooLong):
		return d.T("This is too long for a link of this program.")
	}
	return sentenceOf(d.Err(err))
}
